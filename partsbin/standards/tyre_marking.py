"""What the size printed on a tyre means: its possible bead seats, and its width."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from partsbin.standards.bead_seats import MARKS, MEMORY, ROWS, SEATS, TELL, BeadSeat
from partsbin.standards.length import Length, mm

VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_PLAIN = str.maketrans(
    {"\N{FRACTION SLASH}": "/", "\N{DIVISION SLASH}": "/", ",": "."}
    | dict.fromkeys("\N{MULTIPLICATION SIGN}✕✖*X", "x")
)
_DASHES = re.compile(r"[\u2010-\u2015\u2212]")
_FRACTION = r"\d{1,2}[ -]?\d/\d{1,2}|\d/\d{1,2}"
_WIDTH = rf"(?:{_FRACTION}|\d+(?:\.\d+)?)"
_ISO = re.compile(r"(?<![\d.])(\d{2,3}(?:\.\d)?) ?[-x] ?(\d{3}|9[34])(?![\d.])")
_ISO_TURNED = re.compile(r"(?<![\d.])(\d{3}) ?[-x] ?(\d{2,3}(?:\.\d)?)(?![\d.])")
_METRIC = re.compile(
    r"(?<![\d./])([2-7][05]0) ?([a-d](?![a-wyz\d]))?(?!\d|\.\d)"
    rf"(?: ?x ?({_WIDTH})(?![\d./]) ?([a-d](?![a-z\d]))?)?",
    re.IGNORECASE,
)
_INCH = re.compile(
    rf"(?<![\d./])((?:8|12|14)[ -]1/2|\d{{1,2}}(?:\.5)?)(?:er)?\+?(?:in)?"
    rf"(?: ?x ?({_WIDTH})(?: ?x ?({_WIDTH}))?)?(?![\d./])"
)
_MARK = re.compile(r"\b([SEF])[.-]?(A?)[.-]?(\d{1,2})\b")
FRENCH = frozenset({200, 300, 350, 400, 450, 500, 550, 600, 650, 700})
"""Nominal outside diameters in millimetres, which are no bead seats."""

INCHES = {"350": "14", "400": "16", "450": "18", "500": "20", "550": "22", "600": "24"}
"""The inch size of the same wheels, from memory."""

WIDTH_ONLY = {"700": (622,)}
"""A metric name whose letter is left off: with a width it is the letter C.

