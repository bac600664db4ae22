"""Putting parts onto bikes and taking them off: stock, cost and history follow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.fit.verdict import Verdict
from partsbin.fit.words import headline
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import BY_NAME, Slot, slot_named, slots_for
from partsbin.kinds.spec import in_words
from partsbin.stock.bikes import bike_named, loose_place, slot_place
from partsbin.stock.errors import UNCHANGED, RefusedError, SlotFilledError
from partsbin.stock.ids import BikeId, PartId, PlaceId
from partsbin.stock.lookup import Mounted, Stocked, mounted, where_is
from partsbin.stock.movements import move
from partsbin.stock.parts import edit_part, part_by_number
from partsbin.stock.places import bin_named
from partsbin.stock.reserving import LaidAside, laid_aside, let_go
from partsbin.stock.specs import spec_of
from partsbin.stock.titles import title, words_for
from partsbin.stock.words import BikeState, Condition, Grade, PlaceType
from partsbin.workshop.fitting import COUPLED, judge_in_slot

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.number import LabelNumber
    from partsbin.fit.condition import Sign
    from partsbin.fit.judge import Judgement
    from partsbin.kinds.spec import Spec
    from partsbin.stock.models import Bike, Part
    from partsbin.stock.money import Money


@dataclass(frozen=True, slots=True)
class Done:
    """What an act did to one part: which, from where, to where, and what it cost."""

    number: LabelNumber
    spec: Spec
    source: str
    target: str
    cost: Money
    judgement: Judgement | None = None
    signs: tuple[Sign, ...] = ()
    """Readings of the part that are past a limit or near one."""
    told: tuple[str, ...] = ()
    """What was filled in that nobody stated, in sentences."""

    @property
    def caution(self) -> str:
        """Return what can hurt someone about this kind of part, empty where nothing can."""
        return KINDS[self.spec.kind].caution


def mount(
    session: Session, number: str, bike_name: str, slot_name: str = "", *, anyway: bool = False
) -> Done:
    """Put a part from its bin onto a bike and return what was done.

    Without a slot the part goes where its kind belongs, if only one such slot is empty. Raises
    `RefusedError` for an unsafe part, one that is not in a bin, a filled slot, or, unless `anyway`,
    a part that clashes with what is on the bike.
    """
    part = part_by_number(session, number)
    bike = bike_named(session, bike_name)
    spec = spec_of(part.spec.text)
    if bike.state is BikeState.SOLD:
        raise RefusedError(f"{bike.name} is sold; partsbin return takes that back; {UNCHANGED}")
    _check_usable(part, spec)
    source = in_bin(session, part, spec)
    planned = laid_aside_for(session, part, bike, anyway=anyway)
    if planned is not None and not planned.slot and not slot_name:
        return _between(session, part, bike, spec, source)
    on_bike = mounted(session, BikeId(bike.id))
    slot = _slot(spec, slot_name or (planned.slot if planned else ""), bike.name, on_bike)
    _check_free(spec, slot, on_bike)
    judgement = judge_in_slot(spec, slot, on_bike)
    # What a plan laid aside was judged with the whole finished bike; half of it may clash still.
    as_planned = planned is not None and planned.slot == slot.name
    if judgement.verdict is Verdict.CLASH and not (anyway or as_planned):
        raise RefusedError(
            f"{title(spec.kind, part.number)} clashes on {bike.name}: {headline(judgement)}; "
            f"{UNCHANGED} (--anyway overrules this)"
        )
    target = slot_place(session, BikeId(bike.id), slot.name)
    cost = move(session, PartId(part.id), 1, source.place, target)
    if planned is not None:
        let_go(session, PartId(part.id), BikeId(bike.id))
    if not part.lot:
        edit_part(session, PartId(part.id), condition=Condition.SOUND)
    if bike.state is BikeState.BOUGHT:
        bike.state = BikeState.IN_WORK
    return Done(part.number, spec, place_of(source), f"{bike.name}, {slot.name}", cost, judgement)


def laid_aside_for(session: Session, part: Part, bike: Bike, *, anyway: bool) -> LaidAside | None:
    """Return what a plan laid aside of a part for a bike, None if nothing.

    Raises `RefusedError`, unless `anyway`, if all of the part waits for other bikes.
    """
    laid = laid_aside(session, part=PartId(part.id))
    others = [one for one in laid if one.bike != bike.id]
    if len(others) < len(laid):
        return next(one for one in laid if one.bike == bike.id)
    if others and sum(one.quantity for one in others) >= part.in_bins:
        if not anyway:
            raise RefusedError(
                f"{title(part.spec.kind, part.number)} is laid aside for {others[0].bike_name}; "
                f"{UNCHANGED} (--anyway overrules this)"
            )
        let_go(session, PartId(part.id), others[0].bike)
    return None


def _between(session: Session, part: Part, bike: Bike, spec: Spec, source: Stocked) -> Done:
    """Put an adapter that a plan laid aside onto its bike, where it fills no slot."""
    target = loose_place(session, BikeId(bike.id))
    cost = move(session, PartId(part.id), 1, source.place, target)
    let_go(session, PartId(part.id), BikeId(bike.id))
    return Done(part.number, spec, place_of(source), f"{bike.name}, between its parts", cost)


def unmount(
    session: Session, bike_name: str, slot_name: str, bin_name: str, grade: Grade | None = None
) -> Done:
    """Take the part in a slot off a bike into a bin and return what was done."""
    bike = bike_named(session, bike_name)
    slot = _named(slot_name)
    part = on_slot(session, bike, slot)
    place = bin_named(session, bin_name)
    cost = move(session, part.part, part.quantity, part.place, PlaceId(place.id))
    if grade is not None:
        edit_part(session, part.part, grade=grade)
    return Done(part.number, part.spec, f"{bike.name}, {slot.name}", f"bin {place.name}", cost)


def on_slot(session: Session, bike: Bike, slot: Slot) -> Mounted:
    """Return the part in a slot of a bike. Raises `RefusedError` if it is empty."""
    for part in mounted(session, BikeId(bike.id)):
        if part.slot == slot.name:
            return part
    raise RefusedError(f"{bike.name}'s {slot.name} slot is empty; {UNCHANGED}")


def _named(text: str) -> Slot:
    try:
        return slot_named(text)
    except ValueError as fault:
        raise UsageError(str(fault)) from None


def _check_usable(part: Part, spec: Spec) -> None:
    if part.grade is Grade.UNSAFE:
        raise RefusedError(
            f"{title(spec.kind, part.number)} is unsafe and is not used; {UNCHANGED}"
        )


def in_bin(session: Session, part: Part, spec: Spec) -> Stocked:
    """Return the first bin that holds a part. Raises `RefusedError` if none does."""
    places = where_is(session, PartId(part.id))
    for place in places:
        if place.place_type is PlaceType.BIN:
            return place
    now = " and ".join(map(place_of, places)) or "in no place"
    raise RefusedError(f"{title(spec.kind, part.number)} is in no bin, it is {now}; {UNCHANGED}")


def place_of(part: Stocked) -> str:
    """Return where a part is, as a sentence names it."""
    return words_for(part.place_type, part.place_name, part.bike)


def _slot(spec: Spec, named: str, bike: str, on_bike: list[Mounted]) -> Slot:
    """Return the slot that is named, or the only empty one where the part belongs."""
    if named:
        slot = _named(named)
        if spec.kind not in slot.kinds:
            kinds = " or ".join(map(in_words, slot.kinds))
            raise UsageError(
                f"a {in_words(spec.kind)} does not go there: {slot.name} takes {kinds}"
            )
        return slot
    side = str(spec.get("side") or "")
    fitting = slots_for(spec.kind, side if side in ("front", "rear") else "")
    if side in ("left", "right"):
        fitting = tuple(slot for slot in fitting if slot.name.startswith(side))
    if spec.kind == "combined_lever":
        fitting = tuple(slot for slot in fitting if "shifter" in slot.name)
    if not fitting:
        raise UsageError(f"a {in_words(spec.kind)} has no slot on a bike")
    filled = {part.slot for part in on_bike}
    empty = [slot for slot in fitting if slot.name not in filled]
    if len(fitting) == 1:
        return fitting[0]
    if len(empty) == 1:
        return empty[0]
    names = ", ".join(slot.name for slot in fitting)
    raise UsageError(f"say which slot of {bike} is meant: {names}")


def _check_free(spec: Spec, slot: Slot, on_bike: list[Mounted]) -> None:
    """Raise `RefusedError` if the slot is filled, or would share a hand with a combined lever."""
    by_slot = {part.slot: part for part in on_bike}
    now, mate = by_slot.get(slot.name), by_slot.get(COUPLED.get(slot.name, ""))
    if now is not None:
        raise SlotFilledError(slot.name, title(now.spec.kind, now.number))
    if mate is not None and "combined_lever" in (spec.kind, mate.spec.kind):
        raise RefusedError(
            f"a combined lever fills {slot.name} and {mate.slot} together; take off "
            f"{title(mate.spec.kind, mate.number)} in {mate.slot} first, {UNCHANGED}"
        )


NEEDED_WITH = {
    "rear shifter": "rear_derailleur",
    "rear derailleur": "shifter",
    "front shifter": "front_derailleur",
    "front derailleur": "shifter",
    "front rotor": "disc_calliper",
    "rear rotor": "disc_calliper",
}
"""Slots that are needed once a part of this kind is at the same end of the bike."""


def needs(on_bike: list[Mounted]) -> list[tuple[Slot, str]]:
    """Return the needs of a bike: slots with a worn or dead part, and those that are empty."""
    by_slot = {part.slot: part for part in on_bike}
    combined = {COUPLED[s] for s, p in by_slot.items() if p.spec.kind == "combined_lever"}
    present = {(p.spec.kind, BY_NAME[s].end) for s, p in by_slot.items() if s in BY_NAME}
    wanted = []
    for slot in BY_NAME.values():
        part = by_slot.get(slot.name)
        if part is not None and part.condition is not Condition.SOUND:
            wanted.append((slot, str(part.condition)))
        elif part is None and slot.name not in combined:
            mate = NEEDED_WITH.get(slot.name, "")
            if slot.needed or (mate, slot.end) in present:
                wanted.append((slot, "empty"))
    return wanted
