"""Proves the record: each check is a plain function, and `CHECKS` lists them all.

A check returns its faults as sentences and raises nothing, so that all faults come out at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import Select, and_, case, func, literal, or_, select, text, union_all

from labels.number import Thing, is_valid, running_of, thing_of
from partsbin.kinds.spec import Spec
from partsbin.stock.balance import balance
from partsbin.stock.cost_layers import layers_of_lots, totals
from partsbin.stock.holdings import NOT_HELD
from partsbin.stock.ids import CLEARING, PlaceId
from partsbin.stock.models import (
    Bike,
    BinSum,
    Holding,
    Movement,
    NoteWord,
    Part,
    Place,
    RecordedSpec,
    RunningNumber,
    SpecValue,
)
from partsbin.stock.money import Money, show_money
from partsbin.stock.part_sales import sold_parts_left
from partsbin.stock.parts import note_words
from partsbin.stock.specs import value_rows
from partsbin.stock.undone import undone_acts_cancel
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import InstrumentedAttribute, Session

MOST = 20
"""Faults of one check that are told; more are only counted."""


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that is not as it must be."""

    check: str
    """The name of the check that found it."""
    text: str


def check(session: Session) -> list[Fault]:
    """Return all faults of the record, none if it is right."""
    return [
        Fault(check.__name__, told) for check in CHECKS for told in _at_most(check(session), MOST)
    ]


def _at_most(faults: Iterable[str], most: int) -> Iterator[str]:
    more = 0
    for count, told in enumerate(faults):
        if count < most:
            yield told
        else:
            more += 1
    if more:
        yield f"and {more} more"


def file_is_sound(session: Session) -> Iterator[str]:
    """Prove that the database's structure holds and that every reference points at a row."""
    if session.get_bind().dialect.name != "sqlite":
        return
    for (told,) in session.execute(text("PRAGMA integrity_check")):
        if told != "ok":
            yield str(told)
    for row in session.execute(text("PRAGMA foreign_key_check")):
        yield f"row {row[1]} of {row[0]} points at a {row[2]} that is not there"


def holdings_are_sums(session: Session) -> Iterator[str]:
    """Prove that what each place holds is the sum of the movements in and out."""
    moves = union_all(
        _flow(Movement.to_place_id, 1),
        _flow(Movement.from_place_id, -1),
        select(Holding.part_id, Holding.place_id, -Holding.quantity, -Holding.cost),
    ).subquery()
    part, place, quantity, cost = moves.c
    query = (
        select(part, place, func.sum(quantity), func.sum(cost))
        .where(place.not_in(NOT_HELD))
        .group_by(part, place)
        .having((func.sum(quantity) != 0) | (func.sum(cost) != 0))
    )
    for part_id, place_id, more, dearer in session.execute(query):
        yield (
            f"part {part_id} in place {place_id}: the movements give {int(more):+d} and "
            f"{show_money(int(dearer))} more than what is held"
        )


def _flow(place: InstrumentedAttribute[PlaceId], sign: int) -> Select[int, int, int, int]:
    return select(
        Movement.part_id,
        place.label("place_id"),
        (Movement.quantity * sign).label("quantity"),
        (Movement.cost * sign).label("cost"),
    )


def layers_are_holdings(session: Session) -> Iterator[str]:
    """Prove that what each place holds of a lot is the sum of its cost layers."""
    query = select(Holding.part_id, Holding.place_id, Holding.quantity, Holding.cost)
    held = {
        (row.part_id, row.place_id): (row.quantity, row.cost)
        for row in session.execute(query.join(Part, Part.id == Holding.part_id).where(Part.lot))
    }
    for part, layers in layers_of_lots(session):
        for place, layer in totals(layers).items():
            if held.pop((part, place), (0, 0)) != (layer.quantity, layer.cost):
                cost = show_money(layer.cost)
                yield f"lot {part} in place {place}: its layers are {layer.quantity} at {cost}"
    for part, place in held:
        yield f"lot {part} in place {place} has no layers"


def nothing_below_zero(session: Session) -> Iterator[str]:
    """Prove that no place holds less than nothing, in quantity or in cost."""
    below = (Holding.quantity < 0) | (Holding.cost < 0)
    query = select(Holding.part_id, Holding.place_id).where(below)
    for part, place in session.execute(query):
        yield f"part {part} in place {place} is below nothing"


def money_is_conserved(session: Session) -> Iterator[str]:
    """Prove that what was bought is in stock, on bikes, sold or written off."""
    missing = balance(session).missing
    if missing:
        yield f"{show_money(missing)} was bought and is nowhere"


def clearing_is_empty(session: Session) -> Iterator[str]:
    """Prove that each act hands on all the cost that it takes into clearing."""
    sign = case((Movement.to_place_id == CLEARING, Movement.cost), else_=-Movement.cost)
    query = (
        select(Movement.act_id, func.sum(sign))
        .where((Movement.to_place_id == CLEARING) | (Movement.from_place_id == CLEARING))
        .group_by(Movement.act_id)
        .having(func.sum(sign) != 0)
    )
    for act, left in session.execute(query):
        yield f"act {act} left {show_money(int(left))} in clearing"


def single_parts_are_single(session: Session) -> Iterator[str]:
    """Prove that a single part is once in one place; only a lot may be in several."""
    total = func.sum(Holding.quantity)
    query = (
        select(Part.number, total)
        .join(Holding, Holding.part_id == Part.id)
        .where(Part.lot.is_(False))
        .group_by(Part.id, Part.number)
        .having(total > 1)
    )
    for number, quantity in session.execute(query):
        yield f"single part {number} is in the record {int(quantity)} times"


