"""What a search asks for, kept apart by whether a spec answers it or only the part itself.

All that is asked of the spec goes into one list of specs. Of two lists SQLite would read the parts
of one, which may be the larger, and try each of them against the other.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import select

from partsbin.stock.models import Part, RecordedSpec

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement


@dataclass(frozen=True, slots=True)
class Clause:
    """One condition of a search."""

    test: ColumnElement[bool]
    of_spec: bool
    """Whether the test is of `RecordedSpec`; else it is of `Part`."""


def tests_of_part(clauses: Iterable[Clause]) -> list[ColumnElement[bool]]:
    """Return the tests that a part has to pass, those of its spec as one of them."""
    of_spec: list[ColumnElement[bool]] = []
    of_part: list[ColumnElement[bool]] = []
    for clause in clauses:
        (of_spec if clause.of_spec else of_part).append(clause.test)
    if of_spec:
        of_part.insert(0, Part.spec_id.in_(select(RecordedSpec.id).where(*of_spec)))
    return of_part
