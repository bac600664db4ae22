"""Dots of printers, and corrections read off a test page."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labels.printer import Printer, PrinterError


@pytest.mark.parametrize(
    ("dpi", "dots_in_24_mm"),
    [("203.2", 192), (300, 283), ("304.8", 288), (600, 567)],
    ids=str,
)
def test_dots_per_millimetre(dpi: str | int, dots_in_24_mm: int) -> None:
    """8, 11.81, 12 and 23.62 dots/mm (heads: barcodefactory.com; the 300 and 600 by arithmetic)."""
    assert Printer(dpi=dpi).dots(24_000) == dots_in_24_mm


@pytest.mark.parametrize(
    ("dpi", "least_um", "dots"),
    [
        ("203.2", 250, 2),
        ("203.2", 251, 3),
        (300, 250, 3),
        ("304.8", 250, 3),
        (600, 250, 6),
        (1200, 250, 12),
        ("177.5", 250, 2),
    ],
    ids=str,
)
def test_an_x_dimension_is_whole_dots(dpi: str | int, least_um: int, dots: int) -> None:
    """The fewest whole dots that are wide enough: 0.250 mm at 203.2, 0.254 mm at 300 and 600."""
    assert Printer(dpi=dpi).whole_dots(least_um) == dots


@given(st.decimals(100, 5000, places=2), st.integers(1, 10_000))
def test_whole_dots_are_the_fewest(dpi: Decimal, least_um: int) -> None:
    """So many dots are wide enough, one fewer are not."""
    printer = Printer(dpi=dpi)
    dots = printer.whole_dots(least_um)

    assert dots * 25_400 >= least_um * dpi
    assert (dots - 1) * 25_400 < least_um * dpi


@pytest.mark.parametrize(
    ("right_um", "down_um", "ruler_um"),
    [(0, 0, 100_000), (600, -400, 100_000), (-1_200, 900, 99_600), (250, 250, 100_300)],
    ids=str,
)
def test_a_test_page_read_off_is_taken_back(right_um: int, down_um: int, ruler_um: int) -> None:
    """A printer that shifts and stretches prints a corrected point where it belongs.

    The faulty printer is played here: it multiplies by its ruler's error, then adds its shift.
    """
    printer = Printer(dpi=600).corrected(
        right_um=right_um, down_um=down_um, ruler_x_um=ruler_um, ruler_y_um=ruler_um
    )

    for x_um, y_um in ((0, 0), (70_000, 37_000), (190_000, 280_000)):
        x, y = printer.place(x_um, y_um)
        stretch = ruler_um / 100_000
        assert printer.length_um(x) * stretch + right_um == pytest.approx(x_um, abs=30)
        assert printer.length_um(y) * stretch + down_um == pytest.approx(y_um, abs=30)


def test_corrections_add_up() -> None:
    """A second test page corrects what the first left."""
    once = Printer(dpi=300).corrected(right_um=500, ruler_x_um=99_000)
    twice = once.corrected(right_um=-100, ruler_x_um=100_100)

    assert (once.shift_x_um, twice.shift_x_um) == (-500, -400)
    assert (once.scale_x_ppm, twice.scale_x_ppm) == (10_101, 9_102)


@pytest.mark.parametrize(
    ("settings", "sentence"),
    [
        (
            {"dpi": "fine"},
            "'fine' is no resolution: give dots per inch, for instance 203.2, 300 or 600.",
        ),
        (
            {"dpi": 72},
            "No label printer has 72 dots per inch: give a number from 100 to 5000.",
        ),
        (
            {"dpi": "NaN"},
            "'NaN' is no resolution: give dots per inch, for instance 203.2, 300 or 600.",
        ),
        (
            {"shift_x_um": 12_000},
            (
                "A shift of 12 mm is more than a printer is ever out (10 mm): "
                "measure the test page again."
            ),
        ),
        (
            {"scale_y_ppm": -60_000},
            (
                "A scale of -6 % is no printer's error: print the test page at 100 %, "
                'without "fit to page", and measure it again.'
            ),
        ),
    ],
    ids=["no number", "too few", "not a number", "shift", "scale"],
)
def test_what_no_printer_has(settings: dict[str, Any], sentence: str) -> None:
    """Settings that no printer has are refused in one sentence."""
    with pytest.raises(PrinterError) as refusal:
        Printer(**settings)

    assert str(refusal.value) == sentence


def test_a_ruler_has_a_length() -> None:
    """A ruler of nought was not measured."""
    with pytest.raises(PrinterError, match="measure the printed ruler again"):
        Printer().corrected(ruler_x_um=0)
