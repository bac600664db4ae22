"""Counting a bin: what was seen there against what the record has."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from labels.number import LabelNumber, Thing, thing_of
from partsbin.errors import UsageError
from partsbin.kinds.kind import KINDS
from partsbin.stock.bikes import bike_named
from partsbin.stock.count_tables import AbcClass
from partsbin.stock.errors import UNCHANGED, RefusedError, UnknownError
from partsbin.stock.ids import SCRAPPED, SUPPLIER, PartId, PlaceId
from partsbin.stock.lookup import Stocked, contents, where_is
from partsbin.stock.losses import lost_in_counts
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import bin_named
from partsbin.stock.quantity import read_quantity
from partsbin.stock.specs import spec_of
from partsbin.stock.words import Grade, PlaceType, Unit
from partsbin.workshop.abc import is_within
from partsbin.workshop.mounting import place_of

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.kinds.spec import Spec
    from partsbin.stock.models import Part


class Finding(enum.StrEnum):
    """What a count found of one item."""

    RIGHT = "right"
    MISSING = "missing"
    """Less is there than the record has; what is lost is written off."""
    EXTRA = "extra"
    """More of a lot is there; it was lost before, or it costs nothing."""
    MISPLACED = "misplaced"
    """The record has it elsewhere, and follows."""
    BACK = "turned up"
    """An earlier count wrote it off."""
    STRANGE = "not to be here"
    """Sold, scrapped or waiting for its inspection: a person must see to it."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A number that was seen in the bin."""

    number: LabelNumber
    quantity: str = ""
    """How much of a lot, as it was typed; empty where nobody counted."""
    sure: bool = True
    """False for one look at a photograph: that is taken only for what the record has here."""


@dataclass(frozen=True, slots=True)
class Line:
    """One item of a count."""

    part: PartId
    number: LabelNumber
    spec: Spec
    unit: Unit
    lot: bool
    recorded: int
    counted: int
    abc: AbcClass
    finding: Finding
    elsewhere: str = ""
    """Where the record has it, if that is not this bin."""
    source: PlaceId | None = None
    """The place that it is moved from, if it is moved here."""

    @property
    def right(self) -> bool:
        """Return whether the count is within the tolerance of the item's class."""
        return is_within(self.abc, self.recorded, self.counted)


@dataclass(frozen=True, slots=True)
class Count:
    """A bin's count before it is written."""

    place: PlaceId
    bin: str
    lines: tuple[Line, ...]
    uncounted: tuple[LabelNumber, ...]
    """What was seen, but not counted: a lot without a quantity."""
    ignored: tuple[str, ...]
    """What else was seen, in words."""

    @property
    def right(self) -> int:
        """Return how many items are within their tolerance; plus and minus are never netted."""
        return sum(line.right for line in self.lines)

    def found(self, *findings: Finding) -> list[Line]:
        """Return the items of which that was found."""
        return [line for line in self.lines if line.finding in findings]

    @property
    def differs(self) -> bool:
        """Return whether anything is not as the record has it."""
        return len(self.found(Finding.RIGHT)) < len(self.lines)


def compare(
    session: Session, bin_name: str, seen: Iterable[Seen], abc: Mapping[str, AbcClass]
) -> Count:
    """Return what a count of a bin found; nothing is changed. `abc` are the classes of the kinds.

    Raises `UnknownError` for an unknown bin. A quantity that is none is told, not raised: nobody
    wants to scan a whole bin again for it.
    """
    place = bin_named(session, bin_name)
    here = {row.number: row for row in contents(session, PlaceId(place.id))}
    counted, uncounted, ignored = _read(session, place.name, here, seen)
    lines = [
        _line(session, here.get(number), part, quantity, abc)
        for number, (part, quantity) in counted.items()
    ]
    unseen = [row for number, row in here.items() if number not in {*counted, *uncounted}]
    lines += [_missing(row, 0, abc) for row in unseen]
    order = list(Finding)
    lines.sort(key=lambda line: (order.index(line.finding), line.spec.kind, line.number))
    return Count(PlaceId(place.id), place.name, tuple(lines), tuple(uncounted), tuple(ignored))


def told(count: Count) -> str:
    """Return a count in a few words, for the history."""
    few = [
        f"{len(lines)} {finding}"
        for finding in Finding
        if finding is not Finding.RIGHT and (lines := count.found(finding))
    ]
    return f"count of bin {count.bin}: " + (", ".join(few) or "all right")


def check_same(shown: Count, now: Count) -> None:
    """Raise `RefusedError` if the record changed between the look at a count and the yes."""
    if shown != now:
        raise RefusedError(f"bin {now.bin} was changed meanwhile; count it again; {UNCHANGED}")


