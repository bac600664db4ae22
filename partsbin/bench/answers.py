"""What a number that was read or typed leads to, as the scanner shows it."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import TYPE_CHECKING

from labels.number import LabelNumber, Thing, grouped, thing_of
from partsbin.bench.telling import moved_in_words, plainly
from partsbin.errors import PartsbinError, UsageError
from partsbin.fit.condition import sentence
from partsbin.fit.words import headline
from partsbin.kinds.slots import slots_for
from partsbin.stock.bikes import bike_named
from partsbin.stock.errors import RefusedError
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import bin_named
from partsbin.stock.words import Unit
from partsbin.workshop.scanning import act_on, look_up

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sqlalchemy.orm import Session

    from partsbin.stock.database import Database
    from partsbin.workshop.mounting import Done


class Mode(enum.StrEnum):
    """What is done with a number."""

    LOOK = "look"
    ONTO = "onto"
    INTO = "into"
    COUNT = "count"


TARGETS = {Mode.ONTO: Thing.BIKE, Mode.INTO: Thing.BIN, Mode.COUNT: Thing.BIN}
"""What each way of working needs before it can begin."""


class State(enum.StrEnum):
    """How a number was answered."""

    DONE = "done"
    SHOWN = "shown"
    TARGET = "target"
    """It named the bike or bin to work with."""
    COUNTED = "counted"
    REFUSED = "refused"
    ASK = "ask"
    """More than one label is in view."""
    SLOTS = "slots"
    """More than one slot would do."""
    ANYWAY = "anyway"
    """It clashes, or waits for another bike; a second press overrules that."""


NOT_DONE = {State.REFUSED, State.ASK, State.SLOTS, State.ANYWAY}


@dataclass(frozen=True, slots=True)
class Orders:
    """What to do with each number: `to` is the name of the bike or bin, empty if none is chosen."""

    mode: Mode = Mode.LOOK
    to: str = ""
    slot: str = ""
    anyway: bool = False

    @property
    def acts(self) -> bool:
        """Return whether a part is moved by them."""
        return self.mode in (Mode.ONTO, Mode.INTO)

    @property
    def title(self) -> str:
        """Return them as a heading."""
        return {
            Mode.LOOK: "Look up",
            Mode.ONTO: f"Onto {self.to}" if self.to else "Onto which bike?",
            Mode.INTO: f"Into bin {self.to}" if self.to else "Into which bin?",
            Mode.COUNT: f"Count bin {self.to}" if self.to else "Count which bin?",
        }[self.mode]


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several things that may be meant."""

    value: str
    words: str


@dataclass(frozen=True, slots=True)
class Answer:
    """What came of a number, in words."""

    state: State
    words: str
    number: LabelNumber | None = None
    more: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    to: str = ""
    """The name of the bike or bin that was chosen."""
    unit: str = ""
    """What a lot's quantity is counted in; empty for a single part."""


def orders_of(session: Session, sent: Mapping[str, str]) -> Orders:
    """Return the orders that a request names; an unknown way of working is to look up.

    Raises `PartsbinError` if the bike or bin that it names is not in the record.
    """
    mode = Mode(sent["mode"]) if sent.get("mode") in set(Mode) else Mode.LOOK
    named = sent.get("to", "").strip()
    to = target_named(session, mode, named) if named and mode in TARGETS else ""
    return Orders(mode, to, sent.get("slot", "").strip(), sent.get("anyway") == "yes")


def target_named(session: Session, mode: Mode, named: str) -> str:
    """Return the name of a bike or bin that is named or numbered. Raises `UnknownError`."""
    if TARGETS[mode] is Thing.BIKE:
        return bike_named(session, named).name
    return bin_named(session, named).name


