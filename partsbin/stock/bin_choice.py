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
    query = (
        select(Place)
        .join(Holding, Holding.place_id == Place.id)
        .join(Part, Part.id == Holding.part_id)
        .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
        .where(Place.type == PlaceType.BIN, RecordedSpec.kind == kind, Holding.quantity > 0)
        .group_by(Place.id)
        .order_by(func.count().desc(), Place.id)
    )
    return session.scalars(query.limit(1)).first()
