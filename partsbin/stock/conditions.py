"""Conditions of a search: `speeds=8`, `diameter=27..27.4`, `width_mm>=35`, `grade=good`, `bin=A1`.

A value is read as the attribute's form reads it, so `27,2 mm` and `1 1/8 in` are as good as
`27.2`. A reading is found by the size that it is taken for: 27.18 mm is found by 27.2, and 27.1,
which lies between two sizes, by either of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, TypeVar

from sqlalchemy import and_, false, or_, select

from partsbin.errors import UsageError
from partsbin.kinds import KINDS
from partsbin.kinds.forms.form import nearest
from partsbin.kinds.forms.lengths import LengthForm
from partsbin.kinds.forms.numbers import CountForm, CountsForm, NumberForm
from partsbin.kinds.forms.words import WordForm
from partsbin.kinds.spec import FREE, in_words, kind_named
from partsbin.kinds.typed import read_decimal, read_length
from partsbin.stock.clause import Clause
from partsbin.stock.models import Holding, Part, RecordedSpec, SpecValue
from partsbin.stock.places import bin_named
from partsbin.stock.specs import stored
from partsbin.stock.words import Grade

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
    from sqlalchemy.orm import Session

    from partsbin.kinds.forms.form import Form, Value

OTHERS = ("bin", "grade", "kind")
"""What a condition can name besides attributes."""
_SHAPE = re.compile(r"\s*([\w -]+?)\s*(>=|<=|=)\s*(.+?)\s*", re.DOTALL)
LARGEST = 10**12
"""More than any attribute has, in its own unit or in micrometres."""
N = TypeVar("N", int, Decimal)
FORM = "type it like speeds=8, diameter=27..27.4 or width>=35"


@dataclass(frozen=True, slots=True)
class Condition:
    """A condition as it was typed: a name, `=`, `>=` or `<=`, and a value or a range."""

    name: str
    sign: str
    value: str

    @classmethod
    def read(cls, text: str) -> Condition:
        """Return the condition of a text. Raises `UsageError` for anything else.

        >>> Condition.read("seat tube bore = 27.2")
        Condition(name='seat_tube_bore', sign='=', value='27.2')
        """
        match = _SHAPE.fullmatch(text)
        if not match:
            raise UsageError(f"{text.strip()!r} is not a condition; {FORM}")
        name, sign, value = match.groups()
        return cls(name.lower().replace("-", "_").replace(" ", "_"), sign, value)


def is_condition(text: str) -> bool:
    """Return whether a text is meant as a condition, not as a word."""
    return any(sign in text for sign in "=<>")


def clause(session: Session, asked: Condition, kinds: Sequence[str]) -> Clause:
    """Return what a part must be. `kinds` are the kinds that are searched, none for all.

    Raises `UsageError` for an unknown attribute, which offers the nearest one, and for a value
    that the attribute cannot have; `UnknownError` for an unknown bin.
    """
    if asked.name in OTHERS:
        return _other(session, asked)
    forms = list(_forms(session, asked.name, kinds))
    if not forms:
        raise UsageError(_unknown(asked.name, kinds))
    wanted = []
    faults = []
    for form, name, having in forms:
        try:
            wanted.append(_specs_with(session, asked, form, name, having))
        except ValueError as fault:
            faults.append(f"{name}: {fault}")
    if not wanted:
        raise UsageError(faults[0])
    return Clause(or_(*wanted), of_spec=True)


def _other(session: Session, asked: Condition) -> Clause:
    if asked.sign != "=":
        raise UsageError(f"{asked.name} takes only '=', as in {asked.name}={asked.value}")
    if asked.name == "bin":
        place = bin_named(session, asked.value).id
        held = select(Holding.part_id).where(Holding.place_id == place)
        return Clause(Part.id.in_(held), of_spec=False)
    if asked.name == "grade":
        return Clause(Part.grade == read_grade(asked.value), of_spec=False)
    return Clause(RecordedSpec.kind == kind_named(asked.value).word, of_spec=True)


def read_grade(text: str) -> Grade:
    """Return the grade of a word. Raises `UsageError` that lists the grades."""
    word = text.strip().lower()
    grades = [grade.value for grade in Grade]
    if word not in grades:
        hint = nearest(word, grades)
        raise UsageError(f"{text.strip()!r} is not a grade ({', '.join(grades)}){hint}")
    return Grade(word)


def short(name: str) -> str:
    """Return an attribute's name without its unit.

    >>> short("seat_tube_bore_mm")
    'seat_tube_bore'
    """
    return in_words(name).replace(" ", "_")


def _forms(
    session: Session, asked: str, kinds: Sequence[str]
) -> Iterator[tuple[Form, str, list[str]]]:
    """Return each form that an attribute of this name has, its full name, and the kinds."""
    found: dict[tuple[int, str], tuple[Form, str, list[str]]] = {}
    for kind in kinds or KINDS:
        for name, attribute in KINDS[kind].attributes.items():
            if asked in (name, short(name)):
                key = (id(attribute.form), name)
                found.setdefault(key, (attribute.form, name, []))[2].append(kind)
    yield from found.values()
    free = [kind for kind in kinds or KINDS if KINDS[kind].free]
    recorded = (
        select(SpecValue.name)
        .join(RecordedSpec, RecordedSpec.id == SpecValue.spec_id)
        .where(SpecValue.name == asked, RecordedSpec.kind.in_(free))
    )
    if free and session.scalar(recorded.limit(1)):
        yield FREE, asked, free


def _unknown(asked: str, kinds: Sequence[str]) -> str:
    names = {name for kind in kinds or KINDS for name in KINDS[kind].attributes}
    known = sorted({*names, *map(short, names), *OTHERS})
    of = f" of {' or '.join(in_words(kind) for kind in kinds)}" if kinds else ""
    return f"{asked!r} is no attribute{of}{nearest(asked, known)}"


def _specs_with(
    session: Session, asked: Condition, form: Form, name: str, kinds: list[str]
) -> ColumnElement[bool]:
    """Return that a spec is of these kinds and its attribute is as asked."""
    named = and_(SpecValue.name == name, RecordedSpec.kind.in_(kinds))
    if asked.sign != "=" or ".." in asked.value:
        tests = [_between(form, *_bounds(asked))]
    elif _snaps(form):
        tests = [_taken_for(session, form, form.read(asked.value), named)]
    else:
        tests = _equal(form, form.read(asked.value))
    matching = [
        RecordedSpec.id.in_(
            select(SpecValue.spec_id)
            .join(RecordedSpec, RecordedSpec.id == SpecValue.spec_id)
            .where(named, test)
            .correlate(None)
        )
        for test in tests
    ]
    return and_(*matching)


def _snaps(form: Form) -> bool:
    """Return whether a reading of this form may be taken for a listed size."""
    if isinstance(form, LengthForm):
        return form.sizes is not None
    return isinstance(form, WordForm) and bool(form.measured)


def _taken_for(
    session: Session, form: Form, asked: Value, named: ColumnElement[bool]
) -> ColumnElement[bool]:
    """Return that the recorded value may mean what is asked; the values in the record are few."""
    wanted = set(form.possible(asked))
    recorded = (
        select(SpecValue.number, SpecValue.word)
        .join(RecordedSpec, RecordedSpec.id == SpecValue.spec_id)
        .where(named)
        .distinct()
    )
    tests: list[ColumnElement[bool]] = []
    for number, word in session.execute(recorded):
        value = word if number is None else number
        assert value is not None  # a constraint of the table
        if wanted & set(form.possible(value)):
            tests.append(_is(number, word))
    return or_(false(), *tests)


def _is(number: int | None, word: str | None) -> ColumnElement[bool]:
    return SpecValue.word == word if number is None else SpecValue.number == number


def _equal(form: Form, asked: Value) -> list[ColumnElement[bool]]:
    """Return a test for the value, or one for each member of a list; all of them must hold."""
    members = asked if isinstance(asked, tuple) else (asked,)
    return [_is(*stored(form, member)) for member in members]


def _bounds(asked: Condition) -> tuple[str, str]:
    if asked.sign == ">=":
        return asked.value, ""
    if asked.sign == "<=":
        return "", asked.value
    low, _, high = asked.value.partition("..")
    return low.strip(), high.strip()


def _between(form: Form, low: str, high: str) -> ColumnElement[bool]:
    """Return that the recorded number lies between two that were typed; an empty one is open."""
    tests = []
    if low:
        tests.append(SpecValue.number >= _bound(form, low))
    if high:
        tests.append(SpecValue.number <= _bound(form, high))
    if not tests:
        raise ValueError("a range needs a number at one end at least, as in 27..27.4")
    return and_(*tests)


def _within(number: N, text: str) -> N:
    """Return a number that a column can be compared with."""
    if abs(number) > LARGEST:
        raise ValueError(f"{text.strip()!r} is larger than anything in the record")
    return number


def _bound(form: Form, text: str) -> int:
    """Return the end of a range in thousandths; it may lie outside what the form allows."""
    if isinstance(form, LengthForm):
        return _within(read_length(text), text)
    if isinstance(form, CountForm | CountsForm | NumberForm):
        number, _ = stored(form, _within(read_decimal(text.rstrip(" %°")), text))
        assert number is not None
        return number
    raise ValueError(f"it is {form.allowed} and has no range; give one with '='")
