"""CSV files of the record: read whole, every fault told with its line and column, or nothing."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator, Mapping, Sequence
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
        self.faults.append(Fault(self.file, self.line, column, reason))


def read_rows(path: Path, columns: Sequence[str], needed: Sequence[str]) -> Iterator[Row]:
    """Yield the rows of a CSV file with a head line; `needed` are columns that may not be empty.

    Raises `FaultsError` if the file is no text, lacks a column or has an unknown one.
    """
    name = path.name
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as fault:
        raise FaultsError([Fault(name, 1, "", f"this is no UTF-8 text ({fault})")]) from None
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        head = [cell.strip().lower() for cell in next(reader, [])]
        _check_head(name, head, columns, needed)
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield _row(name, reader.line_num, head, cells, needed)
    except csv.Error as fault:
        raise FaultsError([Fault(name, reader.line_num, "", f"no CSV: {fault}")]) from None


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
