"""What is done with a number that was read: look it up, put it into a bin or onto a bike."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import select

from labels.number import LabelNumber, Thing, grouped, thing_of
from partsbin.stock.bikes import bike_named
from partsbin.stock.errors import RefusedError
from partsbin.stock.ids import PartId, PlaceId
from partsbin.stock.lookup import contents, where_is
from partsbin.stock.models import Bike, Part, Place
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import bin_named
from partsbin.stock.specs import spec_of
from partsbin.workshop.intake import put
from partsbin.workshop.mounting import Done, mount, place_of

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


@dataclass(frozen=True, slots=True)
class Known:
    """What a number stands for, in words, and where that is."""

    number: LabelNumber
    what: str
    where: str


def exists(session: Session, number: LabelNumber) -> bool:
    """Return whether anything in the record has this number."""
    column = {Thing.BIN: Place.number, Thing.BIKE: Bike.number}.get(thing_of(number), Part.number)
    return session.scalar(select(column).where(column == number)) is not None


def look_up(session: Session, number: LabelNumber) -> Known:
    """Return what a number stands for. Raises `UnknownError` if nothing has it."""
    thing = thing_of(number)
    if thing is Thing.BIN:
        place = bin_named(session, number)
        there = contents(session, PlaceId(place.id))
        return Known(number, f"bin {place.name}", f"{len(there)} parts and lots in it")
    if thing is Thing.BIKE:
        bike = bike_named(session, number)
        return Known(number, f"bike {bike.name}", str(bike.state))
    part = part_by_number(session, number)
    spec = spec_of(part.spec.text)
    where = " and ".join(map(place_of, where_is(session, PartId(part.id))))
    return Known(number, f"{spec.brief}, {part.grade}", where)


def act_on(
    session: Session,
    number: LabelNumber,
    *,
    onto: str = "",
    into: str = "",
    slot: str = "",
    anyway: bool = False,
) -> Done:
    """Mount the part of a number onto a bike, or put it into a bin, and return what was done."""
    if thing_of(number) not in (Thing.PART, Thing.LOT):
        known = look_up(session, number)
        raise RefusedError(f"{grouped(number)} is {known.what}, not a part; nothing was changed")
    if onto:
        return mount(session, number, onto, slot, anyway=anyway)
    return put(session, number, into)
