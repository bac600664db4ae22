"""Keeps what an act edits: which field of a part or a bike, what it was, and what it became.

`watch` listens to the sessions of acts, so that whoever sets a field need not think of it.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from sqlalchemy import event, insert
from sqlalchemy.orm import object_mapper
from sqlalchemy.orm.attributes import get_history

from partsbin.stock.check_tables import Edit
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Bike, Part
from partsbin.stock.words import BikeState, Condition, Grade

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

CREATED = "state"
"""The field that a bike which came in has its edit of, with nothing before."""
SUM = "in_bins"
"""The field of a part that no act edits, because it follows the movements."""
READERS: Mapping[str, Callable[[str], Any]] = {
    "grade": Grade,
    "condition": Condition,
    "state": BikeState,
    "spec_id": int,
    "value": int,
    "price": int,
    "bought_on": dt.date.fromisoformat,
    "serial_checked": lambda text: text == "yes",
}
"""How the text of a field is read again; what is not here is text."""


def watch(sessions: type[Session]) -> None:
    """Append an `Edit` for each field of a part or bike that a session of this class changes."""
    event.listen(sessions, "after_flush", _append)


def as_text(value: object) -> str | None:
    """Return a field's value as an edit keeps it."""
    if value is None:
        return None
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def read_field(field: str, text: str | None) -> Any:
    """Return the value of a field from the text that an edit kept."""
    return None if text is None else READERS.get(field, str)(text)


def _append(session: Session, _: object) -> None:
    rows = [row for thing in session.dirty for row in _edits(thing)]
    rows += [
        _row(thing, CREATED, None, str(thing.state))
        for thing in session.new
        if isinstance(thing, Bike)
    ]
    if rows:
        session.execute(insert(Edit), [{"act_id": act_of(session), **row} for row in rows])


def _edits(thing: object) -> Iterator[dict[str, object]]:
    if not isinstance(thing, Part | Bike):
        return
    for column in object_mapper(thing).column_attrs:
        if column.key == SUM:
            continue
        history = get_history(thing, column.key)
        if history.has_changes():
            before, after = (next(iter(found), None) for found in (history.deleted, history.added))
            yield _row(thing, column.key, as_text(before), as_text(after))


def _row(
    thing: Part | Bike, field: str, before: str | None, after: str | None
) -> dict[str, object]:
    part, bike = (thing.id, None) if isinstance(thing, Part) else (None, thing.id)
    return {"part_id": part, "bike_id": bike, "field": field, "before": before, "after": after}
