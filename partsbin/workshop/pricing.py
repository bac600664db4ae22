"""The price list of generic new parts and adapters: taken in from a CSV file, all or nothing.

The file is the list: what is not in it is not in the list any more. An adapter that is no kind of
the vocabulary has no kind there, but the words by which the rules name it under `adapter`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import delete, insert

from partsbin.kinds.spec import Spec, kind_named
from partsbin.stock.money import Money, read_money
from partsbin.stock.price_tables import Price
from partsbin.stock.specs import record_specs
from partsbin.workshop.assignments import read_spec, split
from partsbin.workshop.csv_files import Fault, FaultsError, Row, read_rows
from partsbin.workshop.reordering import read_lead_days

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.workshop.incoming import Incoming

COLUMNS = ("kind", "adapter", "attributes", "price", "lead days", "note")
NEEDED = ("price",)


@dataclass(frozen=True, slots=True)
class Priced:
    """A line of a price list."""

    spec: Spec | None
    named: str
    price: Money
    lead_days: int | None
    note: str


def import_prices(session: Session, path: Path) -> list[Priced]:
    """Put a file in the place of the price list and return its lines.

    Raises `FaultsError` with every fault by line; the act must then be rolled back.
    """
    lines = read_prices(path)
    put_prices(session, lines)
    return lines


def take_prices(work: Incoming, rows: Sequence[Row]) -> int:
    """Put the rows of an import in the place of the price list; faults are noted in the import."""
    lines = _lines(rows, work.faults)
    if not work.faults:
        put_prices(work.session, lines)
    work.advance(len(rows))
    return len(rows)


def put_prices(session: Session, lines: Sequence[Priced]) -> None:
    """Put lines in the place of the price list."""
    session.execute(delete(Price))
    specs = [line.spec for line in lines if line.spec is not None]
    ids = iter(record_specs(session, specs))
    rows = [
        {
            "spec_id": None if line.spec is None else next(ids),
            "named": line.named,
            "price": line.price,
            "lead_days": line.lead_days,
            "note": line.note,
        }
        for line in lines
    ]
    if rows:
        session.execute(insert(Price), rows)


def read_prices(path: Path) -> list[Priced]:
    """Return the lines of a price list. Raises `FaultsError` with every fault by line."""
    faults: list[Fault] = []
    lines = _lines(read_rows(path, COLUMNS, NEEDED), faults)
    if faults:
        raise FaultsError(faults)
    return lines


def _lines(rows: Iterable[Row], faults: list[Fault]) -> list[Priced]:
    """Return what rows say; what is wrong with them is added to the faults."""
    lines: list[Priced] = []
    first: dict[object, int] = {}
    for row in rows:
        line = _line(row)
        key = line.spec or line.named
        if not row.faults and key in first:
            row.fault("kind", f"the same part has a price in line {first[key]}")
        first.setdefault(key, row.line)
        faults += row.faults
        lines.append(line)
    return lines


def _line(row: Row) -> Priced:
    kind, named = row.text("kind"), " ".join(row.text("adapter").split())
    if bool(kind) == bool(named):
        row.fault("kind", "give a kind, or under adapter the words that name it, and not both")
    spec = None
    if kind:
        word = row.read("kind", lambda text: kind_named(text).word, "")
        if word:
            spec = row.read("attributes", lambda text: read_spec(word, split(text)), Spec(word))
    return Priced(
        spec=spec,
        named=named,
        price=row.read("price", read_money, Money(0)),
        lead_days=row.read("lead days", read_lead_days, None),
        note=row.text("note"),
    )
