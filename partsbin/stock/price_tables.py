"""The table of prices: what generic new parts and adapters cost, as the user's list says."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Index, text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from partsbin.stock.columns import Id, refers
from partsbin.stock.ids import SpecId
from partsbin.stock.models import Base, RecordedSpec
from partsbin.stock.money import Money


class Price(Base):
    """A line of the price list: a new part of a spec, or an adapter that has only a name."""

    __tablename__ = "price"
    __table_args__ = (
        CheckConstraint("price >= 0", name="price_not_negative"),
        CheckConstraint("(spec_id IS NULL) = (named <> '')", name="spec_or_name"),
        Index(
            "uq_price_named",
            "named",
            unique=True,
            sqlite_where=text("named <> ''"),
            postgresql_where=text("named <> ''"),
        ),
    )

    id: Mapped[Id]
    spec_id: Mapped[SpecId | None] = refers("spec.id", unique=True)
    named: Mapped[str]
    price: Mapped[Money]
    lead_days: Mapped[int | None]
    """Days until it comes."""
    note: Mapped[str] = mapped_column()

    spec: Mapped[RecordedSpec | None] = relationship()
