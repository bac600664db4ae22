"""CSV files of the record: read whole, every fault told with its line and column, or nothing."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from partsbin.errors import PartsbinError, UsageError
from partsbin.kinds.forms.form import nearest

T = TypeVar("T")
MOST_TOLD = 50
"""How many faults are told; more are only counted."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong in a file."""

    file: str
    line: int
    column: str
    reason: str

    def __str__(self) -> str:
        """Return the fault with its place in front."""
        column = f", {self.column}" if self.column else ""
        return f"{self.file} line {self.line}{column}: {self.reason}"


class FaultsError(UsageError):
    """A file that was not taken, with all that is wrong in it."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        told = [str(fault) for fault in faults[:MOST_TOLD]]
        if len(faults) > MOST_TOLD:
            told.append(f"and {len(faults) - MOST_TOLD} more faults")
        super().__init__("\n".join([*told, "nothing was taken in"]))


@dataclass(slots=True)
class Row:
    """One row of a file; what a cell should be is read through it, and faults are collected."""

    file: str
    line: int
    cells: Mapping[str, str]
    faults: list[Fault] = field(default_factory=list)
    heads: Mapping[str, str] = field(default_factory=dict)
    """What a column is called in the file, where that is another name."""

    def has(self, column: str) -> bool:
        """Return whether the file has a column."""
        return column in self.cells

    def verbatim(self, column: str) -> str:
        """Return a cell exactly as it stands, for notes; one of spaces only is empty."""
        text = self.cells.get(column, "")
        return text if text.strip() else ""

    def text(self, column: str) -> str:
        """Return a cell's text, empty if the file lacks the column."""
        return self.cells.get(column, "").strip()

    def read(self, column: str, reader: Callable[[str], T], default: T) -> T:
        """Return what a reader makes of a cell, the default if it is empty or faulty."""
        text = self.text(column)
        if not text:
            return default
        try:
            return reader(text)
        except (ValueError, PartsbinError) as fault:
            self.fault(column, str(fault))
            return default

    def word(self, column: str, words: Sequence[str], default: str) -> str:
        """Return a cell that must be one of some words."""
        text = self.text(column).lower()
        if not text:
            return default
        if text not in words:
            allowed = ", ".join(words)
            self.fault(column, f"{text!r} is not one of {allowed}{nearest(text, list(words))}")
            return default
        return text

    def fault(self, column: str, reason: str) -> None:
        """Note that something is wrong in a column of this row."""
        self.faults.append(Fault(self.file, self.line, self.heads.get(column, column), reason))


def read_rows(path: Path, columns: Sequence[str], needed: Sequence[str]) -> Iterator[Row]:
    """Yield the rows of a CSV file with a head line; `needed` are columns that may not be empty.

    Raises `FaultsError` if the file is no text, lacks a column or has an unknown one.
    """
    lines = read_cells(path)
    _, head = next(lines, (1, []))
    head = [cell.strip().lower() for cell in head]
    _check_head(path.name, head, columns, needed)
    for line, cells in lines:
        yield _row(path.name, line, head, cells, needed)


def read_cells(path: Path) -> Iterator[tuple[int, list[str]]]:
    """Yield the number and the cells of each line that is not empty, the head line too.

    The cells are parted by commas, or by the semicolons or tabs of the head line if it has no
    comma, as spreadsheets of some countries write them. Raises `FaultsError` if it is no text.
    """
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            text = file.read()
    except UnicodeDecodeError as fault:
        told = f"this is no UTF-8 text ({fault}); save it as CSV with UTF-8"
        raise FaultsError([Fault(path.name, 1, "", told)]) from None
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        raise FaultsError([Fault(path.name, line, "", "a zero byte is no text; take it out")])
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield reader.line_num, cells
    except csv.Error as fault:
        raise FaultsError([Fault(path.name, reader.line_num, "", f"no CSV: {fault}")]) from None


def _delimiter(text: str) -> str:
    head = text.partition("\n")[0]
    return "," if "," in head else ";" if ";" in head else "\t" if "\t" in head else ","


def write_rows(path: Path, columns: Sequence[str], rows: Iterable[Sequence[str]]) -> int:
    """Write a CSV file that `read_rows` reads, and return how many rows it has.

    The file is there whole or, after an error, as it was before.
    """
    unfinished = path.with_name(path.name + ".unfinished")
    count = 0
    try:
        with unfinished.open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file)
            writer.writerow(columns)
            for row in rows:
                writer.writerow(row)
                count += 1
        unfinished.replace(path)
    finally:
        unfinished.unlink(missing_ok=True)
    return count


def _check_head(name: str, head: list[str], columns: Sequence[str], needed: Sequence[str]) -> None:
    faults = [
        Fault(name, 1, column, "this column is missing") for column in needed if column not in head
    ]
    faults += [
        Fault(name, 1, column, f"unknown column{nearest(column, list(columns))}")
        for column in head
        if column not in columns
    ]
    faults += [
        Fault(name, 1, c, "this column is there twice") for c in set(head) if head.count(c) > 1
    ]
    if faults:
        raise FaultsError(faults)


def _row(name: str, line: int, head: list[str], cells: list[str], needed: Sequence[str]) -> Row:
    row = Row(name, line, dict(zip(head, cells, strict=False)))
    if len(cells) > len(head):
        row.fault("", f"{len(cells)} cells under {len(head)} heads; quote a text that has a comma")
    for column in needed:
        if not row.text(column):
            row.fault(column, "may not be empty")
    return row
