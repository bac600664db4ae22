"""Bars, quills, sleeves, posts: every row of the tables, and the arithmetic that made them."""

from __future__ import annotations

import pytest

from partsbin.standards import bar_sizes, steerer_sizes
from partsbin.standards.bar_table import BARS, MEANT_FOR_LARGER, BarRow, grip_area
from partsbin.standards.length import mm
from partsbin.standards.quill_sizes import (
    QUILL_ADAPTERS,
    QUILL_SLEEVES,
    QUILLS,
    SANDED,
    STEERER_SLEEVES,
    QuillRow,
    quill_row,
    unusual_quills,
)
from partsbin.standards.seat_insertion import least_depth
from partsbin.standards.sleeves import sleeve_wall

EIGHTH_INCH = mm(3.175)
"""A quill is so much thinner than its steerer. Source: motorbicycling.com p=105482."""


@pytest.mark.parametrize("row", BARS, ids=lambda row: f"{row.clamp}-{row.grip}-{row.material}")
def test_each_bar_row_is_found(row: BarRow) -> None:
    """Shape, clamp and material of a row lead to its grip area; sizes are listed ones."""
    assert row.clamp in bar_sizes.CLAMPS.listed
    assert row.grip in bar_sizes.GRIPS.listed
    for shape in row.shapes:
        assert grip_area(shape, row.clamp, row.material) == row


# smontanaro.net/CR/2007/3/78; velogear.com.au; lovecitycycles.com sheet
GRIP_AREAS = {
    "31.8 drop": ("drop", 31.8, "", 23.8),
    "31.8 riser": ("riser", 31.8, "", 22.2),
    "drop of steel": ("drop", 25.4, "steel", 22.2),
    "drop of aluminium": ("drop", 25.4, "aluminium", 23.8),
    "drop of either": ("drop", 25.4, "", None),
    "any straight bar": ("swept", None, "", 22.2),
    "any drop bar": ("drop", None, "", None),
    "bullhorn": ("bullhorn", 31.8, "", None),
    "shape unknown": ("", 31.8, "", None),
}


@pytest.mark.parametrize(
    ("style", "clamp", "material", "grip"), GRIP_AREAS.values(), ids=GRIP_AREAS
)
def test_grip_area(style: str, clamp: float | None, material: str, grip: float | None) -> None:
    """The grip area follows where all rows that are left agree, and else is unknown."""
    row = grip_area(style, None if clamp is None else mm(clamp), material)

    assert (None if grip is None else mm(grip)) == (row.grip if row else None)


def test_bar_meant_for_a_larger_clamp() -> None:
    """A 25.8 mm bar was meant for 26.0 mm stems too (Handlebar and Stem Dimension sheet)."""
    assert {mm(25.8): mm(26.0)} == MEANT_FOR_LARGER


@pytest.mark.parametrize("row", QUILLS, ids=lambda row: f"{row.steerer}-{row.quill}")
def test_quill_rows(row: QuillRow) -> None:
    """A quill is an eighth of an inch thinner than its steerer; exceptions are marked or French."""
    assert row.steerer in steerer_sizes.STEERERS.listed
    assert row.quill in steerer_sizes.QUILLS.listed
    if row.usual:
        assert quill_row(row.steerer) == row
        french = row.steerer == mm(25.0)
        assert abs(row.steerer - EIGHTH_INCH - row.quill) <= mm(0.2 if french else 0.03)
    else:
        assert row.quill in unusual_quills(row.steerer)


def test_no_quill_for_an_unlisted_steerer() -> None:
    """A 1.5 in steerer takes no quill."""
    assert quill_row(mm(38.1)) is None
    assert unusual_quills(mm(38.1)) == ()


@pytest.mark.parametrize("pair", QUILL_SLEEVES)
def test_quill_sleeves_fill_up(pair: tuple[int, int]) -> None:
    """A sleeve stands between a thinner quill and a wider bore, both listed."""
    assert pair[0] < pair[1]
    assert set(pair) <= set(steerer_sizes.QUILLS.listed)


@pytest.mark.parametrize("pair", STEERER_SLEEVES)
def test_steerer_sleeves_fill_up(pair: tuple[int, int]) -> None:
    """A sleeve stands between a thinner steerer and a wider clamp, both listed."""
    assert pair[0] < pair[1]
    assert set(pair) <= set(steerer_sizes.STEERER_CLAMPS.listed)


def test_adapters_and_sanding_name_listed_quills() -> None:
    """Adapters go into usual bores, and a sanded quill is thicker than its bore."""
    assert set(QUILL_ADAPTERS) <= {row.quill for row in QUILLS if row.usual}
    assert all(quill > bore for quill, bore in SANDED)


# 16 CFR 1512.15(b): twice the diameter
DEPTHS = {22.2: 44.4, 25.4: 50.8, 26.8: 53.6, 27.2: 54.4, 30.9: 61.8, 31.6: 63.2, 34.9: 69.8}


@pytest.mark.parametrize(("post", "depth"), DEPTHS.items())
def test_least_depth(post: float, depth: float) -> None:
    """Two post diameters stay in the frame."""
    assert mm(depth) == least_depth(mm(post))


# computed from the two diameters; 25.4 to 26.0: velo-orange.blogspot.com 2008/02
WALLS = {
    (25.0, 27.0): 1.0,
    (26.8, 27.0): 0.1,
    (30.9, 31.6): 0.35,
    (25.4, 26.0): 0.3,
    (22.2, 25.4): 1.6,
}


@pytest.mark.parametrize(("pair", "wall"), WALLS.items())
def test_sleeve_wall(pair: tuple[float, float], wall: float) -> None:
    """A sleeve's wall is half the difference, not the difference."""
    assert mm(wall) == sleeve_wall(mm(pair[0]), mm(pair[1]))
