"""Search for what in stock some words and conditions describe."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import select

from partsbin.stock import conditions, terms
from partsbin.stock.clause import Clause, tests_of_part
from partsbin.stock.conditions import Condition
from partsbin.stock.lookup import PRESENT, Stocked, places_of
from partsbin.stock.models import Holding, Part, Place, RecordedSpec
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy import Select
    from sqlalchemy.orm import Session

    from partsbin.stock.ids import PartId

AT_MOST = 200
"""Parts that an answer holds unless more are asked for; nobody reads on."""


@dataclass(frozen=True, slots=True)
class Found:
    """What a search found, in the order of kinds, and whether there is more of it."""

    rows: tuple[Stocked, ...]
    more: bool


def find(
    session: Session,
    words: Sequence[str] = (),
    asked: Sequence[str] = (),
    *,
    everywhere: bool = False,
    limit: int = AT_MOST,
) -> Found:
    """Return the parts in bins that all the words and conditions describe.

    `words` are free words, any of which name kinds and the others what is in the kind's name, an
    attribute's value, the note, the grade or the bin. `asked` are conditions such as `speeds=8`;
    see `conditions`. With `everywhere` also parts on bikes and in quarantine are found.

    Raises `UsageError` for a condition that is not understood, with the nearest attribute.
    """
    named = terms.read_terms(words)
    clauses = [terms.clause(session, word) for word in named.words]
    if named.kinds:
        clauses.append(Clause(RecordedSpec.kind.in_(named.kinds), of_spec=True))
    clauses += [conditions.clause(session, Condition.read(text), named.kinds) for text in asked]
    query = select(Part.id).where(*tests_of_part(clauses))
    query = _present(query, everywhere=everywhere).order_by(Part.spec_id, Part.id)
    parts: list[PartId] = list(session.scalars(query.limit(limit + 1)))
    types = PRESENT if everywhere else (PlaceType.BIN,)
    return Found(tuple(places_of(session, parts[:limit], types)), len(parts) > limit)


def _present(query: Select[PartId], *, everywhere: bool) -> Select[PartId]:
    if not everywhere:
        return query.where(Part.in_bins > 0)
    held = (
        select(Holding.part_id)
        .join(Place, Place.id == Holding.place_id)
        .where(Holding.part_id == Part.id, Holding.quantity > 0, Place.type.in_(PRESENT))
    )
    return query.where(held.exists())
