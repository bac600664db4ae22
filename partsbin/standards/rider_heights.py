"""Which riders a frame suits, by its size: published tables, which differ from each other.

Sizes are along the seat tube. Letters such as M mean other lengths in other tables, so none is
given here. Makers measure their frames differently; a rider tries the bike before buying.
"""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from partsbin.standards.length import Length, mm

INCH_UM = 25_400
CENTIMETRE_UM = 10_000


class Row(NamedTuple):
    """The riders of a range of sizes; 0 where a table gives no limit or no inside leg."""

    size_from: int
    size_to: int
    height_from: int
    height_to: int
    leg_from: int
    leg_to: int


class Table(NamedTuple):
    """A table for some styles of bike: sizes in `unit`, heights and legs in centimetres."""

    styles: tuple[str, ...]
    unit: str
    rows: tuple[Row, ...]
    source: str


CHART = "thesize.net/bicycles"
RIDE = "bikeride.com/bike-size-chart, men's column, feet and inches turned into centimetres"

ROAD = Table(
    ("road", "touring"),
    "cm",
    (
        Row(47, 48, 147, 152, 63, 68),
        Row(49, 50, 152, 160, 68, 73),
        Row(51, 53, 160, 168, 73, 78),
        Row(54, 55, 168, 175, 76, 81),
        Row(56, 58, 175, 183, 78, 84),
        Row(58, 60, 183, 191, 84, 89),
        Row(61, 63, 191, 198, 89, 94),
    ),
    CHART,
)
MOUNTAIN = Table(
    ("mtb",),
    "in",
    (
        Row(13, 14, 147, 157, 63, 68),
        Row(15, 16, 157, 168, 68, 74),
        Row(17, 18, 168, 178, 74, 79),
        Row(19, 20, 178, 185, 79, 84),
        Row(21, 22, 185, 193, 84, 89),
        Row(23, 24, 193, 0, 89, 0),
    ),
    CHART,
)
HYBRID = Table(
    ("hybrid", "city"),
    "in",
    (
        Row(13, 14, 147, 157, 0, 0),
        Row(14, 16, 157, 168, 0, 0),
        Row(16, 18, 168, 178, 0, 0),
        Row(18, 20, 178, 185, 0, 0),
        Row(20, 22, 185, 193, 0, 0),
        Row(22, 24, 193, 198, 0, 0),
    ),
    RIDE,
)
TABLES = (ROAD, MOUNTAIN, HYBRID)

STANDOVER = mm("25")
"""The least room between the top tube and the rider who stands over it, one inch for new bikes:
16 CFR 1512.19 as copied at self-law.org."""


class Riders(NamedTuple):
    """Which riders a size suits, in centimetres, and whose table says so; 0 is no limit."""

    height_from: int
    height_to: int
    leg_from: int
    leg_to: int
    source: str


def riders(style: str, seat_tube: Length) -> Riders | None:
    """Return whom a frame of that style and seat tube suits, None where no table reaches.

    A size at which two rows meet suits the riders of both; one in the gap between two rows belongs
    to the row that it is rounded to, since the tables count in whole units.

    >>> riders("road", mm(560))[:4], riders("mtb", mm(450))[:2]
    ((175, 183, 78, 84), (168, 178))
    >>> riders("kids", mm(300)) is None
    True
    """
    for table in TABLES:
        if style in table.styles:
            exact = Decimal(seat_tube) / (INCH_UM if table.unit == "in" else CENTIMETRE_UM)
            found = _holding(table, exact) or _holding(table, exact.to_integral_value())
            return _together(found, table.source) if found else None
    return None


def _holding(table: Table, size: Decimal) -> list[Row]:
    return [row for row in table.rows if row.size_from <= size <= row.size_to]


def _together(rows: list[Row], source: str) -> Riders:
    first, last = rows[0], rows[-1]
    return Riders(first.height_from, last.height_to, first.leg_from, last.leg_to, source)
