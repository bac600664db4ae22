"""Labels of a picture are told in the order in which a person reads a sheet."""

from __future__ import annotations

from math import cos, radians, sin

import pytest

from labels.number import LabelNumber, Thing, make
from labels.reading.look import Decoder, Look, Point, Reading, Symbol
from partsbin.workshop.scanning import in_reading_order

QR, BARS = (0, 0, 100, 100), (0, 120, 300, 180)
"""Where the symbols stand on a label of 320 x 200: left, top, right, bottom."""
MADE = [make(Thing.PART, running) for running in range(1, 25)]


def label(number: LabelNumber, left: float, top: float, tilt: float, symbols: str) -> Reading:
    """Return the reading of a label whose picture is turned about its own corner of the sheet."""
    looks = []
    for letter, symbol, box in (("q", Symbol.QR, QR), ("b", Symbol.CODE_128, BARS)):
        if letter in symbols:
            x1, y1, x2, y2 = box
            flat = ((x1, y1), (x2, y1), (x2, y2), (x1, y2))
            a, b, c, d = (turned(left + x, top + y, tilt) for x, y in flat)
            looks.append(Look(number, (a, b, c, d), symbol, Decoder.ZXING, "test"))
    return Reading(number, looks[0].corners, tuple(looks))


def turned(x: float, y: float, tilt: float) -> Point:
    """Return a point of the sheet in the picture of the sheet held askew."""
    along, across = cos(radians(tilt)), sin(radians(tilt))
    return x * along - y * across, x * across + y * along


@pytest.mark.parametrize("tilt", [0, 3, -8, 20, -30])
@pytest.mark.parametrize("symbols", [("qb",), ("q", "qb", "b"), ("b", "qb", "qb", "q", "b")])
def test_a_sheet_is_read_row_by_row(tilt: float, symbols: tuple[str, ...]) -> None:
    """Three columns by eight rows keep their order, however held, whichever symbols were read."""
    sheet = [
        label(number, at % 3 * 340, at // 3 * 210, tilt, symbols[at % len(symbols)])
        for at, number in enumerate(MADE)
    ]
    shuffled = sheet[::2][::-1] + sheet[1::2]
    assert [reading.number for reading in in_reading_order(shuffled)] == MADE


def test_labels_that_lie_anyhow() -> None:
    """Labels in all directions are told by their places in the picture as it is."""
    drawer = [
        label(number, at % 3 * 900, at // 3 * 900, 0, "qb") for at, number in enumerate(MADE[:6])
    ]
    spun = [
        Reading(one.number, one.corners[spin % 4 :] + one.corners[: spin % 4], one.looks)  # type: ignore[arg-type] # still four corners
        for spin, one in enumerate(drawer)
    ]
    assert [reading.number for reading in in_reading_order(spun[::-1])] == MADE[:6]


def test_no_label() -> None:
    """A picture without labels has none to order."""
    assert in_reading_order([]) == []