def take(database: Database, orders: Orders, number: LabelNumber) -> Answer:
    """Do with a number what is ordered, and return what came of it; refusals are answers too."""
    try:
        if orders.mode is Mode.LOOK:
            return _shown(database, number)
        if thing_of(number) is TARGETS[orders.mode]:
            return _chosen(database, orders, number)
        if not orders.to:
            what = TARGETS[orders.mode].name.lower()
            return Answer(State.REFUSED, f"scan the label of a {what} first, or choose one")
        if orders.mode is Mode.COUNT:
            return _counted(database, number)
        return _acted(database, orders, number)
    except PartsbinError as fault:
        return Answer(State.REFUSED, plainly(fault), number)


def which(database: Database, numbers: Sequence[LabelNumber]) -> Answer:
    """Return the question which of several labels is meant."""
    with database.reading() as session:
        known = [look_up(session, number) for number in numbers]
    choices = tuple(Choice(one.number, f"{one.what}; {one.where}") for one in known)
    return Answer(State.ASK, "more than one label is in view", choices=choices)


def _shown(database: Database, number: LabelNumber) -> Answer:
    with database.reading() as session:
        known = look_up(session, number)
    return Answer(State.SHOWN, known.what, number, (known.where,))


def _chosen(database: Database, orders: Orders, number: LabelNumber) -> Answer:
    """Take the bike or bin of a label to work with; a count is not moved to another bin midway."""
    with database.reading() as session:
        to = target_named(session, orders.mode, number)
    if orders.mode is Mode.COUNT and orders.to:
        if to == orders.to:
            return Answer(State.SHOWN, f"this is bin {to}, which you count", number)
        told = f"this is bin {to}; end the count of bin {orders.to} first"
        return Answer(State.REFUSED, told, number)
    return Answer(State.TARGET, Orders(orders.mode, to).title, number, to=to)


def _counted(database: Database, number: LabelNumber) -> Answer:
    with database.reading() as session:
        known = look_up(session, number)
        if thing_of(number) is Thing.BIKE:
            return Answer(State.REFUSED, f"this is {known.what}, not a part", number)
        part = part_by_number(session, number)
        unit = {Unit.PIECE: "pieces", Unit.MM: "metres"}[part.unit] if part.lot else ""
    return Answer(State.COUNTED, known.what, number, (known.where,), unit=unit)


def _acted(database: Database, orders: Orders, number: LabelNumber) -> Answer:
    onto, into = (orders.to, "") if orders.mode is Mode.ONTO else ("", orders.to)
    try:
        with database.changing("scan") as session:
            done = act_on(
                session, number, onto=onto, into=into, slot=orders.slot, anyway=orders.anyway
            )
    except UsageError as fault:
        slots = _slots(database, number) if onto and not orders.slot else ()
        if len(slots) > 1:
            return Answer(State.SLOTS, plainly(fault), number, choices=slots)
        raise
    except RefusedError as fault:
        if "--anyway" in str(fault):
            return Answer(State.ANYWAY, plainly(fault), number)
        raise
    return _done(done)


def _slots(database: Database, number: LabelNumber) -> tuple[Choice, ...]:
    with database.reading() as session:
        kind = part_by_number(session, number).spec.kind
    return tuple(Choice(slot.name, slot.name) for slot in slots_for(kind))


def _done(done: Done) -> Answer:
    more = list(done.told)
    cautions = [sentence(sign) for sign in done.signs]
    if done.judgement is not None:
        more.insert(0, f"{done.judgement.verdict}: {headline(done.judgement)}")
        if done.caution:
            cautions.insert(0, done.caution)
    return Answer(State.DONE, moved_in_words(done), done.number, tuple(more), tuple(cautions))


def unreadable(text: str) -> Answer:
    """Return the refusal of what is no number, or of a picture without a label."""
    return Answer(State.REFUSED, text)


def seen_once(number: LabelNumber) -> Answer:
    """Return the refusal to act on a number that only one look at a photograph gave."""
    told = f"{grouped(number)} was seen only once in the picture; take it again"
    return Answer(State.REFUSED, told, number)
