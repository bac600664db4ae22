"""Label stocks: sheets and rolls, named by their dimensions only.

A stock is a TOML file, the package's own in `labels/stocks`, the user's wherever the caller says.
A sheet gives `page`, `columns`, `rows`, `label`, `first` (left and top of the first label) and
`pitch`; a roll gives the size of its one label as `page`. Both give `media`, a `note` saying where
the figures are from, and may give `unit` (mm or in) and `unprinted` (left and right, top and
bottom of each label). Label 1 is at the top left, label 2 right of it.

>>> load("a4-3x8-70x37").count
24
"""

import difflib
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import NamedTuple

BUNDLED = Path(__file__).with_name("stocks")
UM_PER = {"mm": Decimal(1_000), "in": Decimal(25_400)}
MEDIA = ("sheet", "roll")
PAIRS = ("page", "label", "first", "pitch", "unprinted")
COUNTS = ("columns", "rows")
SHEET_KEYS = ("page", "columns", "rows", "label", "first", "pitch")
ROLL_KEYS = ("page",)
TEXTS = ("note", "media", "unit")

SMALLEST_UM = 5_000
LARGEST_UM = 2_000_000


class Fault(NamedTuple):
    """What is wrong in a stock file, and on which line (1 for what is missing)."""

    line: int
    sentence: str


class StockError(ValueError):
    """A stock that cannot be used, or that nobody knows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelStock:
    """A sheet or roll of labels; all lengths in micrometres, from the page's top left corner."""

    name: str
    note: str
    roll: bool
    page_width_um: int
    page_height_um: int
    columns: int
    rows: int
    label_width_um: int
    label_height_um: int
    left_um: int
    top_um: int
    pitch_x_um: int
    pitch_y_um: int
    unprinted_x_um: int = 0
    unprinted_y_um: int = 0

    @property
    def count(self) -> int:
        """Labels on a page."""
        return self.columns * self.rows

    def corner(self, position: int) -> tuple[int, int]:
        """Return how far right and down the label at `position` starts; the first is 1."""
        row, column = divmod(position - 1, self.columns)
        return self.left_um + column * self.pitch_x_um, self.top_um + row * self.pitch_y_um

    def rims(self, edge_um: int) -> tuple[int, int]:
        """Return the rim left and right, and top and bottom, that stays white on every label.

        `edge_um` is what the printer cannot reach at the edges of a sheet; rolls have their own.
        """
        if self.roll:
            return self.unprinted_x_um, self.unprinted_y_um
        right = self.page_width_um - self.left_um - (self.columns - 1) * self.pitch_x_um
        below = self.page_height_um - self.top_um - (self.rows - 1) * self.pitch_y_um
        nearest_x = min(self.left_um, right - self.label_width_um)
        nearest_y = min(self.top_um, below - self.label_height_um)
        return (
            max(self.unprinted_x_um, edge_um - nearest_x),
            max(self.unprinted_y_um, edge_um - nearest_y),
        )


def names(folder: Path | None = None) -> tuple[str, ...]:
    """Return the names of all stocks, sorted: the package's and those in the user's `folder`."""
    found = {path.stem for path in BUNDLED.glob("*.toml")}
    if folder is not None:
        found |= {path.stem for path in folder.glob("*.toml")}
    return tuple(sorted(found))


@cache
def bundled() -> tuple[LabelStock, ...]:
    """Return the package's own stocks, by name."""
    return tuple(load(name) for name in names())


def load(name_or_path: str | Path, folder: Path | None = None) -> LabelStock:
    """Return the stock of that name, or in that file; the user's `folder` goes before our own.

    Raises StockError, with the nearest names or with every fault and its line.
    """
    path = _find(name_or_path, folder)
    faults = check(path)
    if faults:
        listed = " ".join(f"line {fault.line}: {fault.sentence}" for fault in faults)
        raise StockError(f"{path} describes no label stock: {listed}")
    return _built(path.stem, _measures(tomllib.loads(path.read_text(), parse_float=Decimal)))


def check(path: Path) -> tuple[Fault, ...]:
    """Return every fault of a stock file with its line; nothing if the stock can be used."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as unreadable:
        return (Fault(1, f"The file cannot be read as text ({unreadable}): check its name."),)
    try:
        fields = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as broken:
        message = str(broken)
        at = re.search(r"line (\d+)", message)
        line = int(at[1]) if at else text.count("\n") + 1
        return (Fault(line, f"This is no TOML ({message}): write one `key = value` a line."),)
    lines = {
        match[1]: number
        for number, row in enumerate(text.splitlines(), 1)
        if (match := re.match(r"\s*([\w-]+)\s*=", row))
    }
    faults = [*_missing(fields), *_wrong_fields(fields)]
    faults = faults or _misplaced(_measures(fields))
    return tuple(sorted(Fault(lines.get(key, 1), sentence) for key, sentence in faults))


def _find(name_or_path: str | Path, folder: Path | None) -> Path:
    """Return the file of a stock; raises StockError with the nearest names."""
    path = Path(name_or_path)
    if path.suffix == ".toml":
        return path
    for place in (folder, BUNDLED):
        if place is not None and (place / f"{path.name}.toml").is_file():
            return place / f"{path.name}.toml"
    near = difflib.get_close_matches(str(name_or_path), names(folder), n=3, cutoff=0.4)
    hint = f"did you mean {' or '.join(near)}?" if near else "name one that `names` lists."
    raise StockError(f"There is no label stock {str(name_or_path)!r}: {hint}")


def _keys(fields: Mapping[str, object]) -> tuple[str, ...]:
    """Return the keys that the stock's media needs."""
    return ("media", "note", *(ROLL_KEYS if fields.get("media") == "roll" else SHEET_KEYS))


