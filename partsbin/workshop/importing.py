"""Takes in a workshop from CSV files: all of it, or nothing and every fault by line.

A folder may hold a file of each of the `TABLES`; their columns are stated there. Attributes stand
in one cell, as in `speeds=8; side=rear`. A file with a column `number` keeps the label numbers that
it states, so that labels which are printed already mean the same in the new record.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from labels.number import Thing
from partsbin.errors import NotFoundError, UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.workshop import pricing, sale_files
from partsbin.workshop.csv_files import FaultsError, Row, read_rows
from partsbin.workshop.incoming import Incoming
from partsbin.workshop.level_files import LEVELS, take_levels
from partsbin.workshop.level_files import NEEDED as LEVELS_NEEDED
from partsbin.workshop.name_files import NAMES, NEEDED, take_names
from partsbin.workshop.sale_files import SALES

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.workshop.mapping import Mapped

BINS = ("number", "name", "note", "location")
OF_PART = ("grade", "condition", "quantity", "cost", "value", "origin", "attributes", "note")
PARTS = ("number", "kind", "bin", *OF_PART)
BIKES = (
    *("number", "name", "style", "state", "price", "parts cost", "bought"),
    *("seller note", "serial number", "serial checked", "note"),
)
MOUNTED = ("number", "bike", "slot", "kind", *OF_PART, "from stock", "gone")
ACCOUNT = ("bike", "type", "day", "amount", "minutes", "rate", "note")
LAST_NUMBERS = ("last",)


@dataclass(frozen=True, slots=True)
class Imported:
    """How much was taken in."""

    bins: int = 0
    parts: int = 0
    bikes: int = 0
    mounted: int = 0
    account: int = 0
    names: int = 0
    prices: int = 0
    sales: int = 0
    levels: int = 0
    numbers: int = 0
    to_inspect: int = 0
    """Used parts in bins whose kind needs an inspection, which a file cannot tell of."""


@dataclass(frozen=True, slots=True)
class Table:
    """What a CSV file may hold, and how it is taken in."""

    columns: Sequence[str]
    needed: Sequence[str]
    """Columns that may not be empty."""
    take: Callable[[Incoming, list[Row]], int]
    after_parts: bool = False
    """Whether its rows name parts that come in with the other files."""


def _bins(work: Incoming, rows: list[Row]) -> int:
    work.keep_numbers(rows, Thing.BIN)
    return work.take(rows, work.bin)


def _bikes(work: Incoming, rows: list[Row]) -> int:
    work.keep_numbers(rows, Thing.BIKE)
    return work.take(rows, work.bike)


def _parts(work: Incoming, rows: list[Row]) -> int:
    work.keep_numbers(rows, Thing.PART, Thing.LOT)
    return work.take(rows, work.part)


def _mounted(work: Incoming, rows: list[Row]) -> int:
    work.keep_numbers(rows, Thing.PART, Thing.LOT)
    return work.take(rows, work.mounted)


TABLES: Mapping[str, Table] = {
    "numbers": Table(LAST_NUMBERS, LAST_NUMBERS, lambda w, rows: w.take(rows, w.last_number)),
    "bins": Table(BINS, ("name",), _bins),
    "parts": Table(PARTS, ("kind", "bin"), _parts),
    "bikes": Table(BIKES, ("name",), _bikes),
    "mounted": Table(MOUNTED, ("bike", "slot", "kind"), _mounted),
    "account": Table(
        ACCOUNT, ("bike", "type", "day", "amount"), lambda w, rows: w.take(rows, w.entry)
    ),
    "names": Table(NAMES, NEEDED, take_names),
    "prices": Table(pricing.COLUMNS, pricing.NEEDED, pricing.take_prices),
    "sales": Table(SALES, sale_files.NEEDED, sale_files.take_sales, after_parts=True),
    "levels": Table(LEVELS, LEVELS_NEEDED, take_levels, after_parts=True),
}
"""Each file's table by the file's name, in the order in which they are taken in."""


def import_folder(session: Session, folder: Path) -> Imported:
    """Take in the CSV files of a folder and return how much it was.

    Raises `FaultsError` with every fault of every file; the act must then be rolled back.
    """
    return import_files(session, [folder])


def import_files(
    session: Session,
    paths: Sequence[Path],
    mapped: Mapped | None = None,
    advance: Callable[[int], None] = lambda _: None,
) -> Imported:
    """Take in CSV files, or those of folders, and return how much it was.

    With `mapped` the files are spreadsheets of parts. `advance` is told how many rows were dealt
    with; each row of parts counts twice. Raises `FaultsError` with every fault of every file, and
    `UsageError` for a file whose name says nothing; the act must then be rolled back.
    """
    work = Incoming(session, advance, make_bins=mapped is not None and mapped.make_bins)
    counts = dict.fromkeys(TABLES, 0)
    found = [("parts", path) for path in paths] if mapped else tables_of(paths)
    placed = False
    for name, path in found:
        table = TABLES[name]
        if table.after_parts and not placed:
            work.finish()
            placed = True
        lines = mapped.rows(path) if mapped else read_rows(path, table.columns, table.needed)
        counts[name] += table.take(work, _all(lines, work))
    if not placed:
        work.finish()
    if work.faults:
        raise FaultsError(work.faults)
    return Imported(**counts, to_inspect=work.to_inspect)


def _all(lines: Iterable[Row], work: Incoming) -> list[Row]:
    """Return the rows of a file; one that cannot be read to its end leaves its fault."""
    rows = []
    try:
        for row in lines:
            rows.append(row)  # noqa: PERF402 - keeps those before the fault
    except FaultsError as faults:
        work.faults += faults.faults
    return rows


def tables_of(paths: Sequence[Path]) -> list[tuple[str, Path]]:
    """Return the table and the path of each file, in the order in which they are taken in.

    Raises `NotFoundError` for a path that is not there or a folder with none of the files, and
    `UsageError` for a file that is called something else.
    """
    found = [pair for path in paths for pair in _in_path(path)]
    order = list(TABLES)
    return sorted(found, key=lambda pair: order.index(pair[0]))


def _in_path(path: Path) -> Iterator[tuple[str, Path]]:
    names = ", ".join(f"{name}.csv" for name in TABLES)
    if path.is_dir():
        held = [(name, path / f"{name}.csv") for name in TABLES]
        present = [(name, file) for name, file in held if file.is_file()]
        if not present:
            raise NotFoundError(f"{path} has none of the files {names}")
        yield from present
    elif not path.exists():
        raise NotFoundError(f"there is no file or folder {path}")
    elif path.stem.lower() in TABLES:
        yield path.stem.lower(), path
    else:
        raise UsageError(
            f"{path.name} does not say what it holds: call it one of {names}"
            f"{nearest(path.stem, list(TABLES))}; or say with --mapping what its columns mean"
        )
