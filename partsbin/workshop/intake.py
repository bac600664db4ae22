"""Parts coming in, being corrected, moved and scrapped."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.fit.condition import graded
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import Slot, slot_named
from partsbin.kinds.spec import Spec
from partsbin.stock.bikes import bike_named, slot_place
from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.stock.ids import QUARANTINE, SCRAPPED, BikeId, PartId, PlaceId
from partsbin.stock.lookup import PRESENT, Stocked, mounted, where_is
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.movements import move
from partsbin.stock.parts import NewPart, add_part, edit_part, part_by_number
from partsbin.stock.places import bin_named
from partsbin.stock.quantity import read_quantity
from partsbin.stock.specs import spec_of
from partsbin.stock.titles import place_title, title
from partsbin.stock.words import Condition, Grade, PlaceType, Unit
from partsbin.workshop.assignments import assignments, full_name, read_spec
from partsbin.workshop.filling import from_era, from_names, only_on_a_bike
from partsbin.workshop.mounting import Done, place_of

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.fit.condition import Sign
    from partsbin.stock.models import Part

MEASURED = ("housing",)
"""The kinds that are bought and used by length."""
BY_LENGTH_TOO = ("brake_cable", "shift_cable", "rim_tape", "bar_tape")
"""The kinds that are bought by the piece or as a roll."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Intake:
    """What is told of a part or lot that comes in."""

    kind: str
    attributes: Sequence[str] = ()
    bin: str = ""
    bike: str = ""
    slot: str = ""
    grade: Grade = Grade.GOOD
    condition: Condition = Condition.SOUND
    quantity: str = ""
    """With a quantity it is a lot; cable housing in metres."""
    cost: Money = NOTHING
    value: Money | None = None
    origin: str = ""
    note: str = ""
    inspected: bool = False
    named: str = ""
    """What is printed on it, for the user's list of names."""
    like: str = ""
    """The era template that its bike is like."""


def unit_of(kind: str, quantity: str = "") -> Unit:
    """Return what quantities of a kind count: pieces, or millimetres of housing or of a roll.

    >>> unit_of("shift_cable", "10"), unit_of("shift_cable", "30 m"), unit_of("housing")
    (<Unit.PIECE: 'piece'>, <Unit.MM: 'mm'>, <Unit.MM: 'mm'>)
    """
    rolled = kind in BY_LENGTH_TOO and quantity.strip()[-1:].isalpha()
    return Unit.MM if kind in MEASURED or rolled else Unit.PIECE


def take_in(session: Session, told: Intake) -> Done:
    """Put a part or lot into the record and return where it went.

    A used part whose kind needs an inspection waits in quarantine until that was made.
    """
    spec, sentences = _filled(session, told)
    grade, signs = by_readings(spec, told.grade)
    target = _target(session, told, spec)
    if _waits(spec, grade, inspected=told.inspected or bool(told.bike)):
        target = QUARANTINE
    unit = unit_of(spec.kind, told.quantity)
    new = NewPart(
        spec=spec,
        place=target,
        grade=grade,
        lot=bool(told.quantity),
        unit=unit,
        quantity=read_quantity(told.quantity, unit) if told.quantity else 1,
        condition=told.condition,
        cost=told.cost,
        value=told.value,
        origin=told.origin,
        note=told.note,
    )
    added = add_part(session, new)
    place = place_title(session, target)
    return Done(added.number, spec, "supplier", place, told.cost, signs=signs, told=sentences)


def by_readings(spec: Spec, grade: Grade) -> tuple[Grade, tuple[Sign, ...]]:
    """Return the grade that a part's readings leave to it, and the signs that say so."""
    left, signs = graded(spec, str(grade), dt.datetime.now(dt.UTC).year)
    return Grade(left), tuple(signs)


def _filled(session: Session, told: Intake) -> tuple[Spec, tuple[str, ...]]:
    """Return the spec of what is told and of what that implies, and sentences that say so."""
    spec = read_spec(told.kind, told.attributes)
    sentences = []
    only_on_a_bike(told.like, told.bike)
    if told.named:
        spec, sentence = from_names(session, spec, told.named)
        sentences.append(sentence)
    if told.like:
        bike = bike_named(session, told.bike)
        on_bike = {part.slot: part.spec for part in mounted(session, BikeId(bike.id))}
        spec, sentence = from_era(spec, told.like, _slot(told, spec).name, on_bike)
        sentences.append(sentence)
    return spec, tuple(sentences)


