"""Specs in the record: equal ones are one row, their values are rows for conditions in SQL."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import ROUND_HALF_EVEN, Decimal
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from sqlalchemy import insert, select

from partsbin.kinds import KINDS
from partsbin.kinds.forms.numbers import CountForm, CountsForm
from partsbin.kinds.spec import Spec, form_of
from partsbin.stock.ids import SpecId
from partsbin.stock.models import RecordedSpec, SpecValue

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.kinds.forms.form import Form

THOUSANDTHS = 1000
AT_ONCE = 500
"""Values in one IN list; SQLite takes many more, PostgreSQL plans long ones slowly."""
WITH_NULLS = {"render_nulls": True}
"""Without it, rows that lack a value cannot be inserted together with those that have it."""


@lru_cache(maxsize=65536)
def spec_of(text: str) -> Spec:
    """Return the spec of a recorded text."""
    return Spec.from_text(text)


def record_spec(session: Session, spec: Spec) -> SpecId:
    """Return the id of the spec's row, made if there is none."""
    return record_specs(session, [spec])[0]


def record_specs(session: Session, specs: Iterable[Spec]) -> list[SpecId]:
    """Return the id of each spec's row, in order; the rows that are missing are made."""
    texts = [(spec.text, spec) for spec in specs]
    by_text = dict(texts)
    ids = _known(session, list(by_text))
    missing = [text for text in by_text if text not in ids]
    if missing:
        rows = [{"kind": by_text[text].kind, "text": text} for text in missing]
        session.execute(insert(RecordedSpec), rows)
        # Asked for afterwards: RETURNING is slow for many rows.
        ids.update(_known(session, missing))
        values = [row for text in missing for row in value_rows(ids[text], by_text[text])]
        if values:
            session.execute(insert(SpecValue), values, execution_options=WITH_NULLS)
    return [ids[text] for text, _ in texts]


def _known(session: Session, texts: list[str]) -> dict[str, SpecId]:
    found: dict[str, SpecId] = {}
    for start in range(0, len(texts), AT_ONCE):
        some = texts[start : start + AT_ONCE]
        query = select(RecordedSpec.text, RecordedSpec.id).where(RecordedSpec.text.in_(some))
        found.update((text, id_) for text, id_ in session.execute(query))
    return found


def value_rows(spec_id: SpecId, spec: Spec) -> Iterator[dict[str, Any]]:
    """Return the rows of `spec_value` for a spec."""
    kind = KINDS[spec.kind]
    for name, value in spec.values:
        form = form_of(kind, name)
        for position, member in enumerate(value if isinstance(value, tuple) else (value,)):
            number, word = stored(form, member)
            yield {
                "spec_id": spec_id,
                "name": name,
                "position": position,
                "number": number,
                "word": word,
            }


def stored(form: Form, member: int | str | Decimal) -> tuple[int | None, str | None]:
    """Return a value, or one of a list's, as `spec_value` holds it: thousandths, or a word.

    >>> stored(CountForm(1, 12), 8), stored(CountForm(1, 12), "Rear")
    ((8000, None), (None, 'rear'))
    """
    if isinstance(member, str):
        return None, member.lower()
    if isinstance(member, Decimal):
        exact = (member * THOUSANDTHS).quantize(Decimal(1), rounding=ROUND_HALF_EVEN)
        return int(exact), None
    # A length is micrometres already.
    return member * (THOUSANDTHS if isinstance(form, CountForm | CountsForm) else 1), None
