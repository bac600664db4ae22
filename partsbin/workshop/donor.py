"""A donor before it is taken apart: what nobody recorded is found, and its parts are filled in.

What its other parts and an era template say of a part is assumed; what is stated goes before.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds.inherit import inherited, placed
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import Spec, in_words, kind_named
from partsbin.stock.bikes import bike_named, slot_place
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import Mounted, mounted
from partsbin.stock.parts import NewPart, add_part, edit_part
from partsbin.workshop.assignments import read_spec, split
from partsbin.workshop.filling import from_era

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.models import Bike


def kind_in(slot: str, kind: str, on_bike: Mapping[str, Spec]) -> str:
    """Return the kind that is meant in a slot: named, recorded there, or the only one that goes.

    Raises `UsageError` if it goes elsewhere, if another is recorded, or if none is clear.

    >>> kind_in("chain", "", {})
    'chain'
    """
    kinds = slot_named(slot).kinds
    now = on_bike.get(slot)
    if kind and kind not in kinds:
        raise UsageError(f"{slot} takes {' or '.join(map(in_words, kinds))}, no {in_words(kind)}")
    if kind and now is not None and now.kind != kind:
        raise UsageError(f"the record has a {in_words(now.kind)} as {slot}; correct that first")
    if now is not None:
        return now.kind
    if not kind and len(kinds) > 1:
        raise UsageError(f"say what the {slot} is: {' or '.join(map(in_words, kinds))}")
    return kind or kinds[0]


def read_stated(session: Session, bike_name: str, typed: Mapping[str, str]) -> dict[str, Spec]:
    """Return what is typed of the parts in some slots, each `kind; name=value; ...`.

    The kind may be left out where `kind_in` knows it. Raises `UsageError` for what is not
    understood.
    """
    bike = bike_named(session, bike_name)
    on_bike = {part.slot: part.spec for part in mounted(session, BikeId(bike.id))}
    return {slot: read_part(slot, text, on_bike) for slot, text in typed.items()}


def read_part(slot: str, text: str, on_bike: Mapping[str, Spec]) -> Spec:
    """Return what is typed of the part in a slot.

    >>> print(read_part("rear shifter", "shifter; speeds=8", {}))
    shifter, speeds 8
    """
    pieces = split(text)
    named = pieces.pop(0) if pieces and "=" not in pieces[0] else ""
    return read_spec(kind_in(slot, kind_named(named).word if named else "", on_bike), pieces)


def find_parts(session: Session, bike: Bike, stated: Mapping[str, Spec]) -> None:
    """Put what is stated of a bike's slots into the record: new parts, or more of those there.

    A new part comes with the bike, whose price is split later.
    """
    on_bike = {part.slot: part for part in mounted(session, BikeId(bike.id))}
    for slot, spec in stated.items():
        part = on_bike.get(slot)
        known = placed(spec.kind, slot).with_values(spec)
        if part is None:
            place = slot_place(session, BikeId(bike.id), slot)
            new = NewPart(spec=known, place=place, origin=f"came with {bike.name}")
            add_part(session, new)
        elif part.spec.with_values(known) != part.spec:
            edit_part(session, part.part, spec=part.spec.with_values(known))


def fill_in(session: Session, parts: Sequence[Mounted], keep: Sequence[str], era: str) -> None:
    """Record what a bike's parts, and a template, say of those that come off, all but `keep`."""
    bike = {part.slot: part.spec for part in parts if part.slot}
    for part in parts:
        if part.slot and part.slot not in keep:
            filled = likely(part.spec, part.slot, bike, era)
            if filled != part.spec:
                edit_part(session, part.part, spec=filled)


def likely(stated: Spec, slot: str, bike: Mapping[str, Spec], era: str = "") -> Spec:
    """Return a part with what its neighbours and an era template say of it, marked as assumed.

    >>> bike = {"sprockets": Spec.check("cassette", {"speeds": 8})}
    >>> print(likely(Spec("shifter"), "rear shifter", bike))
    shifter, side rear, speeds 8 (assumed)
    """
    if era:
        return from_era(stated, era, slot, bike)[0]
    return inherited(stated.kind, slot, bike).with_values(stated)
