"""CSV files of the user's own list of names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import delete, insert, select

from partsbin.stock.name_tables import PrintedName
from partsbin.workshop.csv_files import FaultsError, Row, read_rows
from partsbin.workshop.incoming import Incoming
from partsbin.workshop.names import entries_of, key_of
from partsbin.workshop.row_values import read_row_spec

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy.orm import Session

NAMES = ("printed", "kind", "attributes", "note")
NEEDED = ("printed", "kind")
AT_ONCE = 500


@dataclass(frozen=True, slots=True)
class Renamed:
    """What an import of names did to the list."""

    new: int
    changed: int
    same: int
    removed: int


def import_names(session: Session, path: Path, *, only: bool = False) -> Renamed:
    """Take a CSV file into the list and return what that did; with `only` all else is forgotten.

    Raises `FaultsError` with every fault; the act must then be rolled back.
    """
    before = entries_of(session)
    if only:
        session.execute(delete(PrintedName))
    work = Incoming(session, lambda _: None)
    rows = list(read_rows(path, NAMES, NEEDED))
    take_names(work, rows)
    if work.faults:
        raise FaultsError(work.faults)
    after = entries_of(session)
    return Renamed(
        new=len(after.keys() - before.keys()),
        changed=sum(before[at] != after[at] for at in before.keys() & after.keys()),
        same=sum(before[at] == after[at] for at in before.keys() & after.keys()),
        removed=len(before.keys() - after.keys()),
    )


def take_names(work: Incoming, rows: Sequence[Row]) -> int:
    """Take rows of names into the list, where they take the place of equal names of their kind."""
    read: dict[tuple[str, str], dict[str, str]] = {}

    def of_row(row: Row) -> None:
        printed = row.text("printed")
        key = row.read("printed", key_of, "")
        spec = read_row_spec(row)
        if (key, spec.kind) in read:
            row.fault("printed", f"{printed!r} of the kind {spec.kind} is on a line before")
        entry = {"printed": printed, "spec": spec.text, "note": row.verbatim("note")}
        read[key, spec.kind] = {"key": key, "kind": spec.kind, **entry}

    count = work.take(rows, of_row)
    if work.faults or not read:
        return count
    known = work.session.execute(select(PrintedName.id, PrintedName.key, PrintedName.kind))
    replaced = [row.id for row in known if (row.key, row.kind) in read]
    for start in range(0, len(replaced), AT_ONCE):
        some = replaced[start : start + AT_ONCE]
        work.session.execute(delete(PrintedName).where(PrintedName.id.in_(some)))
    work.session.execute(insert(PrintedName), list(read.values()))
    return count
