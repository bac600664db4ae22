"""The tables of stock control: counts of bins, minimum levels, and cost formulas.

`bin_count`, `count_line` and `formula_choice` are only ever appended to.
"""

from __future__ import annotations

import enum

from sqlalchemy import CheckConstraint
from sqlalchemy.orm import Mapped, mapped_column

from partsbin.stock.columns import Id, refers
from partsbin.stock.ids import ActId, PartId, PlaceId
from partsbin.stock.models import Base
from partsbin.stock.words import Unit


class AbcClass(enum.StrEnum):
    """How much a kind matters by its annual usage value; `A` matters most."""

    A = "A"
    B = "B"
    C = "C"


class CostFormula(enum.StrEnum):
    """How the cost of what leaves a lot is found (IAS 2 Inventories, paragraph 25)."""

    AVERAGE = "average"
    """The weighted average of what is held."""
    FIFO = "fifo"
    """First in, first out."""


class BinCount(Base):
    """One count of a bin."""

    __tablename__ = "bin_count"

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    place_id: Mapped[PlaceId] = refers("place.id", index=True)


class CountLine(Base):
    """One item of a count: how much the record had, and how much was there."""

    __tablename__ = "count_line"
    __table_args__ = (
        CheckConstraint("recorded >= 0", name="recorded_not_negative"),
        CheckConstraint("counted >= 0", name="counted_not_negative"),
    )

    id: Mapped[Id]
    bin_count_id: Mapped[int] = refers("bin_count.id", index=True)
    part_id: Mapped[PartId] = refers("part.id", index=True)
    recorded: Mapped[int]
    counted: Mapped[int]
    abc: Mapped[AbcClass]
    """The class on the day of the count, which decides the tolerance."""


class MinimumLevel(Base):
    """How much of a lot, or of a kind with some attributes, is to be there, and how it is bought.

    Quantities are pieces or, of what is measured, millimetres.
    """

    __tablename__ = "minimum_level"
    __table_args__ = (
        CheckConstraint("(part_id IS NULL) <> (spec_text IS NULL)", name="lot_or_spec"),
        CheckConstraint("minimum >= 0", name="minimum_not_negative"),
        CheckConstraint("lead_days >= 0", name="lead_days_not_negative"),
        CheckConstraint("lead_spread_days >= 0", name="lead_spread_days_not_negative"),
        CheckConstraint("pack >= 1", name="pack_holds_something"),
    )

    id: Mapped[Id]
    part_id: Mapped[PartId | None] = refers("part.id", unique=True)
    spec_text: Mapped[str | None] = mapped_column(unique=True)
    """A kind, and the attributes that a part must have, as `Spec.from_text` reads them."""
    unit: Mapped[Unit]
    minimum: Mapped[int]
    lead_days: Mapped[int]
    """From the order until it is there."""
    lead_spread_days: Mapped[int]
    """Standard deviation of the lead time."""
    pack: Mapped[int]
    """How much a pack holds."""


class FormulaChoice(Base):
    """The formula that was chosen for a kind, or with an empty kind for all others."""

    __tablename__ = "formula_choice"
    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    kind: Mapped[str] = mapped_column(index=True)
    formula: Mapped[CostFormula]
