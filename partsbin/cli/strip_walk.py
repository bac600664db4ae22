"""The walk round a donor: for each slot what is there, how good it is, and where it goes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, TypeVar

import click

from partsbin.cli.printing import print_wrapped
from partsbin.cli.types import GRADE_WORDS
from partsbin.errors import PartsbinError
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import Spec
from partsbin.stock.bikes import bike_named
from partsbin.stock.bin_choice import bin_of_kind
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import Mounted, mounted
from partsbin.stock.money import read_money, show_money
from partsbin.stock.places import bin_named
from partsbin.stock.words import Condition, Grade
from partsbin.workshop.donor import likely, read_part
from partsbin.workshop.donor_sheet import Told, merged
from partsbin.workshop.stripping import Split

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.money import Money
    from partsbin.workshop.stripping import Orders

T = TypeVar("T")
KEEP = "keep"
"""The answer that leaves a part on the bike."""


def walk(session: Session, bike_name: str, orders: Orders) -> Orders:
    """Return the orders with the answers of a person; Enter takes what is in brackets."""
    bike = bike_named(session, bike_name)
    parts = {part.slot: part for part in mounted(session, BikeId(bike.id)) if part.slot}
    click.echo(f"{bike.name}: Enter takes what is in brackets, Ctrl-C ends and changes nothing")
    specs = {slot: part.spec for slot, part in parts.items()} | dict(orders.stated)
    specs |= _found(specs)
    told = {}
    for slot, spec in specs.items():
        if slot not in orders.keep:
            told[slot] = _slot(session, slot, parts.get(slot), specs | {slot: spec}, orders)
    return merged(orders, told)


def _found(specs: Mapping[str, Spec]) -> dict[str, Spec]:
    """Ask for slots with a part that the record does not have, and what each is."""

    def slots(text: str) -> list[str]:
        return [slot_named(name).name for name in text.split(",") if name.strip()]

    named = _ask("parts on it that the record lacks: slots, with commas", slots, "")
    asked: dict[str, Spec] = {}
    for slot in named:
        if slot in specs:
            click.echo(f"  the record has a part in {slot} already")
            continue
        kinds = slot_named(slot).kinds
        what = _ask(
            f"  {slot} ({' or '.join(kinds)}; name=value; ...)",
            lambda text, slot=slot: read_part(slot, text, specs),  # type: ignore[misc] # click calls it with the text alone
            kinds[0] if len(kinds) == 1 else None,
        )
        asked[slot] = what
    return asked


def _slot(
    session: Session,
    slot: str,
    part: Mounted | None,
    specs: Mapping[str, Spec],
    orders: Orders,
) -> Told:
    """Ask of one slot: more attributes, grade, inspection, value and bin."""
    filled = likely(specs[slot], slot, specs, orders.like)
    click.echo(f"\n{slot}:")
    print_wrapped(str(filled), 2)
    dead = part is not None and part.condition is Condition.DEAD
    if dead:
        click.echo("  it is dead, and scrapped unless it is a core")
    more = _ask(
        "  more of it, or corrections (name=value; ...)",
        lambda text: read_part(slot, text, {slot: specs[slot]}),
        "",
    )
    now = orders.grades.get(slot) or (part.grade if part else Grade.GOOD)
    grade = _ask(f"  grade ({', '.join(GRADE_WORDS)}; {KEEP} leaves it on)", _grade, str(now))
    stated = orders.stated.get(slot, None if part else specs[slot])
    if more.values:
        stated = (stated or Spec(more.kind)).with_values(more)
    waste = grade is Grade.UNSAFE or (dead and grade is not Grade.CORE)
    if grade is None or waste:
        return Told(slot, stated, grade, None, "", None, None, grade is None, "")
    inspected = _inspection(filled.kind, orders.inspections.get(slot, orders.inspected))
    value = _value(part, orders, slot)
    bin_name = _bin(session, filled.kind, orders.bins.get(slot) or orders.into)
    return Told(slot, stated, grade, inspected, bin_name, value, None, keep=False, note="")


def _grade(text: str) -> Grade | None:
    """Return the grade of a word, None to leave the part on the bike."""
    word = text.strip().lower()
    if word == KEEP:
        return None
    if word not in GRADE_WORDS:
        raise click.UsageError(f"{text!r} is no grade; give one of {', '.join(GRADE_WORDS)}")
    return Grade(word)


def _inspection(kind: str, already: bool) -> bool | None:
    """Ask whether the inspection that a kind needs was made; None where it needs none."""
    looks = KINDS[kind].inspection
    if not looks:
        return None
    for look in looks:
        print_wrapped(f"- {look}", 4)
    return click.confirm("  was all of that looked at, and is it well?", default=already)


def _value(part: Mounted | None, orders: Orders, slot: str) -> Money | None:
    """Ask what the part would sell for, where the price is split by that."""
    if orders.split is not Split.VALUE:
        return None
    now = orders.values.get(slot, part.value if part else None)
    return _ask("  would sell for", read_money, show_money(now or 0))


def _bin(session: Session, kind: str, named: str) -> str:
    usual = None if named else bin_of_kind(session, kind)
    default = named or (usual.name if usual else None)
    return _ask("  bin", lambda text: bin_named(session, text).name, default)


def _ask(question: str, read: Callable[[str], T], default: str | None) -> T:
    """Return what a person answers, asked again until it is understood."""

    def understood(text: str) -> T:
        try:
            return read(text)
        except (PartsbinError, ValueError) as fault:
            raise click.UsageError(str(fault)) from fault

    answer: T = click.prompt(
        question, default=default, value_proc=understood, show_default=bool(default)
    )
    return answer