Source: the rim maker's recommended_tire_size_chart.pdf and powermanmalaysia.com write 700x23 and
700x35-43 so.
"""


@dataclass(frozen=True, slots=True)
class Marking:
    """What a printed size means: its bead seats, one if it is sure, and its width if it has one."""

    seats: tuple[Length, ...]
    width: Length | None
    tell: str = ""
    inches: bool = False
    """Whether the width is of an inch size, which is only near the width in millimetres."""


def read_marking(text: str) -> Marking | None:
    """Return what a printed tyre size means, None if it is not understood.

    The three-digit number of the ISO form decides where there is one, then a letter or code, then
    the inch name, in which a decimal and a fraction mean different tyres.

    >>> [seat // 1000 for seat in read_marking("26x1 3/8").seats]
    [590, 597]
    >>> [seat // 1000 for seat in read_marking("26 x 1.75").seats]
    [559]
    >>> read_marking("28-622 (700x28C)").width
    28000
    """
    return _read(text)


@lru_cache(maxsize=4096)
def _read(text: str) -> Marking | None:
    plain = _normal(text)
    iso = _iso(plain)
    if iso is not None:
        return iso
    marked = _marked(plain)
    for found in (_metric(plain), _inch(plain)):
        if found is None:
            continue
        if marked is not None:
            return Marking((marked,), found.width, inches=found.inches)
        said = [seat for seat in found.seats if re.search(rf"\b{seat // 1000}\b", plain)]
        return Marking((said[0],), found.width, inches=found.inches) if len(said) == 1 else found
    return None


def _normal(text: str) -> str:
    """Return a marking in plain figures: `26x1 3/8` for `26 X 1⅜"`."""
    for sign, fraction in VULGAR.items():
        text = text.replace(sign, f" {fraction}")
    text = _DASHES.sub("-", text).translate(_PLAIN)
    text = re.sub(r"''|[\"″“”]|\b(?:inches|inch|in|zoll)\b\.?", " ", text, flags=re.IGNORECASE)
    return re.sub(r" ?([x/]) ?", r"\1", " ".join(text.split()))


def _iso(plain: str) -> Marking | None:
    for width, seat in _ISO.findall(plain):
        if int(seat) in SEATS and float(width) < int(seat):
            return Marking((mm(seat),), mm(width))
    for seat, width in _ISO_TURNED.findall(plain):
        if int(seat) in SEATS and int(seat) not in FRENCH and float(width) < int(seat):
            return Marking((mm(seat),), mm(width))
    return None


def _marked(plain: str) -> Length | None:
    for letter, a, number in _MARK.findall(plain):
        if f"{letter}{a}{number}" in MARKS:
            return mm(MARKS[f"{letter}{a}{number}"])
    return None


def _metric(plain: str) -> Marking | None:
    match = _METRIC.search(plain)
    if match is None or int(match[1]) not in FRENCH:
        return None
    nominal, width = match[1], match[3]
    letter = (match[2] or match[4] or "").upper()
    bare = WIDTH_ONLY.get(nominal) if width and not letter else None
    seats = bare or _named(f"{nominal}{letter}") or _named(f"{nominal}x{width}")
    if not letter and (not seats or nominal in TELL):
        seats = bare or _of_diameter(nominal)
    across = _figure(width) if width else None
    inches = across is not None and across < 5
    length = None if across is None else mm(float(across) * (25.4 if inches else 1))
    return Marking(_lengths(seats), length, TELL.get(nominal, ""), inches) if seats else None


def _inch(plain: str) -> Marking | None:
    for match in _INCH.finditer(plain):
        diameter = match[1].replace("-", " ").replace(".5", " 1/2").replace("27 1/2", "27.5")
        widths = [_spelled(width) for width in match.groups()[1:] if width]
        seats = _inch_seats(diameter, widths)
        if seats:
            name = "x".join([diameter, *widths])
            return Marking(
                _lengths(seats), _across(widths), TELL.get(name, TELL.get(diameter, "")), True
            )
    return None


def _inch_seats(diameter: str, widths: list[str]) -> tuple[int, ...]:
    """Return the bead seats of an inch size: as listed, else by its form, else all of its size."""
    name = "x".join([diameter, *widths])
    listed = _named(name) or _named(diameter)
    if listed or not widths:
        return listed or _of_diameter(diameter)
    decimals = ["/" not in width for width in widths]
    if all(decimals):
        return _named(f"{diameter}x#.#") or _of_diameter(diameter)
    if len(widths) > 1 and not any(decimals):
        return _named(f"{diameter}x/x/") or _of_diameter(diameter)
    return _of_diameter(diameter)


def _across(widths: list[str]) -> Length | None:
    """Return the width of an inch size: the last of two fractions, none of two decimals."""
    if not widths or (len(widths) > 1 and "/" not in widths[-1]):
        return None
    return Length(round(_figure(widths[-1]) * 25_400))


def _spelled(width: str) -> str:
    """Return a width as the table spells it: `1 3/8` for `1-3/8` and `13/8`, `1.5` for `1.50`."""
    if "/" in width:
        whole, over, under = re.fullmatch(r"(?:(\d{1,2}?)[ -]?)?(\d)/(\d+)", width).groups()  # type: ignore[union-attr] # _FRACTION is of this shape
        return f"{whole} {over}/{under}" if whole else f"{over}/{under}"
    if "." not in width:
        return width
    whole, _, part = width.partition(".")
    return f"{whole}.{part.rstrip('0') or '0'}"


def _figure(width: str) -> Fraction:
    whole, _, part = _spelled(width).rpartition(" ")
    return Fraction(part) + (int(whole) if whole else 0)


def _names() -> Iterator[tuple[str, BeadSeat]]:
    for row in ROWS:
        for name in filter(None, row.names.split(", ")):
            yield name, row


def _diameter(name: str) -> str:
    return name.partition("x")[0].rstrip("ABCD")


_BY_NAME: dict[str, tuple[int, ...]] = {}
_BY_DIAMETER: dict[str, tuple[int, ...]] = {}
for _name, _row in _names():
    _BY_NAME[_name] = (*_BY_NAME.get(_name, ()), _row.seat)
    _size = _diameter(_name)
    _BY_DIAMETER[_size] = tuple(sorted({*_BY_DIAMETER.get(_size, ()), _row.seat}))
# A name that is only from memory is not sure: it may mean any old size of its diameter.
for _name, _row in _names():
    if _row.source == MEMORY and len(_BY_NAME[_name]) == 1:
        _size = INCHES.get(_diameter(_name), _diameter(_name))
        _decimal = _BY_NAME.get(f"{_size}x#.#", ())
        _old = {*_BY_DIAMETER[_size]} - {*_decimal}
        _BY_NAME[_name] = tuple(sorted({*_BY_NAME[_name], *_old}))


def _named(name: str) -> tuple[int, ...]:
    return _BY_NAME.get(name, ())


def _of_diameter(diameter: str) -> tuple[int, ...]:
    return _BY_DIAMETER.get(diameter, ())


def _lengths(seats: tuple[int, ...]) -> tuple[Length, ...]:
    return tuple(mm(seat) for seat in sorted(seats))
