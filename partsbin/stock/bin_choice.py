"""The bin where a kind of part belongs: where most of its kind are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import func, select

from partsbin.stock.models import Holding, Part, Place, RecordedSpec
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


def bin_of_kind(session: Session, kind: str) -> Place | None:
    """Return the bin that holds the most parts of a kind, None if none holds any."""
    of_kind = select(Part.id).join(Part.spec).where(RecordedSpec.kind == kind, Part.in_bins > 0)
    # Summed by place before places are looked at: else SQLite would begin with all the bins.
    held = (
        select(Holding.place_id, func.count().label("parts"))
        .where(Holding.part_id.in_(of_kind), Holding.quantity > 0)
        .group_by(Holding.place_id)
        .subquery()
    )
    query = (
        select(Place)
        .join(held, held.c.place_id == Place.id)
        .where(Place.type == PlaceType.BIN)
        .order_by(held.c.parts.desc(), Place.id)
    )
    return session.scalars(query.limit(1)).first()
