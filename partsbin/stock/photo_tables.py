"""Which photo shows which part or bike; the pictures are files that are named by their content."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from partsbin.stock.columns import Id, refers
from partsbin.stock.ids import ActId, BikeId, PartId
from partsbin.stock.models import Base


class Photo(Base):
    """A picture of a part or of a bike; one picture may show several of them."""

    __tablename__ = "photo"
    __table_args__ = (
        CheckConstraint("(part_id IS NULL) <> (bike_id IS NULL)", name="of_part_or_bike"),
        UniqueConstraint("part_id", "digest"),
        UniqueConstraint("bike_id", "digest"),
    )

    id: Mapped[Id]
    digest: Mapped[str] = mapped_column(String(64), index=True)
    """SHA-256 of the picture's file as it is kept, in hexadecimal; the file's name."""
    part_id: Mapped[PartId | None] = refers("part.id")
    bike_id: Mapped[BikeId | None] = refers("bike.id")
    act_id: Mapped[ActId] = refers("act.id", index=True)
    width: Mapped[int]
    height: Mapped[int]
    note: Mapped[str]
