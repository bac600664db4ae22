"""Bolt circles of chainrings: arms, and the smallest ring that clears the bolts."""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm

CRIB = "sheldonbrown.com/cribsheet-bcd.html"
NUMBERS = "sheldonbrown.com/numbers.html"
HELP = "modernbike.com/help-117"


class BoltCircle(NamedTuple):
    """A bolt circle: arms, smallest ring (0 where none is published), distance of neighbours."""

    diameter: Length
    arms: int
    smallest: int
    adjacent: Length
    source: str


def _row(diameter: str, arms: int, smallest: int, adjacent: str, source: str) -> BoltCircle:
    return BoltCircle(mm(diameter), arms, smallest, mm(adjacent), source)


BOLT_CIRCLES = {
    (row.diameter, row.arms): row
    for row in (
        _row("151", 5, 44, "88.8", CRIB),
        _row("144", 5, 41, "84.6", CRIB),
        _row("135", 5, 39, "79.4", CRIB),
        _row("130", 5, 38, "76.4", CRIB),
        _row("128", 5, 38, "75.2", CRIB),
        _row("122", 5, 38, "71.7", CRIB),
        _row("118", 5, 36, "69.4", CRIB),
        _row("116", 5, 35, "68.2", NUMBERS),
        _row("110", 5, 34, "64.7", NUMBERS),
        _row("94", 5, 29, "55.4", NUMBERS),
        _row("92", 5, 0, "54.1", f"{HELP}; distance derived"),
        _row("86", 5, 28, "50.5", NUMBERS),
        _row("86", 3, 0, "74.5", HELP),
        _row("74", 5, 24, "43.5", NUMBERS),
        _row("58", 5, 20, "34.1", f"{NUMBERS}; distance derived"),
        _row("56", 5, 20, "32.9", NUMBERS),
        _row("146", 4, 0, "103.3", HELP),
        _row("102", 4, 0, "72.1", HELP),
        _row("120", 4, 0, "84.9", HELP),
        _row("80", 4, 0, "56.6", HELP),
        _row("112", 4, 34, "79.2", NUMBERS),
        _row("68", 4, 22, "48.1", NUMBERS),
        _row("104", 4, 32, "73.6", NUMBERS),
        _row("64", 4, 22, "45.3", NUMBERS),
        _row("88", 4, 0, "62.2", HELP),
    )
}

UNEVEN = frozenset({mm("110"), mm("96")})
"""Circles that also exist with uneven patterns of holes. Source: modernbike.com/help-117"""

INNER_OF = {
    mm("110"): mm("74"),
    mm("130"): mm("74"),
    mm("135"): mm("74"),
    mm("144"): mm("74"),
    mm("94"): mm("58"),
    mm("112"): mm("68"),
    mm("104"): mm("64"),
    mm("146"): mm("102"),
    mm("120"): mm("80"),
}
"""Inner circle of a triple by its outer one: 112/68, 104/64, 146/102 and 120/80 as listed by
modernbike.com/help-117; the five-arm pairs from memory."""


def arms_of(diameter: Length) -> int | None:
    """Return how many arms a circle has, None where there are several or it is not listed.

    >>> arms_of(mm("104")), arms_of(mm("86"))
    (4, None)
    """
    found = {arms for listed, arms in BOLT_CIRCLES if listed == diameter}
    return found.pop() if len(found) == 1 and diameter not in UNEVEN else None


def smallest_ring(diameter: Length, arms: int | None) -> BoltCircle | None:
    """Return the row of a circle that names its smallest ring, None if none is published.

    Where the arms are not known it is that of the pattern with the smaller rings.

    >>> smallest_ring(mm("130"), None).smallest
    38
    """
    rows = [
        row
        for (listed, of_row), row in BOLT_CIRCLES.items()
        if listed == diameter and arms in {None, of_row}
    ]
    if not rows or not all(row.smallest for row in rows):
        return None
    return min(rows, key=lambda row: row.smallest)
