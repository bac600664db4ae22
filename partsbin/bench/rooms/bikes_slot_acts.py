"""What is done at a slot of a bike: a part put on, taken off, scrapped, corrected, recorded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import flash, redirect, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.kind_form import read
from partsbin.bench.rooms.bikes_slot import found_form, kind_in, shown, slot_of
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal, plainly, tell_done
from partsbin.errors import PartsbinError, UsageError
from partsbin.stock.conditions import read_grade
from partsbin.stock.words import Condition, Grade

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy.orm import Session

    from partsbin.kinds.slots import Slot
    from partsbin.workshop.mounting import Done

CONFLICT, UNPROCESSABLE = 409, 422


def _text(name: str) -> str:
    return request.form.get(name, "").strip()


def _grade() -> Grade | None:
    """Return the grade that was chosen, None if it stays what it is."""
    return Grade(read_grade(_text("grade"))) if _text("grade") else None


def _condition() -> Condition:
    if _text("condition") not in set(Condition):
        raise UsageError(f"say how it is: {', '.join(Condition)}; nothing was changed")
    return Condition(_text("condition"))


def _do(
    number: LabelNumber,
    slot: Slot,
    what: str,
    act: Callable[[Session], list[Done]],
    reason: str = "",
) -> ResponseReturnValue:
    """Do an act at a slot; refused, the slot is shown again with the refusal."""
    try:
        with record().changing(what, reason) as session:
            done = act(session)
    except PartsbinError as fault:
        refusal = Refusal(what, plainly(fault), anyway="--anyway" in str(fault))
        return shown(number, slot, refusal, _text("part")), CONFLICT
    for one in done:
        tell_done(one)
    return redirect(url_for("bikes.slot", number=number, slot=slug(slot)))


def slug(slot: Slot) -> str:
    """Return a slot's name as it stands in addresses."""
    return slot.name.replace(" ", "-")


def mount(number: LabelNumber, slot: str) -> ResponseReturnValue:
    """Put a part from its bin into the slot; what is there goes into a bin first, in one act."""
    from partsbin.workshop import mounting

    place = slot_of(slot)

    def act(session: Session) -> list[Done]:
        done = []
        if _text("bin"):
            done.append(mounting.unmount(session, number, place.name, _text("bin"), _grade()))
        anyway = _text("anyway") == "yes"
        done.append(mounting.mount(session, _text("part"), number, place.name, anyway=anyway))
        return done

    return _do(number, place, "mount", act)


def unmount(number: LabelNumber, slot: str) -> ResponseReturnValue:
    """Take the part in the slot off into a bin."""
    from partsbin.workshop import mounting

    place = slot_of(slot)

    def act(session: Session) -> list[Done]:
        return [mounting.unmount(session, number, place.name, _text("bin"), _grade())]

    return _do(number, place, "unmount", act)


def scrap(number: LabelNumber, slot: str) -> ResponseReturnValue:
    """Scrap the part in the slot."""
    from partsbin.stock.bikes import bike_named
    from partsbin.workshop.intake import scrap as scrap_part
    from partsbin.workshop.mounting import on_slot

    place = slot_of(slot)

    def act(session: Session) -> list[Done]:
        part = on_slot(session, bike_named(session, number), place)
        return [scrap_part(session, part.number)]

    return _do(number, place, "part scrap", act, _text("reason"))


def correct(number: LabelNumber, slot: str) -> ResponseReturnValue:
    """Record how the part in the slot is: its condition, its grade, a note."""
    from partsbin.fit.condition import sentence
    from partsbin.stock.bikes import bike_named
    from partsbin.workshop import intake
    from partsbin.workshop.mounting import on_slot

    place = slot_of(slot)

    def act(session: Session) -> list[Done]:
        part = on_slot(session, bike_named(session, number), place)
        spec, left, signs = intake.correct(
            session, part.number, grade=_grade(), condition=_condition(), note=_text("note")
        )
        flash(f"{spec.brief}: {_text('condition')}, {left}", "done")
        for sign in signs:
            flash(sentence(sign), "caution")
        return []

    return _do(number, place, "part edit", act)


def take_in(number: LabelNumber, slot: str, kind: str) -> ResponseReturnValue:
    """Take a part into the record that is on the bike already."""
    from partsbin.stock.money import read_money
    from partsbin.workshop.intake import Intake
    from partsbin.workshop.intake import take_in as take

    place = slot_of(slot)
    known = kind_in(place, kind)
    filled = read(known, request.form)
    if filled.spec is None:
        return found_form(number, place, known, filled, request.form), UNPROCESSABLE
    try:
        told = Intake(
            kind=known.word,
            attributes=filled.assignments,
            bike=number,
            slot=place.name,
            grade=_grade() or Grade.GOOD,
            condition=_condition(),
            cost=read_money(_text("cost") or "0"),
            value=read_money(_text("value")) if _text("value") else None,
            note=_text("note"),
            named=_text("named"),
            like=_text("like"),
        )
        with record().changing("part add") as session:
            done = take(session, told)
    except PartsbinError as fault:
        return found_form(number, place, known, filled, request.form, plainly(fault)), UNPROCESSABLE
    tell_done(done)
    return redirect(url_for("bikes.slot", number=number, slot=slug(place)))