def slots_hold_one_part(session: Session) -> Iterator[str]:
    """Prove that a bike's slot is filled by one part at most."""
    query = (
        select(Place.name, Bike.name)
        .join(Holding, and_(Holding.place_id == Place.id, Holding.quantity > 0))
        .join(Bike, Bike.id == Place.bike_id)
        .where(Place.type == PlaceType.SLOT)
        .group_by(Place.id, Place.name, Bike.name)
        .having(func.count() > 1)
    )
    for slot, bike in session.execute(query):
        yield f"{bike}'s {slot} slot holds more than one part"


def bins_add_up(session: Session) -> Iterator[str]:
    """Prove that how much of a part is in bins is what its bins hold."""
    held = (
        select(func.coalesce(func.sum(Holding.quantity), 0))
        .join(Place, Place.id == Holding.place_id)
        .where(Holding.part_id == Part.id, Place.type == PlaceType.BIN)
        .correlate(Part)
        .scalar_subquery()
    )
    query = select(Part.number, Part.in_bins, held).where(Part.in_bins != held)
    for number, counted, really in session.execute(query):
        yield f"part {number} is counted as {counted} in bins, but they hold {int(really)}"


def bin_sums_add_up(session: Session) -> Iterator[str]:
    """Prove that each bin, and no other place, has its sum, and that it is what the bin holds."""
    held = (
        select(
            Holding.place_id.label("place_id"),
            func.count().label("parts"),
            func.sum(Holding.cost).label("cost"),
        )
        .group_by(Holding.place_id)
        .subquery()
    )
    parts, cost = func.coalesce(held.c.parts, 0), func.coalesce(held.c.cost, 0)
    is_bin = Place.type == PlaceType.BIN
    wrong = or_(BinSum.parts != parts, BinSum.cost != cost)
    query = (
        select(Place.name, BinSum.parts, BinSum.cost, parts, cost)
        .outerjoin(BinSum, BinSum.place_id == Place.id)
        .outerjoin(held, held.c.place_id == Place.id)
        .where(
            is_bin & (BinSum.place_id.is_(None) | wrong) | ~is_bin & BinSum.place_id.is_not(None)
        )
    )
    for name, parts_kept, cost_kept, parts_held, cost_held in session.execute(query):
        kept = "nothing" if parts_kept is None else f"{parts_kept} parts at {show_money(cost_kept)}"
        really = f"{int(parts_held)} at {show_money(Money(int(cost_held)))}"
        yield f"{name} is summed up as {kept}, but it holds {really}"


def numbers_are_valid(session: Session) -> Iterator[str]:
    """Prove that each label number has its check digits, names its thing and was given out."""
    last = {Thing(row.thing): row.last for row in session.execute(_last_numbers())}
    numbered = union_all(
        select(Place.number, literal(Thing.BIN.value)).where(Place.number.is_not(None)),
        select(Bike.number, literal(Thing.BIKE.value)),
        select(Part.number, case((Part.lot, Thing.LOT.value), else_=Thing.PART.value)),
    )
    for number, digit in session.execute(numbered):
        thing = Thing(digit)
        if not is_valid(number):
            yield f"{number} of a {thing.name.lower()} has wrong check digits"
        elif thing_of(number) is not thing:
            yield f"{number} is not the number of a {thing.name.lower()}"
        elif running_of(number) > last.get(thing, 0):
            yield f"{number} was never given out"


def _last_numbers() -> Select[str, int]:
    return select(RunningNumber.thing, RunningNumber.last)


def specs_are_readable(session: Session) -> Iterator[str]:
    """Prove that each spec is readable and that its values are those of its text."""
    values: dict[int, set[tuple[object, ...]]] = {}
    query = select(
        SpecValue.spec_id, SpecValue.name, SpecValue.position, SpecValue.number, SpecValue.word
    )
    for spec_id, *value in session.execute(query):
        values.setdefault(spec_id, set()).add(tuple(value))
    for row in session.execute(select(RecordedSpec.id, RecordedSpec.kind, RecordedSpec.text)):
        try:
            spec = Spec.from_text(row.text)
        except ValueError as fault:
            yield f"spec {row.id} is not readable: {fault}"
            continue
        if (spec.kind, spec.text) != (row.kind, row.text):
            yield f"spec {row.id} is not written as this program writes it: {row.text}"
        expected = {tuple(value.values())[1:] for value in value_rows(row.id, spec)}
        if expected != values.get(row.id, set()):
            yield f"spec {row.id} has other values than its text: {row.text}"


def notes_are_indexed(session: Session) -> Iterator[str]:
    """Prove that the words that a search looks for are those of the notes."""
    words: dict[int, set[str]] = {}
    for word, part in session.execute(select(NoteWord.word, NoteWord.part_id)):
        words.setdefault(part, set()).add(word)
    noted = (Part.note != "") | Part.id.in_(select(NoteWord.part_id))
    for row in session.execute(select(Part.id, Part.number, Part.note).where(noted)):
        if note_words(row.note) != words.get(row.id, set()):
            yield f"the note of part {row.number} is not found by its words"


CHECKS: tuple[Callable[[Session], Iterable[str]], ...] = (
    file_is_sound,
    holdings_are_sums,
    layers_are_holdings,
    nothing_below_zero,
    money_is_conserved,
    clearing_is_empty,
    single_parts_are_single,
    slots_hold_one_part,
    bins_add_up,
    bin_sums_add_up,
    numbers_are_valid,
    specs_are_readable,
    notes_are_indexed,
    undone_acts_cancel,
    sold_parts_left,
)
