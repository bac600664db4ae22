"""The labels of parts, bins and bikes: which words stand on each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from labels.label import Label, Shape
from labels.number import Thing, thing_of
from partsbin.errors import NotFoundError
from partsbin.kinds.forms.form import nearest
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec, in_words
from partsbin.stock.bikes import bike_named, list_bikes
from partsbin.stock.ids import PartId
from partsbin.stock.lookup import where_is
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import bin_named, list_bins, looks_like_number, read_number
from partsbin.stock.specs import spec_of
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.models import Bike, Part, Place


def label_of(session: Session, text: str) -> Label:
    """Return the label of what a number or name means: a part, a lot, a bin or a bike.

    Raises `NotFoundError` with the nearest name if nothing is called that.
    """
    if looks_like_number(text):
        number = read_number(text, *Thing)
        thing = thing_of(number)
        if thing is Thing.BIN:
            return _bin_label(bin_named(session, number))
        if thing is Thing.BIKE:
            return _bike_label(bike_named(session, number))
        return _part_label(session, part_by_number(session, number))
    bins = {b.name.lower() for b in list_bins(session)}
    bikes = {b.name.lower() for b in list_bikes(session)}
    name = " ".join(text.lower().split())
    if name in bins:
        return _bin_label(bin_named(session, text))
    if name in bikes:
        return _bike_label(bike_named(session, text))
    hint = nearest(name, [*bins, *bikes])
    raise NotFoundError(f"there is no part, bin or bike {text.strip()!r} in the record{hint}")


def first_lines(spec: Spec) -> tuple[str, ...]:
    """Return the attributes that a mechanic asks for first, as lines of a label.

    >>> first_lines(Spec.check("seatpost", {"diameter_mm": 27.2, "length_mm": 300}))
    ('diameter 27.2 mm', 'length 300 mm')
    """
    shown = spec.shown()
    return tuple(f"{in_words(n)} {shown[n]}" for n in KINDS[spec.kind].first if n in shown)


def _part_label(session: Session, part: Part) -> Label:
    spec = spec_of(part.spec.text)
    places = where_is(session, PartId(part.id))
    bins = [place.place_name for place in places if place.place_type is PlaceType.BIN]
    return Label(
        number=part.number,
        shape=Shape.PART,
        title=in_words(spec.kind),
        lines=first_lines(spec),
        grade=str(part.grade),
        bin_name=bins[0] if bins else "",
        caution=bool(KINDS[spec.kind].inspection),
    )


def _bin_label(place: Place) -> Label:
    assert place.number is not None
    lines = tuple(filter(None, (place.note, place.location)))
    return Label(number=place.number, shape=Shape.BIN, title=place.name, lines=lines)


def _bike_label(bike: Bike) -> Label:
    bought = f"bought {bike.bought_on}" if bike.bought_on else ""
    lines = tuple(filter(None, (bike.style, bought)))
    return Label(number=bike.number, shape=Shape.BIKE, title=bike.name, lines=lines)
