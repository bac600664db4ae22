"""A spreadsheet that somebody keeps, read as rows of parts by a mapping file.

The mapping is TOML: `[columns]` says what each column of the spreadsheet means, `[words.kind]`,
`[words.bin]` and `[words.grade]` what its words mean, `[defaults]` what stands for an empty or
missing column. Columns that it does not name are kept as notes.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from partsbin.errors import UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.workshop.csv_files import Fault, FaultsError, Row, read_cells

MEANINGS = (
    *("kind", "bin", "grade", "condition", "quantity", "cost", "value"),
    *("origin", "attributes", "note"),
)
TRANSLATED = ("kind", "bin", "grade")
ATTRIBUTE = "attribute "
"""What stands before the name of an attribute that a column holds."""
IGNORED = "ignore"
MONEY = ("cost", "value")
SECTIONS = ("columns", "words", "defaults", "make_bins")
EXAMPLE = """[columns]
"What" = "kind"
"Where" = "bin"
"Price" = "cost"
"Size" = "attribute diameter"

[words.kind]
"gear lever" = "shifter"

[defaults]
grade = "good\""""
"""A mapping file for the messages and the help."""


@dataclass(frozen=True, slots=True)
class Mapped:
    """What a mapping file says."""

    columns: Mapping[str, str]
    """By the column's title in small letters: what it means."""
    words: Mapping[str, Mapping[str, str]]
    defaults: Mapping[str, str]
    make_bins: bool

    def rows(self, path: Path) -> Iterator[Row]:
        """Yield the rows of a spreadsheet as rows of parts.

        Raises `FaultsError` if the file is no CSV, or lacks a column that the mapping names.
        """
        lines = read_cells(path)
        _, titles = next(lines, (1, []))
        titles = [" ".join(title.split()) for title in titles]
        self._check_titles(path.name, titles)
        for line, cells in lines:
            yield self._row(path.name, line, titles, cells)

    def _check_titles(self, file: str, titles: Sequence[str]) -> None:
        small = [title.lower() for title in titles]
        faults = [
            Fault(file, 1, column, f"this column is missing{nearest(column, small)}")
            for column in self.columns
            if column not in small
        ]
        faults += [
            Fault(file, 1, title, "this column is there twice")
            for title in dict.fromkeys(small)
            if title and small.count(title) > 1
        ]
        for need in ("kind", "bin"):
            if need not in self.columns.values() and need not in self.defaults:
                told = f"no column means the {need}: say so under [columns], or under [defaults]"
                faults.append(Fault(file, 1, need, told))
        if faults:
            raise FaultsError(faults)

    def _row(self, file: str, line: int, titles: Sequence[str], cells: Sequence[str]) -> Row:
        held: dict[str, str] = dict(self.defaults)
        heads: dict[str, str] = {}
        notes: list[str] = []
        attributes = [held["attributes"]] if "attributes" in held else []
        for title, text in zip(titles, map(str.strip, cells), strict=False):
            means = self.columns.get(title.lower(), "")
            heads.setdefault(means, title)
            if not text or means == IGNORED:
                continue
            if not means:
                notes.append(f"{title}: {text}" if title else text)
            elif means == "note":
                notes.insert(0, text)
            elif means == "attributes":
                attributes.append(text)
            elif means.startswith(ATTRIBUTE):
                attributes.append(f"{means.removeprefix(ATTRIBUTE)}={_quoted(text)}")
                heads.setdefault("attributes", title)
            else:
                held[means] = self._word(means, text)
        held["attributes"] = "; ".join(attributes)
        held["note"] = "; ".join([*([held["note"]] if "note" in held else []), *notes])
        row = Row(file, line, held, heads=heads)
        row_is_whole(row, titles, cells)
        return row

    def _word(self, means: str, text: str) -> str:
        if means in MONEY:
            return "".join(letter for letter in text if letter.isdecimal() or letter in ".,-")
        words = self.words.get(means, {})
        return words.get(" ".join(text.lower().split()), words.get("*", text))


def row_is_whole(row: Row, titles: Sequence[str], cells: Sequence[str]) -> None:
    """Note as faults that a row has too many cells, or lacks its kind or its place."""
    if len(cells) > len(titles) and any(cell.strip() for cell in cells[len(titles) :]):
        row.fault("", f"{len(cells)} cells under {len(titles)} heads")
    for need in ("kind", "bin"):
        if not row.text(need):
            row.fault(need, f"may not be empty; or give one under [defaults] as {need}")


def _quoted(text: str) -> str:
    return '"' + text.replace('"', '""') + '"' if ";" in text else text


def read_mapping(path: Path) -> Mapped:
    """Return what a mapping file says. Raises `UsageError` that says what is wrong with it."""
    try:
        held = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError) as fault:
        raise UsageError(f"{path.name} is no TOML: {fault}; the form is\n{EXAMPLE}") from None
    _check(path.name, held, SECTIONS, "section")
    columns = _texts(path.name, held.get("columns", {}), "columns")
    for title, means in columns.items():
        if means not in (*MEANINGS, IGNORED) and not means.startswith(ATTRIBUTE):
            allowed = ", ".join((*MEANINGS, f"{ATTRIBUTE}NAME", IGNORED))
            hint = nearest(means, [*MEANINGS, IGNORED])
            raise UsageError(
                f"{path.name}: {title!r} cannot mean {means!r}; it is one of {allowed}{hint}"
            )
    words = held.get("words", {})
    if not isinstance(words, dict):
        raise UsageError(f"{path.name}: words is no section; the form is\n{EXAMPLE}")
    _check(path.name, words, TRANSLATED, "section words.")
    defaults = _texts(path.name, held.get("defaults", {}), "defaults")
    _check(path.name, defaults, MEANINGS, "default")
    make_bins = held.get("make_bins", False)
    if not isinstance(make_bins, bool):
        raise UsageError(f"{path.name}: make_bins is true or false, not {make_bins!r}")
    if len({m for m in columns.values() if m in MEANINGS}) < sum(
        m in MEANINGS and m not in ("note", "attributes") for m in columns.values()
    ):
        raise UsageError(f"{path.name}: two columns mean the same; let one be {IGNORED!r}")
    translated = {name: _texts(path.name, told, f"words.{name}") for name, told in words.items()}
    return Mapped(columns, translated, defaults, make_bins)


def _check(file: str, held: Mapping[str, Any], known: Sequence[str], what: str) -> None:
    for name in held:
        if name not in known:
            allowed = ", ".join(known)
            raise UsageError(
                f"{file}: unknown {what} {name!r}; known are {allowed}{nearest(name, list(known))}"
            )


def _texts(file: str, held: object, section: str) -> dict[str, str]:
    """Return a section that maps texts to texts, its names in small letters."""
    if not isinstance(held, dict) or not all(isinstance(told, str) for told in held.values()):
        raise UsageError(f"{file}: [{section}] holds texts in quotes; the form is\n{EXAMPLE}")
    return {" ".join(name.lower().split()): told for name, told in held.items()}
