"""Parts and places as a sentence names them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select

from labels.number import LabelNumber, grouped
from partsbin.kinds.spec import in_words
from partsbin.stock.errors import UnknownError
from partsbin.stock.models import Bike, Holding, Part, Place, RecordedSpec
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.ids import PartId, PlaceId


def title(kind: str, number: LabelNumber) -> str:
    """Return a part as a sentence names it.

    >>> title("rear_derailleur", LabelNumber("20012303"))
    'rear derailleur 2001 2303'
    """
    return f"{in_words(kind)} {grouped(number)}"


def part_title(session: Session, part: PartId) -> str:
    """Return a part as a sentence names it. Raises `UnknownError` if there is none."""
    query = select(RecordedSpec.kind, Part.number).join(Part.spec).where(Part.id == part)
    row = session.execute(query).one_or_none()
    if row is None:
        raise UnknownError("part", str(part))
    kind, number = row
    return title(kind, number)


def words_for(type: PlaceType, name: str, bike: str | None) -> str:
    """Return a place as a sentence names it.

    >>> words_for(PlaceType.SLOT, "rear shifter", "Bracken"), words_for(PlaceType.BIN, "A1", None)
    ("Bracken's rear shifter slot", 'bin A1')
    """
    if type is PlaceType.BIN:
        return f"bin {name}"
    if type is PlaceType.SLOT:
        return f"{bike}'s {name} slot"
    if type is PlaceType.BIKE:
        return f"bike {bike}"
    return {PlaceType.SUPPLIER: "the supplier", PlaceType.SCRAPPED: "scrap"}.get(type, name)


def place_title(session: Session, place: PlaceId) -> str:
    """Return a place as a sentence names it. Raises `UnknownError` if there is none."""
    query = select(Place.type, Place.name, Bike.name).outerjoin(Bike, Bike.id == Place.bike_id)
    row = session.execute(query.where(Place.id == place)).one_or_none()
    if row is None:
        raise UnknownError("place", str(place))
    type_, name, bike = row
    return words_for(type_, name, bike)


def whereabouts(session: Session, part: PartId) -> list[str]:
    """Return where a part is now, as a sentence goes on after "it is"."""
    query = (
        select(Place.type, Place.name, Bike.name)
        .join(Holding, Holding.place_id == Place.id)
        .outerjoin(Bike, Bike.id == Place.bike_id)
        .where(Holding.part_id == part, Holding.quantity > 0)
        .order_by(Place.id)
    )
    return [_at(*row) for row in session.execute(query)]


def _at(type: PlaceType, name: str, bike: str | None) -> str:
    if type in {PlaceType.SOLD, PlaceType.SCRAPPED}:
        return str(type)
    return ("on " if type is PlaceType.BIKE else "in ") + words_for(type, name, bike)
