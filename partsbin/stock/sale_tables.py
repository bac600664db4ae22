"""The table of parts that were sold by themselves, over the counter. It is only ever appended to.

What such a part cost went with its movement to `sold` in the same act. A row whose act was undone
stays and is left out by whoever reads it.
"""

from __future__ import annotations

import datetime as dt

from sqlalchemy import CheckConstraint, Date
from sqlalchemy.orm import Mapped, mapped_column

from partsbin.stock.columns import Id, refers
from partsbin.stock.ids import ActId, PartId
from partsbin.stock.models import Base
from partsbin.stock.money import Money


class PartSale(Base):
    """A quantity of a part that was sold without a bike, and what it brought."""

    __tablename__ = "part_sale"
    __table_args__ = (
        CheckConstraint("quantity > 0", name="something_sold"),
        CheckConstraint("amount >= 0", name="amount_not_negative"),
        CheckConstraint("fee >= 0", name="fee_not_negative"),
    )

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    part_id: Mapped[PartId] = refers("part.id", index=True)
    quantity: Mapped[int]
    amount: Mapped[Money]
    """What the buyer paid for the whole quantity."""
    fee: Mapped[Money]
    """What the selling place or the bank took of it."""
    day: Mapped[dt.date] = mapped_column(Date)
    note: Mapped[str]