def _missing(fields: Mapping[str, object]) -> list[tuple[str, str]]:
    """Return a fault for each key that is missing."""
    return [
        (key, f"`{key}` is missing: add it.") for key in _keys(fields) if fields.get(key) is None
    ]


def _wrong_fields(fields: Mapping[str, object]) -> list[tuple[str, str]]:
    """Return a fault for each key that is unknown or holds the wrong sort of value."""
    known = {*_keys(fields), "unit", "unprinted"}
    faults = []
    for key, value in fields.items():
        if key not in known:
            near = difflib.get_close_matches(key, sorted(known), n=1)
            hint = f"did you mean `{near[0]}`?" if near else "leave it out."
            faults.append((key, f"`{key}` says nothing about a {fields.get('media')}: {hint}"))
        elif key in PAIRS and not _is_pair(value):
            faults.append((key, f"`{key}` is two lengths, such as [70, 37]."))
        elif key in COUNTS and not (type(value) is int and 1 <= value <= 200):
            faults.append((key, f"`{key}` is a whole number from 1 to 200."))
        elif key in TEXTS and not isinstance(value, str):
            faults.append((key, f'`{key}` is a text in "quotes".'))
        elif key == "media" and value not in MEDIA:
            faults.append((key, '`media` is "sheet" or "roll".'))
        elif key == "unit" and value not in UM_PER:
            faults.append((key, '`unit` is "mm" or "in".'))
    return faults


def _is_pair(value: object) -> bool:
    """Return whether the value is two finite lengths that are not negative."""
    return (
        isinstance(value, list)
        and len(value) == 2
        and all(
            type(length) in (int, Decimal) and Decimal(length).is_finite() and length >= 0
            for length in value
        )
    )


class _Measures(NamedTuple):
    """The fields of a file in micrometres."""

    note: str
    roll: bool
    columns: int
    rows: int
    page: tuple[int, int]
    label: tuple[int, int]
    first: tuple[int, int]
    pitch: tuple[int, int]
    unprinted: tuple[int, int]


def _measures(fields: Mapping[str, object]) -> _Measures:
    """Return the fields, which have been looked through, in micrometres."""
    unit = UM_PER[str(fields.get("unit", "mm"))]

    def pair(key: str) -> tuple[int, int]:
        lengths = fields.get(key, [0, 0])
        assert isinstance(lengths, list)
        return round(lengths[0] * unit), round(lengths[1] * unit)

    roll = fields["media"] == "roll"
    whole = "page" if roll else "label"
    columns, rows = (1, 1) if roll else (fields["columns"], fields["rows"])
    assert isinstance(columns, int)
    assert isinstance(rows, int)
    return _Measures(
        note=str(fields["note"]),
        roll=roll,
        columns=columns,
        rows=rows,
        page=pair("page"),
        label=pair(whole),
        first=pair("first"),
        pitch=pair(whole if roll else "pitch"),
        unprinted=pair("unprinted"),
    )


def _misplaced(stock: _Measures) -> list[tuple[str, str]]:
    """Return a fault for each measure that does not go with the others."""
    faults = []
    for key, lengths in (("page", stock.page), ("label", stock.label)):
        if not all(SMALLEST_UM <= length <= LARGEST_UM for length in lengths):
            faults.append((key, f"`{key}` is from 5 to 2000 mm wide and high."))
    for axis, (across, many) in enumerate((("width", stock.columns), ("height", stock.rows))):
        if many > 1 and stock.pitch[axis] < stock.label[axis]:
            faults.append(("pitch", f"`pitch` is less than the label's {across}: they overlap."))
        end = stock.first[axis] + (many - 1) * stock.pitch[axis] + stock.label[axis]
        if end > stock.page[axis]:
            sentence = (
                f"{many} labels end {(end - stock.page[axis]) / 1000:g} mm past the page's "
                f"{across}: check `page`, `first`, `pitch` and `label`."
            )
            faults.append((COUNTS[axis], sentence))
        if 2 * stock.unprinted[axis] >= stock.label[axis]:
            faults.append(("unprinted", f"`unprinted` leaves nothing of the label's {across}."))
    return faults


def _built(name: str, stock: _Measures) -> LabelStock:
    """Return the stock of these measures."""
    return LabelStock(
        name=name,
        note=stock.note,
        roll=stock.roll,
        page_width_um=stock.page[0],
        page_height_um=stock.page[1],
        columns=stock.columns,
        rows=stock.rows,
        label_width_um=stock.label[0],
        label_height_um=stock.label[1],
        left_um=stock.first[0],
        top_um=stock.first[1],
        pitch_x_um=stock.pitch[0],
        pitch_y_um=stock.pitch[1],
        unprinted_x_um=stock.unprinted[0],
        unprinted_y_um=stock.unprinted[1],
    )