Counted = dict[LabelNumber, tuple["Part", int]]


def _read(
    session: Session, bin_name: str, here: Mapping[LabelNumber, Stocked], seen: Iterable[Seen]
) -> tuple[Counted, list[LabelNumber], list[str]]:
    """Return how much of what was counted, the lots that were not, and what else was seen."""
    counted: Counted = {}
    uncounted: list[LabelNumber] = []
    ignored: list[str] = []
    for look in seen:
        if thing_of(look.number) not in (Thing.PART, Thing.LOT):
            ignored += _other(session, bin_name, look.number)
            continue
        if not look.sure and look.number not in here:
            ignored.append(f"{look.number} was seen only once and is not in the record of this bin")
            continue
        try:
            part = part_by_number(session, look.number)
        except UnknownError as fault:
            ignored.append(str(fault))
            continue
        try:
            quantity = _quantity(part, look.quantity)
        except UsageError as fault:
            ignored.append(f"{look.number}: {fault}")
            quantity = None
        if quantity is None:
            uncounted.append(look.number)
            continue
        before = counted[look.number][1] if part.lot and look.number in counted else 0
        counted[look.number] = (part, before + quantity)
    still = [number for number in dict.fromkeys(uncounted) if number not in counted]
    return counted, still, list(dict.fromkeys(ignored))


def _quantity(part: Part, text: str) -> int | None:
    """Return how much was counted, None of a lot that was only seen.

    Raises `UsageError` for what is no quantity, or another one than 1 of a single part.
    """
    if not part.lot:
        if text not in {"", "1"}:
            raise UsageError("this is a single part; type its number alone")
        return 1
    if not text:
        return None
    return 0 if text in {"0", "0 m", "0m"} else read_quantity(text, part.unit)


def _other(session: Session, bin_name: str, number: LabelNumber) -> list[str]:
    """Return what to say of a label that is none of a part: nothing of the bin's own."""
    try:
        if thing_of(number) is Thing.BIN:
            name = bin_named(session, number).name
            return [] if name == bin_name else [f"{number} is the label of bin {name}"]
        return [f"{number} is the label of bike {bike_named(session, number).name}"]
    except UnknownError as fault:
        return [str(fault)]


def _line(
    session: Session,
    here: Stocked | None,
    part: Part,
    counted: int,
    abc: Mapping[str, AbcClass],
) -> Line:
    """Return what was found of something that was seen."""
    recorded = here.quantity if here else 0
    if here and counted < recorded:
        return _missing(here, counted, abc)
    spec = spec_of(part.spec.text)
    finding, elsewhere, source = Finding.RIGHT, "", None
    if counted > recorded:
        finding, elsewhere, source = _surplus(session, part, spec, here)
    return Line(
        PartId(part.id),
        part.number,
        spec,
        part.unit,
        part.lot,
        recorded,
        counted,
        abc.get(spec.kind, AbcClass.C),
        finding,
        elsewhere,
        source,
    )


def _missing(row: Stocked, counted: int, abc: Mapping[str, AbcClass]) -> Line:
    return Line(
        row.part,
        row.number,
        row.spec,
        row.unit,
        row.lot,
        row.quantity,
        counted,
        abc.get(row.spec.kind, AbcClass.C),
        Finding.RIGHT if counted == row.quantity else Finding.MISSING,
    )


def _surplus(
    session: Session, part: Part, spec: Spec, here: Stocked | None
) -> tuple[Finding, str, PlaceId | None]:
    """Return what more of something in a bin than the record has is, and where it came from."""
    places = where_is(session, PartId(part.id))
    others = [place for place in places if here is None or place.place != here.place]
    where = " and ".join(map(place_of, others)) or "in no place of the record"
    if part.grade is Grade.UNSAFE:
        return Finding.STRANGE, f"{where}, and unsafe: scrap it", None
    if lost_in_counts(session, PartId(part.id))[0]:
        return Finding.BACK, where, SCRAPPED
    if part.lot:
        bins = [place for place in others if place.place_type is PlaceType.BIN]
        if bins and here is None:
            return Finding.MISPLACED, place_of(bins[0]), bins[0].place
        return Finding.EXTRA, "", SUPPLIER
    if others and others[0].place_type in _may_be_taken_from(spec):
        return Finding.MISPLACED, where, others[0].place
    return Finding.STRANGE, where, None


def _may_be_taken_from(spec: Spec) -> tuple[PlaceType, ...]:
    """Return where a part may come from unasked; what needs an inspection comes off no bike so."""
    if KINDS[spec.kind].inspection:
        return (PlaceType.BIN,)
    return (PlaceType.BIN, PlaceType.SLOT, PlaceType.BIKE)
