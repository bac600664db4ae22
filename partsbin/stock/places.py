"""Bins and the other places: add them, find them by number or name, say where something is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import bindparam, func, insert, select

from labels.number import LabelNumber, NumberError, Thing, compact, thing_of, validate
from partsbin.errors import UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.stock.errors import TakenError, UnknownError
from partsbin.stock.ids import PlaceId
from partsbin.stock.models import BinSum, Place
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.numbers import take_number
from partsbin.stock.sending import Change, Question, named
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

LONGEST_NAME = 40
NOT_A_NAME = {place.value for place in PlaceType}
LOOSE = "loose"
"""The name of a bike's place for what is in none of its slots."""
BY_NUMBER = select(Place).where(Place.number == bindparam("number"))
BY_NAME = select(Place).where(
    Place.type == PlaceType.BIN,
    func.coalesce(Place.bike_id, 0) == 0,  # as the index of names has it
    func.lower(Place.name) == func.lower(bindparam("name")),
)
NEW_SUM = Change(insert(BinSum).values(named("place_id", "parts", "cost")))
BINS = Question(
    select(
        *(Place.id, Place.number, Place.name, Place.note, Place.location),
        *(BinSum.parts, BinSum.cost),
    )
    .join(BinSum, BinSum.place_id == Place.id)
    .order_by(Place.name, Place.id)
)


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
    if session.scalar(BY_NAME, {"name": name}) is not None:
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
    NEW_SUM.send(session, place_id=place.id, parts=0, cost=NOTHING)
    return place


def bin_named(session: Session, text: str) -> Place:
    """Return the bin of that number or name. Raises `UnknownError` with the nearest name."""
    if looks_like_number(text):
        number = read_number(text, Thing.BIN)
        found = session.scalar(BY_NUMBER, {"number": number})
    else:
        found = session.scalar(BY_NAME, {"name": " ".join(text.split())})
    if found is None:
        names = session.scalars(select(Place.name).where(Place.type == PlaceType.BIN))
        raise UnknownError("bin", text.strip(), nearest(text, list(names)))
    return found


def list_bins(session: Session) -> list[Bin]:
    """Return all bins by name, with what is in them."""
    return [
        Bin(id_, _number_of(number), name, note, location, parts, cost)
        for id_, number, name, note, location, parts, cost in BINS.rows(session)
    ]


def _number_of(number: LabelNumber | None) -> LabelNumber:
    assert number is not None  # a constraint of the table
    return number
