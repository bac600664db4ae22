"""Bins and the other places: add them, find them by number or name, say where something is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from labels.number import LabelNumber, NumberError, Thing, compact, thing_of, validate
from partsbin.errors import UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.stock.errors import TakenError, UnknownError
from partsbin.stock.ids import PlaceId
from partsbin.stock.models import Holding, Place
from partsbin.stock.money import Money
from partsbin.stock.numbers import take_number
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
    from sqlalchemy.orm import Session

LONGEST_NAME = 40
NOT_A_NAME = {place.value for place in PlaceType}
LOOSE = "loose"
"""The name of a bike's place for what is in none of its slots."""


@dataclass(frozen=True, slots=True)
class Bin:
    """A bin and how much is in it."""

    id: PlaceId
    number: LabelNumber
    name: str
    note: str
    location: str
    parts: int
    """How many different parts and lots."""
    cost: Money


def read_name(text: str, what: str) -> str:
    """Return a name with single spaces. Raises `UsageError` for one that cannot be a name.

    What looks like a label number or is the name of a place that every workshop has is no name.
    """
    name = " ".join(text.split())
    if not name or len(name) > LONGEST_NAME or not name.isprintable():
        raise UsageError(f"{text!r} is no name for a {what}; give 1 to {LONGEST_NAME} characters")
    if looks_like_number(name) or name.lower() in NOT_A_NAME:
        raise UsageError(
            f"{name!r} is no name for a {what}: it means something else; choose another"
        )
    return name


def looks_like_number(text: str) -> bool:
    """Return whether a text is digits in the length of a label number, whatever the grouping."""
    digits = compact(text)
    return digits.isdigit() and len(digits) in {8, 10}


def read_number(text: str, *things: Thing) -> LabelNumber:
    """Return the label number of a text. Raises `UsageError` if it is none, or of another thing."""
    try:
        number = validate(text)
    except NumberError as fault:
        raise UsageError(str(fault)) from None
    if thing_of(number) not in things:
        wanted = " or ".join(thing.name.lower() for thing in things)
        found = thing_of(number).name.lower()
        raise UsageError(f"{text.strip()} is the number of a {found}; give that of a {wanted}")
    return number


def add_bin(
    session: Session,
    name: str,
    note: str = "",
    location: str = "",
    number: LabelNumber | None = None,
) -> Place:
    """Return a new bin with the next number, or the one that its label carries already.

    Raises `TakenError` if the name is in use.
    """
    name = read_name(name, "bin")
    if session.scalar(select(Place.id).where(_named(name))) is not None:
        raise TakenError("bin", name)
    place = Place(
        type=PlaceType.BIN,
        name=name,
        number=number or take_number(session, Thing.BIN),
        note=note,
        location=location,
    )
    session.add(place)
    session.flush()
    return place


def _named(name: str) -> ColumnElement[bool]:
    return (
        (Place.type == PlaceType.BIN)
        & (func.coalesce(Place.bike_id, 0) == 0)
        & (func.lower(Place.name) == func.lower(name))
    )


def bin_named(session: Session, text: str) -> Place:
    """Return the bin of that number or name. Raises `UnknownError` with the nearest name."""
    if looks_like_number(text):
        number = read_number(text, Thing.BIN)
        found = session.scalar(select(Place).where(Place.number == number))
    else:
        found = session.scalar(select(Place).where(_named(" ".join(text.split()))))
    if found is None:
        names = session.scalars(select(Place.name).where(Place.type == PlaceType.BIN))
        raise UnknownError("bin", text.strip(), nearest(text, list(names)))
    return found


def list_bins(session: Session) -> list[Bin]:
    """Return all bins by name, with what is in them."""
    held = (
        select(
            Holding.place_id,
            func.count().label("parts"),
            func.sum(Holding.cost).label("cost"),
        )
        .group_by(Holding.place_id)
        .subquery()
    )
    query = (
        select(Place, func.coalesce(held.c.parts, 0), func.coalesce(held.c.cost, 0))
        .outerjoin(held, held.c.place_id == Place.id)
        .where(Place.type == PlaceType.BIN)
        .order_by(Place.name, Place.id)
    )
    return [
        Bin(
            id=place.id,
            number=_number_of(place),
            name=place.name,
            note=place.note,
            location=place.location,
            parts=parts,
            cost=Money(int(cost)),
        )
        for place, parts, cost in session.execute(query)
    ]


def _number_of(place: Place) -> LabelNumber:
    assert place.number is not None  # a constraint of the table
    return place.number
