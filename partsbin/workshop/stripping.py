"""Teardown: what comes off a donor, what each part cost, and where it goes."""

from __future__ import annotations

import enum
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import in_words
from partsbin.stock.bikes import bike_named
from partsbin.stock.bin_choice import bin_of_kind
from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.stock.ids import CLEARING, QUARANTINE, SCRAPPED, BikeId, PlaceId
from partsbin.stock.lookup import Mounted, mounted
from partsbin.stock.money import NOTHING, Money, read_money, show_money
from partsbin.stock.movements import carry_cost, move
from partsbin.stock.parts import edit_part
from partsbin.stock.places import bin_named
from partsbin.stock.words import BikeState, Condition, Grade
from partsbin.workshop.donor import fill_in, find_parts
from partsbin.workshop.intake import by_readings
from partsbin.workshop.mounting import Done
from partsbin.workshop.sharing import shared

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.kinds.spec import Spec


class Split(enum.StrEnum):
    """How the price of a donor is split over what came off."""

    VALUE = "value"
    """By what each part would sell for (IAS 2 Inventories, paragraph 14)."""
    ZERO = "zero"
    """Parts cost nothing, and the price is written off."""
    HAND = "hand"
    """As stated for each slot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Orders:
    """What is said of a teardown, slot by slot; what is not said follows the record."""

    into: str = ""
    """The bin for all parts; without it each goes to the bin where most of its kind are."""
    split: Split = Split.VALUE
    inspected: bool = False
    """Whether the inspections that the kinds need were made."""
    grades: Mapping[str, Grade] = field(default_factory=dict)
    values: Mapping[str, Money] = field(default_factory=dict)
    costs: Mapping[str, Money] = field(default_factory=dict)
    """For a split by hand: what the part in each slot is to cost."""
    bins: Mapping[str, str] = field(default_factory=dict)
    """The bin for the part of a slot, before `into`."""
    keep: Sequence[str] = ()
    """Slots that stay on the bike."""
    stated: Mapping[str, Spec] = field(default_factory=dict)
    """What is stated of the part in a slot, also of one that the record does not have yet."""
    inspections: Mapping[str, bool] = field(default_factory=dict)
    """Whether the part of a slot was inspected, before `inspected`."""
    notes: Mapping[str, str] = field(default_factory=dict)
    like: str = ""
    """The era template that the bike is like."""

    def with_stated(self, stated: Mapping[str, Spec]) -> Orders:
        """Return these orders with what is stated of the parts in some slots."""
        return replace(self, stated={**self.stated, **stated})


def read_orders(
    *,
    into: str,
    split: str,
    inspected: bool,
    grades: Mapping[str, str],
    values: Mapping[str, str],
    costs: Mapping[str, str],
    bins: Mapping[str, str],
    keep: Sequence[str],
    like: str = "",
) -> Orders:
    """Return the orders that a person typed. Raises `UsageError` for what is not understood."""
    try:
        kept = [slot_named(slot).name for slot in keep]
        read_grades = {slot: Grade(grade.lower()) for slot, grade in grades.items()}
    except ValueError as fault:
        allowed = ", ".join(Grade)
        raise UsageError(f"{fault}; grades are {allowed}") from None
    return Orders(
        into=into,
        split=Split(split),
        inspected=inspected,
        grades=read_grades,
        values={slot: read_money(text) for slot, text in values.items()},
        costs={slot: read_money(text) for slot, text in costs.items()},
        bins=bins,
        keep=kept,
        like=like,
    )


@dataclass(frozen=True, slots=True)
class Stripped:
    """What a teardown did: each part with where it went, and what was written off."""

    bike: str
    parts: tuple[Done, ...]
    written_off: Money
    uninspected: tuple[str, ...]
    """The slots whose parts wait in quarantine for their inspection."""


def strip(session: Session, bike_name: str, orders: Orders) -> Stripped:
    """Take a donor apart and return what went where.

    Parts that are dead or unsafe are scrapped. Parts whose kind needs an inspection go to
    quarantine unless it was made. The price of the bike is split over the parts that are left.
    What nobody stated of a part is filled in from its neighbours and the template, as assumed.
    """
    bike = bike_named(session, bike_name)
    find_parts(
        session, bike, {s: spec for s, spec in orders.stated.items() if s not in orders.keep}
    )
    parts = mounted(session, BikeId(bike.id))
    fill_in(session, parts, orders.keep, orders.like)
    off = [part for part in mounted(session, BikeId(bike.id)) if part.slot not in orders.keep]
    if not off:
        raise RefusedError(f"nothing is left on {bike.name} to take off; {UNCHANGED}")
    off = [_told(session, part, orders) for part in off]
    written_off = _split(session, off, orders)
    done = []
    waiting = []
    for part in off:
        target, title = _target(session, part, orders)
        if target == QUARANTINE:
            waiting.append(part.slot)
        cost = move(session, part.part, part.quantity, part.place, target)
        if target == SCRAPPED:
            written_off = Money(written_off + cost)
        source = f"{bike.name}, {part.slot or 'loose'}"
        done.append(Done(part.number, part.spec, source, title, cost))
    if not orders.keep:
        bike.state = BikeState.STRIPPED
    return Stripped(bike.name, tuple(done), written_off, tuple(waiting))


def is_waste(part: Mounted) -> bool:
    """Return whether a part that comes off is scrapped: it is unsafe, or dead and no core."""
    dead = part.condition is Condition.DEAD and part.grade is not Grade.CORE
    return part.grade is Grade.UNSAFE or dead


def _told(session: Session, part: Mounted, orders: Orders) -> Mounted:
    """Record what the orders say of a part, and return it as it is then."""
    grade = orders.grades.get(part.slot, part.grade)
    if part.slot in orders.stated:
        grade, _ = by_readings(part.spec, grade)
    value = orders.values.get(part.slot, part.value)
    edit_part(session, part.part, grade=grade, value=value, note=orders.notes.get(part.slot))
    return replace(part, grade=grade, value=value)


def _split(session: Session, off: Sequence[Mounted], orders: Orders) -> Money:
    """Carry the cost of the donor to the parts that are left of it; return what is written off."""
    total = Money(sum(part.cost for part in off))
    kept = [part for part in off if not is_waste(part)]
    if orders.split is Split.ZERO:
        for part in off:
            if part.cost:
                carry_cost(session, part.part, part.place, SCRAPPED, part.cost)
        return total
    wanted = dict.fromkeys((part.part for part in off), NOTHING)
    for part, cost in zip(kept, _costs(total, kept, orders), strict=True):
        wanted[part.part] = cost
    for part in off:
        if part.cost > wanted[part.part]:
            over = Money(part.cost - wanted[part.part])
            carry_cost(session, part.part, part.place, CLEARING, over)
    for part in off:
        if part.cost < wanted[part.part]:
            short = Money(wanted[part.part] - part.cost)
            carry_cost(session, part.part, CLEARING, part.place, short)
    return NOTHING


def _costs(total: Money, kept: Sequence[Mounted], orders: Orders) -> list[Money]:
    """Return what each part that is left is to cost; together they cost the total."""
    if orders.split is Split.HAND:
        stated = [orders.costs.get(part.slot, NOTHING) for part in kept]
        if sum(stated) != total:
            raise UsageError(
                f"the costs stated add up to {show_money(sum(stated))}, "
                f"but {show_money(total)} is to be split"
            )
        return stated
    values = [part.value or NOTHING for part in kept]
    if total and not sum(values):
        raise RefusedError(
            "no part that is left has a sales value to split the price by; "
            f"give some with --value SLOT=AMOUNT, or split with zero or hand; {UNCHANGED}"
        )
    return shared(total, values) if total else [NOTHING] * len(kept)


def _target(session: Session, part: Mounted, orders: Orders) -> tuple[PlaceId, str]:
    """Return where a part goes that comes off."""
    if is_waste(part):
        return SCRAPPED, "scrapped"
    inspected = orders.inspections.get(part.slot, orders.inspected)
    if KINDS[part.spec.kind].inspection and not inspected:
        return QUARANTINE, "quarantine"
    named = orders.bins.get(part.slot) or orders.into
    if named:
        place = bin_named(session, named)
        return PlaceId(place.id), f"bin {place.name}"
    found = bin_of_kind(session, part.spec.kind)
    if found is None:
        kind = in_words(part.spec.kind)
        raise UsageError(
            f"no bin holds a {kind} yet: say where it goes with --bin '{part.slot}=BIN', "
            "or with --into where all goes"
        )
    return PlaceId(found.id), f"bin {found.name}"
