"""The labels of parts, bins and bikes: which words stand on each."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from functools import lru_cache
from typing import TYPE_CHECKING

from sqlalchemy import ColumnElement, exists, select

from labels.label import Label, Shape
from labels.number import Thing, thing_of
from partsbin.errors import NotFoundError, UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec, form_of, in_words
from partsbin.stock.bikes import bike_named, list_bikes
from partsbin.stock.errors import UnknownError
from partsbin.stock.models import Bike, Holding, Part, Place, RecordedSpec
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import bin_named, looks_like_number, read_number
from partsbin.stock.specs import spec_of
from partsbin.stock.words import BikeState, PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

LABELLED_PLACES = (PlaceType.BIN, PlaceType.QUARANTINE)
"""A part that is there carries a label; one on a bike goes by the bike's tag."""
SAID_BY_THE_VALUE = {"side", "style", "type", "marking", "cogs"}
"""Attributes whose value alone says what it is, so that the label keeps the room."""
GONE = (BikeState.SOLD, BikeState.STRIPPED)


def label_of(session: Session, text: str) -> Label:
    """Return the label of what a number or name means: a part, a lot, a bin or a bike.

    Raises `NotFoundError` with the nearest name if nothing is called that, and `UsageError` if
    both a bin and a bike are.
    """
    if looks_like_number(text):
        number = read_number(text, *Thing)
        thing = thing_of(number)
        if thing is Thing.BIN:
            return _bin_label(bin_named(session, number))
        if thing is Thing.BIKE:
            return _bike_label(bike_named(session, number))
        part = part_by_number(session, number)
        return next(_part_labels(session, Part.id == part.id))
    found = list(_named(session, text))
    if len(found) > 1:
        numbers = " or ".join(label.number for label in found)
        raise UsageError(f"{text.strip()!r} is a bin and a bike; give its number, {numbers}")
    if not found:
        bins = session.scalars(select(Place.name).where(Place.type == PlaceType.BIN))
        hint = nearest(text, [*bins, *session.scalars(select(Bike.name))])
        raise NotFoundError(f"there is no part, bin or bike {text.strip()!r} in the record{hint}")
    return found[0]


def all_labels(session: Session) -> Iterator[Label]:
    """Yield the labels of all that carries one: bins, parts and lots by their bins, bikes.

    Left out are parts that are on a bike, scrapped or sold, and bikes that are sold or stripped.
    """
    bins = select(Place).where(Place.type == PlaceType.BIN).order_by(Place.name, Place.id)
    yield from map(_bin_label, session.scalars(bins))
    held = (Holding.part_id == Part.id) & (Holding.quantity > 0)
    there = exists().where(held, Place.id == Holding.place_id, Place.type.in_(LABELLED_PLACES))
    yield from sorted(_part_labels(session, there), key=lambda label: label.bin_name)
    states = [state for state in BikeState if state not in GONE]
    yield from map(_bike_label, list_bikes(session, *states))


def first_lines(spec: Spec) -> tuple[str, ...]:
    """Return the attributes that a mechanic asks for first, as lines of a label.

    A reading is given as the listed size that it is taken for. Without any of the first ones, two
    others stand in.

    >>> first_lines(Spec.check("seatpost", {"diameter_mm": 27.18, "length_mm": 300}))
    ('diameter 27.2 mm', 'length 300 mm')
    >>> first_lines(Spec.check("shifter", {"side": "rear", "speeds": 8}))
    ('rear', 'speeds 8')
    """
    shown = {name: _listed(spec, name, text) for name, text in spec.shown().items()}
    first = [name for name in KINDS[spec.kind].first if name in shown] or list(shown)[:2]
    return tuple(_line(name, shown[name]) for name in first)


def _listed(spec: Spec, name: str, text: str) -> str:
    """Return the text of an attribute with the one listed size that its reading is taken for."""
    form, value = form_of(KINDS[spec.kind], name), spec.get(name)
    assert value is not None
    possible = form.possible(value)
    return text.replace(form.show(value), form.show(possible[0])) if len(possible) == 1 else text


def _line(name: str, text: str) -> str:
    word = in_words(name)
    return text if word in SAID_BY_THE_VALUE or text.endswith(f" {word}") else f"{word} {text}"


def _named(session: Session, name: str) -> Iterator[Label]:
    """Yield the labels of the bin and of the bike of that name, as far as there are such."""
    with suppress(UnknownError):
        yield _bin_label(bin_named(session, name))
    with suppress(UnknownError):
        yield _bike_label(bike_named(session, name))


def _part_labels(session: Session, condition: ColumnElement[bool]) -> Iterator[Label]:
    """Yield the labels of the parts and lots that meet a condition, in the order of their ids."""
    bin_name = (
        select(Place.name)
        .join(Holding, Holding.place_id == Place.id)
        .where(Holding.part_id == Part.id, Holding.quantity > 0, Place.type == PlaceType.BIN)
        .order_by(Place.id)
        .limit(1)
        .correlate(Part)
        .scalar_subquery()
    )
    query = (
        select(Part.number, Part.grade, RecordedSpec.text, bin_name.label("bin_name"))
        .join(Part.spec)
        .where(condition)
        .order_by(Part.id)
    )
    for row in session.execute(query):
        title, lines, caution = _words(row.text)
        yield Label(
            number=row.number,
            shape=Shape.PART,
            title=title,
            lines=lines,
            grade=str(row.grade),
            bin_name=row.bin_name or "",
            caution=caution,
        )


@lru_cache(maxsize=65536)
def _words(spec_text: str) -> tuple[str, tuple[str, ...], bool]:
    """Return title, lines and caution of a recorded spec; many parts are of one spec."""
    spec = spec_of(spec_text)
    return in_words(spec.kind), first_lines(spec), bool(KINDS[spec.kind].inspection)


def _bin_label(place: Place) -> Label:
    assert place.number is not None
    lines = tuple(filter(None, (place.note, place.location)))
    return Label(number=place.number, shape=Shape.BIN, title=place.name, lines=lines)


def _bike_label(bike: Bike) -> Label:
    bought = f"bought {bike.bought_on}" if bike.bought_on else ""
    lines = tuple(filter(None, (bike.style, bought)))
    return Label(number=bike.number, shape=Shape.BIKE, title=bike.name, lines=lines)
