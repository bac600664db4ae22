"""Riders and sizes against the published tables."""

from __future__ import annotations

from itertools import pairwise

import pytest

from partsbin.standards.length import mm
from partsbin.standards.rider_heights import TABLES, Table, riders

SUITS = [
    # thesize.net/bicycles, road: centimetres of seat tube, rider and inside leg.
    ("road", "475", (147, 152, 63, 68)),
    ("road", "520", (160, 168, 73, 78)),
    ("road", "545", (168, 175, 76, 81)),
    ("road", "570", (175, 183, 78, 84)),
    ("touring", "620", (191, 198, 89, 94)),
    # Where two rows meet, both.
    ("road", "580", (175, 191, 78, 89)),
    # In the gap between 50 and 51, and between 53 and 54: the nearer row.
    ("road", "507", (160, 168, 73, 78)),
    ("road", "536", (168, 175, 76, 81)),
    # thesize.net/bicycles, mountain: inches.
    ("mtb", "355.6", (147, 157, 63, 68)),
    ("mtb", "444.5", (168, 178, 74, 79)),
    ("mtb", "482.6", (178, 185, 79, 84)),
    ("mtb", "600", (193, 0, 89, 0)),
    # bikeride.com/bike-size-chart, hybrid: 16-18 in for 5 ft 6 to 5 ft 10, 20-22 to 6 ft 4.
    ("hybrid", "430", (168, 178, 0, 0)),
    ("city", "520", (185, 193, 0, 0)),
    ("hybrid", "457.2", (168, 185, 0, 0)),
]


@pytest.mark.parametrize(("style", "size", "suits"), SUITS)
def test_riders_of_a_size(style: str, size: str, suits: tuple[int, ...]) -> None:
    """A size suits the riders of its row."""
    found = riders(style, mm(size))
    assert found is not None
    assert found[:4] == suits


@pytest.mark.parametrize(
    ("style", "size"), [("road", "400"), ("mtb", "800"), ("kids", "300"), ("", "540")]
)
def test_no_table_no_claim(style: str, size: str) -> None:
    """Nothing is said of a size or a style that no table holds: children's by the wheel."""
    assert riders(style, mm(size)) is None


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.styles[0])
def test_rows_rise(table: Table) -> None:
    """Each row is for a larger frame and for taller riders than the one before."""
    for smaller, larger in pairwise(table.rows):
        assert smaller.size_to <= larger.size_from
        assert smaller.height_to == larger.height_from


@pytest.mark.parametrize(
    ("feet", "inches", "centimetres"),
    [(4, 10, 147), (5, 2, 157), (5, 6, 168), (5, 10, 178), (6, 1, 185), (6, 4, 193), (6, 6, 198)],
)
def test_feet_are_turned_into_centimetres(feet: int, inches: int, centimetres: int) -> None:
    """The heights of the hybrid table are its feet and inches at 2.54 cm."""
    hybrid = next(table for table in TABLES if "hybrid" in table.styles)
    heights = {row.height_from for row in hybrid.rows} | {row.height_to for row in hybrid.rows}
    assert round((feet * 12 + inches) * 2.54) == centimetres
    assert centimetres in heights
