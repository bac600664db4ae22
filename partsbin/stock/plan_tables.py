"""The table of reservations: which part is laid aside for which slot of which bike."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Index, func, text
from sqlalchemy.orm import Mapped, relationship

from partsbin.stock.columns import Id, refers
from partsbin.stock.ids import ActId, BikeId, PartId
from partsbin.stock.models import Base, Bike, Part


class Reservation(Base):
    """A quantity of a part that a plan laid aside; `slot` is empty for an adapter."""

    __tablename__ = "reservation"
    __table_args__ = (
        CheckConstraint("quantity > 0", name="quantity_above_nothing"),
        Index("ix_reservation_part_id", "part_id", "bike_id"),
        Index("ix_reservation_bike_id", "bike_id"),
    )

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id")
    part_id: Mapped[PartId] = refers("part.id")
    bike_id: Mapped[BikeId] = refers("bike.id")
    slot: Mapped[str]
    quantity: Mapped[int]

    part: Mapped[Part] = relationship()
    bike: Mapped[Bike] = relationship()


# A plan asks of each spec for the parts of least value, the oldest first, and reads no others.
Index(
    "ix_part_in_order_of_use",
    Part.spec_id,
    func.coalesce(Part.value, text("0")),
    Part.id,
    sqlite_where=text("in_bins > 0"),
    postgresql_where=text("in_bins > 0"),
)
