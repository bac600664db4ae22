"""The values that the parts in bins have, attribute by attribute, to choose from in a search."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from sqlalchemy import exists, select

from partsbin.kinds.forms.lengths import LengthForm
from partsbin.kinds.forms.numbers import CountForm, CountsForm, NumberForm
from partsbin.kinds.spec import form_of, kind_named
from partsbin.standards.length import in_mm
from partsbin.stock.models import Part, RecordedSpec, SpecValue
from partsbin.stock.specs import THOUSANDTHS

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.kinds.forms.form import Form, Value


@dataclass(frozen=True, slots=True)
class HeldValues:
    """What the parts in bins have of one attribute; a list counts by its members."""

    name: str
    typed: tuple[str, ...]
    """Each value as a condition is typed, smallest first."""
    ranged: bool
    """Whether a condition may give a range of it."""


def values_held(session: Session, kind: str) -> list[HeldValues]:
    """Return what the parts of a kind in bins have, in the order of the kind's attributes.

    A reading is told as the listed sizes that it may be taken for, as conditions find it. The cost
    grows with the number of specs, not of parts. Raises `SpecError` for an unknown kind.
    """
    known = kind_named(kind)
    in_bins = exists().where(Part.spec_id == RecordedSpec.id, Part.in_bins > 0)
    query = (
        select(SpecValue.name, SpecValue.number, SpecValue.word)
        .join(RecordedSpec, RecordedSpec.id == SpecValue.spec_id)
        .where(RecordedSpec.kind == known.word, in_bins)
        .distinct()
    )
    found: dict[str, set[Decimal | str]] = {}
    for name, number, word in session.execute(query):
        form = form_of(known, name)
        found.setdefault(name, set()).update(
            _as_typed(form, value) for value in _meanings(form, number, word)
        )
    order = list(known.attributes)
    ranged = LengthForm | CountForm | CountsForm | NumberForm
    return [
        HeldValues(
            name,
            tuple(str(value) for value in sorted(found[name], key=_rank)),
            isinstance(form_of(known, name), ranged),
        )
        for name in sorted(found, key=lambda n: order.index(n) if n in order else len(order))
    ]


def _meanings(form: Form, number: int | None, word: str | None) -> tuple[Value, ...]:
    """Return what a recorded value may stand for."""
    if number is None:
        assert word is not None  # a constraint of the table
        return (word,)
    if isinstance(form, CountForm | CountsForm):
        return (number // THOUSANDTHS,)
    if isinstance(form, NumberForm):
        return (Decimal(number) / THOUSANDTHS,)
    return form.possible(number)


def _as_typed(form: Form, value: Value) -> Decimal | str:
    if isinstance(form, LengthForm):
        assert isinstance(value, int)
        return Decimal(in_mm(value))
    return str(value) if isinstance(value, str) else Decimal(str(value))


def _rank(value: Decimal | str) -> tuple[bool, Decimal, str]:
    if isinstance(value, str):
        return True, Decimal(0), value
    return False, value, ""
