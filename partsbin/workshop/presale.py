"""The check before a sale: what was looked at, by whom, and what still stands in the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, or_, select

from partsbin.errors import UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.standards.presale_items import BY_WORD, ITEMS, Item
from partsbin.stock.bikes import bike_named
from partsbin.stock.check_tables import BikeCheck
from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.stock.ids import ActId, BikeId
from partsbin.stock.ledger import act_of
from partsbin.stock.lookup import mounted
from partsbin.stock.models import Act, Movement, Place
from partsbin.stock.titles import title
from partsbin.stock.undone import stands
from partsbin.stock.words import BikeState, Grade
from partsbin.workshop.mounting import needs

if TYPE_CHECKING:
    import datetime as dt

    from sqlalchemy.orm import Session

    from partsbin.stock.lookup import Mounted
    from partsbin.stock.models import Bike

RESULTS = {"ok": True, "fail": False}
GONE = (BikeState.SOLD, BikeState.STRIPPED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """One item of the list with what was last recorded of it."""

    item: Item
    ok: bool | None
    """None if it was never recorded."""
    by: str
    at: dt.datetime | None
    note: str
    void: bool
    """Whether parts that the item is about were changed after it was recorded."""

    @property
    def passed(self) -> bool:
        """Return whether the item is ok and still holds."""
        return bool(self.ok) and not self.void

    @property
    def state(self) -> str:
        """Return how the item stands, in a word or two."""
        if self.ok is None:
            return "open"
        if self.void:
            return "look again"
        return "ok" if self.ok else "fail"


@dataclass(frozen=True, slots=True)
class Checklist:
    """The check of one bike, and what besides its items stands in the way of a sale."""

    bike: str
    state: BikeState
    items: tuple[Checked, ...]
    in_the_way: tuple[str, ...]
    """Needs that are open, and parts that must not be ridden."""
    cautions: tuple[str, ...]

    @property
    def faults(self) -> tuple[str, ...]:
        """Return all that stands in the way, none if the bike may be called ready."""
        left = tuple(f"{c.item.word} ({c.state})" for c in self.items if not c.passed)
        return (*left, *self.in_the_way)


def checklist(session: Session, bike_name: str) -> Checklist:
    """Return how the check of a bike stands."""
    bike = bike_named(session, bike_name)
    on_bike = mounted(session, BikeId(bike.id))
    latest = _latest(session, BikeId(bike.id))
    changed = _changed(session, BikeId(bike.id))
    return Checklist(
        bike.name,
        bike.state,
        tuple(_checked(item, latest.get(item.word), changed) for item in ITEMS),
        tuple(_in_the_way(bike, on_bike)),
        tuple(_cautions(on_bike)),
    )


def read_results(typed: Sequence[str], *, all_ok: bool = False) -> dict[str, tuple[bool, str]]:
    """Return what was found of each item, typed as `ITEM=ok` or `ITEM=fail:why`.

    Raises `UsageError` for an unknown item or result, and for a failure that says no reason.

    >>> read_results(["tyres=fail: cut in the rear one"])
    {'tyres': (False, 'cut in the rear one')}
    """
    found = {item.word: (True, "") for item in ITEMS} if all_ok else {}
    for text in typed:
        name, _, told = text.partition("=")
        word = " ".join(name.lower().replace("-", " ").replace("_", " ").split())
        if word not in BY_WORD:
            raise UsageError(f"the check has no item {name.strip()!r}{nearest(word, [*BY_WORD])}")
        result, _, note = told.partition(":")
        ok = RESULTS.get(result.strip().lower())
        if ok is None:
            raise UsageError(f"{text!r} says nothing; type {word}=ok, or '{word}=fail: why'")
        if not ok and not note.strip():
            raise UsageError(f"say what is wrong: '{word}=fail: why'")
        found[word] = (ok, " ".join(note.split()))
    return found


def record_check(
    session: Session, bike_name: str, found: dict[str, tuple[bool, str]], by: str
) -> Checklist:
    """Record what a named person found, and return how the check stands then.

    A bike that was ready and has an item that failed is in work again.
    """
    name = " ".join(by.split())
    if not name:
        raise UsageError("say with --by who looked at the bike")
    bike = bike_named(session, bike_name)
    if bike.state in GONE:
        raise RefusedError(f"{bike.name} is {bike.state}; {UNCHANGED}")
    for item, (ok, note) in found.items():
        session.add(
            BikeCheck(
                act_id=act_of(session),
                bike_id=bike.id,
                item=item,
                ok=ok,
                checked_by=name,
                note=note,
            )
        )
    if bike.state is BikeState.READY and not all(ok for ok, _ in found.values()):
        bike.state = BikeState.IN_WORK
    session.flush()
    return checklist(session, bike_name)


def make_ready(session: Session, bike_name: str) -> Checklist:
    """Call a bike ready. Raises `RefusedError` that names all that stands in the way."""
    bike = bike_named(session, bike_name)
    if bike.state in GONE:
        raise RefusedError(f"{bike.name} is {bike.state}; {UNCHANGED}")
    listed = checklist(session, bike_name)
    if listed.faults:
        raise RefusedError(
            f"{bike.name} is not ready: {'; '.join(listed.faults)}; {UNCHANGED} "
            f"(partsbin bike check '{bike.name}' shows what to look at)"
        )
    bike.state = BikeState.READY
    session.flush()
    return listed


def _latest(session: Session, bike: BikeId) -> dict[str, tuple[BikeCheck, dt.datetime]]:
    query = (
        select(BikeCheck, Act.at)
        .join(Act, Act.id == BikeCheck.act_id)
        .where(BikeCheck.bike_id == bike, stands(BikeCheck.act_id))
        .order_by(BikeCheck.id)
    )
    return {check.item: (check, at) for check, at in session.execute(query)}


def _changed(session: Session, bike: BikeId) -> dict[str, ActId]:
    """Return the last act that put a part into each slot of a bike or took one off."""
    touches = or_(Movement.from_place_id == Place.id, Movement.to_place_id == Place.id)
    query = (
        select(Place.name, func.max(Movement.act_id))
        .join(Movement, touches)
        .where(Place.bike_id == bike, Movement.quantity > 0, stands(Movement.act_id))
        .group_by(Place.name)
    )
    return {name: ActId(int(act)) for name, act in session.execute(query)}


def _checked(
    item: Item, found: tuple[BikeCheck, dt.datetime] | None, changed: dict[str, ActId]
) -> Checked:
    if found is None:
        return Checked(item=item, ok=None, by="", at=None, note="", void=False)
    check, at = found
    # The ride is about the whole bike: any change after it calls for another one.
    slots = item.slots or tuple(changed)
    void = any(changed.get(slot, 0) > check.act_id for slot in slots)
    return Checked(item=item, ok=check.ok, by=check.checked_by, at=at, note=check.note, void=void)


def _in_the_way(bike: Bike, on_bike: list[Mounted]) -> list[str]:
    if bike.state in GONE:
        return [f"it is {bike.state}"]
    told = [f"{slot.name} {why}" for slot, why in needs(on_bike)]
    for part in on_bike:
        name = title(part.spec.kind, part.number)
        if part.grade is Grade.UNSAFE:
            told.append(f"{name} is unsafe")
        told += [f"{name} is {fault}" for fault in ("bent", "cracked") if _says(part, fault)]
    return told


def _says(part: Mounted, attribute: str) -> bool:
    return part.spec.get(attribute) == "yes"


def _cautions(on_bike: list[Mounted]) -> list[str]:
    """Return what no look can settle: carbon whose history is not known."""
    return [
        f"{title(part.spec.kind, part.number)} is carbon and its history is not recorded as known: "
        "damage may not show; do not sell it on"
        for part in on_bike
        if "carbon" in (part.spec.get("material"), part.spec.get("steerer_material"))
        and part.spec.get("history") != "known"
    ]
