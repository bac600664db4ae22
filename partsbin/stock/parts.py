"""Parts and lots: add them, change what is known of them, find one by its number."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import bindparam, delete, insert, select
from sqlalchemy.orm import joinedload

from labels.number import LabelNumber, Thing
from partsbin.errors import UsageError
from partsbin.stock.errors import UNCHANGED, RefusedError, UnknownError
from partsbin.stock.holdings import Arrival
from partsbin.stock.ids import PartId, PlaceId
from partsbin.stock.models import NoteWord, Part
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.movements import arrive
from partsbin.stock.numbers import keep_numbers, take_numbers
from partsbin.stock.places import read_number
from partsbin.stock.specs import WITH_NULLS, record_spec, record_specs
from partsbin.stock.words import Condition, Grade, Unit

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.kinds.spec import Spec

AT_ONCE = 5000
IN_ONE_LIST = 500
BY_NUMBER = (
    select(Part)
    .options(joinedload(Part.spec, innerjoin=True))
    .where(Part.number == bindparam("number"))
)


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPart:
    """A part or a lot that comes into the record."""

    spec: Spec
    place: PlaceId
    grade: Grade = Grade.GOOD
    quantity: int = 1
    cost: Money = NOTHING
    """Of the whole quantity."""
    lot: bool = False
    unit: Unit = Unit.PIECE
    condition: Condition = Condition.SOUND
    value: Money | None = None
    origin: str = ""
    note: str = ""
    number: LabelNumber | None = None
    """The number that its label carries already; the next one without."""


@dataclass(frozen=True, slots=True)
class Added:
    """A part that came into the record."""

    id: PartId
    number: LabelNumber


def add_part(session: Session, part: NewPart) -> Added:
    """Put a new part into its place, from the supplier, and return its number."""
    return add_parts(session, [part])[0]


def add_parts(session: Session, parts: Sequence[NewPart]) -> list[Added]:
    """Put new parts into their places, from the supplier, and return their numbers in order.

    Raises `UsageError` for a quantity that a part cannot have, and as `movements.arrive` does.
    """
    for part in parts:
        _check(part)
    added: list[Added] = []
    for start in range(0, len(parts), AT_ONCE):
        added += _add_some(session, parts[start : start + AT_ONCE])
    return added


def _check(part: NewPart) -> None:
    single = not part.lot
    if part.quantity < 1 or (single and (part.quantity != 1 or part.unit is not Unit.PIECE)):
        allowed = "1 piece" if single else "1 or more"
        raise UsageError(f"{part.quantity} is no quantity of {part.spec}; give {allowed}")
    if part.cost < 0 or (part.value or 0) < 0:
        raise UsageError(f"{part.spec} cannot cost or be worth less than nothing")


def _add_some(session: Session, parts: Sequence[NewPart]) -> list[Added]:
    specs = record_specs(session, [part.spec for part in parts])
    numbers = _numbers(session, parts)
    rows = [
        {
            "number": number,
            "spec_id": spec,
            "grade": part.grade,
            "lot": part.lot,
            "unit": part.unit,
            "condition": part.condition,
            "value": part.value,
            "origin": part.origin,
            "note": part.note,
            "in_bins": 0,
        }
        for part, spec, number in zip(parts, specs, numbers, strict=True)
    ]
    session.execute(insert(Part), rows, execution_options=WITH_NULLS)
    ids = _ids(session, numbers)
    _index_notes(session, ((id_, part.note) for id_, part in zip(ids, parts, strict=True)))
    arrive(
        session,
        [
            Arrival(id_, part.place, part.quantity, part.cost)
            for id_, part in zip(ids, parts, strict=True)
        ],
    )
    return [Added(id_, number) for id_, number in zip(ids, numbers, strict=True)]


def _ids(session: Session, numbers: Sequence[LabelNumber]) -> list[PartId]:
    """Return the id of each number's part. Asked for all at once: RETURNING is slow for many."""
    found: dict[LabelNumber, PartId] = {}
    for start in range(0, len(numbers), IN_ONE_LIST):
        some = numbers[start : start + IN_ONE_LIST]
        query = select(Part.number, Part.id).where(Part.number.in_(some))
        found.update((row.number, PartId(row.id)) for row in session.execute(query))
    return [found[number] for number in numbers]


def _numbers(session: Session, parts: Sequence[NewPart]) -> list[LabelNumber]:
    """Return the number of each part, its own or the next one."""
    keep_numbers(session, (part.number for part in parts if part.number is not None))
    unnumbered = [part.lot for part in parts if part.number is None]
    taken = {
        lot: iter(take_numbers(session, thing, unnumbered.count(lot)) if lot in unnumbered else ())
        for lot, thing in ((True, Thing.LOT), (False, Thing.PART))
    }
    return [part.number or next(taken[part.lot]) for part in parts]


def note_words(note: str) -> set[str]:
    """Return the words of a note as a search looks for them.

    >>> sorted(note_words("Lever a little LOOSE, 2nd shelf"))
    ['2nd', 'a', 'lever', 'little', 'loose', 'shelf']
    """
    return set(re.findall(r"\w+", note.lower()))


def _index_notes(session: Session, notes: Iterable[tuple[PartId, str]]) -> None:
    rows = [{"word": word, "part_id": part} for part, note in notes for word in note_words(note)]
    if rows:
        session.execute(insert(NoteWord), rows)


def part_by_number(session: Session, text: str) -> Part:
    """Return the part or lot of a label number, however it is grouped.

    Raises `UsageError` for what is no number of a part, `UnknownError` if there is none.
    """
    number = read_number(text, Thing.PART, Thing.LOT)
    part = session.scalar(BY_NUMBER, {"number": number})
    if part is None:
        raise UnknownError("part", text.strip(), "; look at the label again")
    return part


def edit_part(
    session: Session,
    part: PartId,
    *,
    spec: Spec | None = None,
    grade: Grade | None = None,
    condition: Condition | None = None,
    value: Money | None = None,
    origin: str | None = None,
    note: str | None = None,
) -> None:
    """Change what is known of a part; what is None stays. Its kind stays what it is."""
    row = session.get(Part, part)
    if row is None:
        raise UnknownError("part", str(part))
    given: dict[str, Any] = {
        "grade": grade,
        "condition": condition,
        "value": value,
        "origin": origin,
        "note": note,
    }
    if spec is not None:
        if spec.kind != row.spec.kind:
            raise RefusedError(f"a {row.spec.kind} does not become a {spec.kind}; {UNCHANGED}")
        given["spec_id"] = record_spec(session, spec)
    for name, changed in given.items():
        if changed is not None and changed != getattr(row, name):
            setattr(row, name, changed)
    if note is not None:
        session.execute(delete(NoteWord).where(NoteWord.part_id == part))
        _index_notes(session, [(part, note)])
    session.flush()
