"""The tables of what was edited, undone, checked before a sale and estimated; all are appended to.

Rows of an act that was undone stay and are left out by whoever reads them.
"""

from __future__ import annotations

from sqlalchemy import Boolean, CheckConstraint
from sqlalchemy.orm import Mapped, mapped_column

from partsbin.stock.columns import Id, refers
from partsbin.stock.ids import ActId, BikeId, PartId
from partsbin.stock.models import Base
from partsbin.stock.money import Money


class Edit(Base):
    """A field of a part or a bike that an act changed; a bike that came in has no `before`."""

    __tablename__ = "edit"
    __table_args__ = (
        CheckConstraint("(part_id IS NULL) <> (bike_id IS NULL)", name="part_or_bike"),
    )

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    part_id: Mapped[PartId | None] = refers("part.id", index=True)
    bike_id: Mapped[BikeId | None] = refers("bike.id", index=True)
    field: Mapped[str]
    before: Mapped[str | None]
    after: Mapped[str | None]


class UndoneAct(Base):
    """An act that another one took back with opposite movements and entries."""

    __tablename__ = "undone_act"

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", unique=True)
    by_act_id: Mapped[ActId] = refers("act.id", unique=True)


class BikeCheck(Base):
    """What a named person found when checking one item of a bike before its sale."""

    __tablename__ = "bike_check"

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    bike_id: Mapped[BikeId] = refers("bike.id", index=True)
    item: Mapped[str]
    ok: Mapped[bool] = mapped_column(Boolean(create_constraint=True, name="ok_yes_or_no"))
    checked_by: Mapped[str]
    note: Mapped[str]


class BikeEstimate(Base):
    """What a bike is expected to sell for, and what it will still cost until then."""

    __tablename__ = "bike_estimate"
    __table_args__ = (
        CheckConstraint("price >= 0", name="price_not_negative"),
        CheckConstraint("to_complete >= 0", name="to_complete_not_negative"),
    )

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    bike_id: Mapped[BikeId] = refers("bike.id", index=True)
    price: Mapped[Money]
    to_complete: Mapped[Money]