def correct(
    session: Session,
    number: str,
    attributes: Sequence[str] = (),
    *,
    grade: Grade | None = None,
    condition: Condition | None = None,
    value: Money | None = None,
    note: str | None = None,
) -> tuple[Spec, Grade, tuple[Sign, ...]]:
    """Change what is known of a part and return its spec, its grade, and what tells against it.

    `name=` makes an attribute unknown. A reading past its limit sets the grade.
    """
    part = part_by_number(session, number)
    spec = _corrected(spec_of(part.spec.text), attributes)
    left, signs = by_readings(spec, part.grade if grade is None else grade)
    edit_part(
        session,
        PartId(part.id),
        spec=spec,
        grade=left,
        condition=condition,
        value=value,
        note=note,
    )
    return spec, left, signs


def _corrected(spec: Spec, attributes: Sequence[str]) -> Spec:
    typed = assignments(attributes)
    gone = {full_name(KINDS[spec.kind].attributes, n) for n, value in typed.items() if not value}
    changed = read_spec(spec.kind, attributes)
    kept = tuple((name, value) for name, value in spec.values if name not in gone)
    return replace(spec, values=kept, assumed=spec.assumed - gone).with_values(changed)


def put(
    session: Session, number: str, bin_name: str, quantity: str = "", *, inspected: bool = False
) -> Done:
    """Move a part, or a quantity of a lot, into a bin and return what was done."""
    part = part_by_number(session, number)
    spec = spec_of(part.spec.text)
    place = bin_named(session, bin_name)
    source = _source(session, part, spec, place.id)
    waiting = source.place_type is PlaceType.QUARANTINE
    if waiting and _waits(spec, part.grade, inspected=inspected):
        looks = "; ".join(KINDS[spec.kind].inspection)
        raise RefusedError(
            f"{title(spec.kind, part.number)} waits for its inspection ({looks}); "
            f"look, then repeat this with --inspected; {UNCHANGED}"
        )
    if part.grade is Grade.UNSAFE and waiting:
        raise RefusedError(f"{title(spec.kind, part.number)} is unsafe; scrap it; {UNCHANGED}")
    amount = read_quantity(quantity, part.unit) if quantity else source.quantity
    cost = move(session, PartId(part.id), amount, source.place, PlaceId(place.id))
    return Done(part.number, spec, place_of(source), f"bin {place.name}", cost)


def scrap(session: Session, number: str, quantity: str = "") -> Done:
    """Scrap a part, or a quantity of a lot, and return what was written off."""
    part = part_by_number(session, number)
    spec = spec_of(part.spec.text)
    source = _source(session, part, spec)
    amount = read_quantity(quantity, part.unit) if quantity else source.quantity
    cost = move(session, PartId(part.id), amount, source.place, SCRAPPED)
    return Done(part.number, spec, place_of(source), "scrapped", cost)


def _source(session: Session, part: Part, spec: Spec, target: int | None = None) -> Stocked:
    """Return where a part is taken from: a place in the workshop other than the target."""
    places = [p for p in where_is(session, PartId(part.id)) if p.place_type in PRESENT]
    others = [place for place in places if place.place != target]
    if others:
        return others[0]
    if places:
        name = title(spec.kind, part.number)
        raise RefusedError(f"{name} is in {place_of(places[0])} already; {UNCHANGED}")
    raise RefusedError(f"{title(spec.kind, part.number)} is gone from the workshop; {UNCHANGED}")


def _target(session: Session, told: Intake, spec: Spec) -> PlaceId:
    if told.bike:
        bike = bike_named(session, told.bike)
        return slot_place(session, BikeId(bike.id), _slot(told, spec).name)
    if not told.bin:
        raise UsageError("say with --bin where it goes, or with --bike and --slot where it is")
    return PlaceId(bin_named(session, told.bin).id)


def _slot(told: Intake, spec: Spec) -> Slot:
    if not told.slot:
        raise UsageError("say with --slot where on the bike it is")
    try:
        slot = slot_named(told.slot)
    except ValueError as fault:
        raise UsageError(str(fault)) from None
    if spec.kind not in slot.kinds:
        raise UsageError(f"{slot.name} takes {' or '.join(slot.kinds)}, no {spec.kind}")
    return slot


def _waits(spec: Spec, grade: Grade, *, inspected: bool) -> bool:
    """Return whether a part must not be used before its inspection was made."""
    return bool(KINDS[spec.kind].inspection) and not inspected and grade is not Grade.NEW
