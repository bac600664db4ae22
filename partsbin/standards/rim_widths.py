"""Which tyre widths go on which inner rim widths: the table of 2006, the guideline, hookless rims.

All widths are lengths in micrometres.
"""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple

from partsbin.standards.length import Length, mm

TABLE_SOURCE = "ETRTO table of 2006, de-rec-fahrrad.de etrtotabelle; starts at 13 to 17 from memory"
GUIDE_SOURCE = "syseidel.wordpress.com 2016/01/14: 1.45 to 2.0 times the inner width"
HOOKLESS_SOURCE = "Chris_King_Wheel_Tire_Statement.pdf, on ETRTO 2022 and 2023"
MEASURING_SOURCE = "vittoria.com 2020 ETRTO, measuring rims"


class Row(NamedTuple):
    """The narrowest and widest tyre for an inner width, before and since the edition of 2006."""

    inner: int
    narrowest: int
    widest_before: int | None
    widest: int


ROWS = (
    Row(13, 18, 25, 25),
    Row(15, 23, 32, 32),
    Row(17, 25, 37, 50),
    Row(19, 28, 47, 62),
    Row(21, 35, 50, 62),
    Row(23, 37, 50, 62),
    Row(25, 44, 60, 62),
    Row(27, 47, None, 62),
    Row(29, 54, None, 62),
)
"""Crochet rims, ETRTO 2006, in millimetres. Its last column is 62: wider tyres are not in it."""

LAST_COLUMN = mm(62)
ROUNDING, INCH_ROUNDING = mm(0.3), mm(1)
"""How far a width may lie past an end of the table: 2.0 in is 50.8 mm and is listed as 50."""


class MeasuringRim(NamedTuple):
    """The inner width of the rim on which tyres of a marked width are measured since 2020."""

    narrowest: int
    widest: int
    inner: int


MEASURING_RIMS = (
    MeasuringRim(18, 21, 15),
    MeasuringRim(22, 24, 17),
    MeasuringRim(25, 28, 19),
    MeasuringRim(29, 34, 21),
    MeasuringRim(35, 46, 23),
    MeasuringRim(47, 57, 25),
    MeasuringRim(58, 65, 30),
    MeasuringRim(66, 71, 35),
    MeasuringRim(72, 83, 45),
    MeasuringRim(84, 113, 76),
    MeasuringRim(114, 132, 94),
)
"""Not the table of allowed pairs; source: vittoria.com 2020 ETRTO."""

MEASURING_SINCE = 2020
WIDEST_RATIO = (57, 25)
"""The widest tyre for its rim among the measuring rims: 2.28 times the inner width."""

HOOKLESS_BAR = 5
"""Highest pressure on a hookless rim in bar, if the tyre's own is not lower."""

HOOKLESS_OVER_2022, HOOKLESS_OVER_2023 = mm(3), mm(4)
"""How much wider than the rim a tyre is at least: 28 and 29 mm on 25 mm inside.

A weekly (Cycling Weekly 2023-06-15) asked for 5 mm. Other inner widths by the same difference.
"""


class Room(StrEnum):
    """How a tyre's width goes with a rim's inner width."""

    GOOD = "good"
    MARGINAL_NARROW = "narrow but listed"
    MARGINAL_WIDE = "wide but listed"
    NARROW = "too narrow"
    WIDE = "too wide"


class Bounds(NamedTuple):
    """The tyres for a rim: those between `good` ends, and the marginal ones to `least` and `most`.

    `listed` tells whether the ends come from the table of 2006 or from the guideline.
    """

    least: Length
    good_from: Length
    good_to: Length
    most: Length
    listed: bool

    def room(self, width: Length, slack: Length = ROUNDING) -> Room:
        """Return how a tyre width lies in these bounds, its ends wider by `slack`."""
        if width < self.least - slack:
            return Room.NARROW
        if width > self.most + slack:
            return Room.WIDE
        if width < self.good_from - slack:
            return Room.MARGINAL_NARROW
        return Room.MARGINAL_WIDE if width > self.good_to + slack else Room.GOOD


@lru_cache(maxsize=4096)
def crochet_bounds(inner: Length, width: Length) -> Bounds:
    """Return the bounds for a tyre of about that width on a crochet rim.

    Inside the table of 2006 its ends hold; what is past the guideline of 1.45 to 2.0 there is
    marginal. Between two rows a tyre needs the narrower row's least, the wider row's most, and the
    guideline's least. Where the table is silent the guideline holds.

    >>> bounds = crochet_bounds(mm(19), mm(47))
    >>> bounds.least, bounds.good_to, bounds.most
    (28000, 38000, 62000)
    """
    low = max((row for row in ROWS if row.inner * 1000 <= inner), default=None)
    high = min((row for row in ROWS if row.inner * 1000 >= inner), default=None)
    if low is None or high is None or width > LAST_COLUMN + INCH_ROUNDING:
        return guideline(inner, width)
    lower, upper = _guide(inner)
    least = mm(low.narrowest)
    if low is not high:
        least = max(least, min(lower, mm(high.narrowest)))
    return Bounds(least, max(least, lower), upper, mm(high.widest), listed=True)


@lru_cache(maxsize=4096)
def guideline(inner: Length, width: Length) -> Bounds:
    """Return the bounds of the guideline, for rims and tyres that the table of 2006 leaves out.

    A wide tyre may be narrower for its rim, as it is on its own measuring rim; up to the widest
    ratio of a measuring rim a tyre is marginal.

    >>> guideline(mm(30), mm(62)).room(mm(62))
    <Room.MARGINAL_WIDE: 'wide but listed'>
    >>> guideline(mm(80), mm(98)).room(mm(98))
    <Room.GOOD: 'good'>
    """
    lower, upper = _guide(inner)
    for row in MEASURING_RIMS:
        if row.narrowest * 1000 <= width <= row.widest * 1000:
            lower = min(lower, Length(inner * row.narrowest // row.inner))
    most = Length(inner * WIDEST_RATIO[0] // WIDEST_RATIO[1])
    return Bounds(lower, lower, upper, most, listed=False)


def hookless_bounds(inner: Length, width: Length) -> Bounds:
    """Return the bounds on a hookless rim, where the tyre must be wider than the rim's inside.

    >>> [str(hookless_bounds(mm(25), mm(w)).room(mm(w))) for w in (27, 28, 29)]
    ['too narrow', 'narrow but listed', 'good']
    """
    wide = guideline(inner, width)
    return Bounds(
        Length(inner + HOOKLESS_OVER_2022),
        Length(inner + HOOKLESS_OVER_2023),
        wide.good_to,
        wide.most,
        listed=False,
    )


def on_measuring_rim(inner: Length, width: Length) -> bool:
    """Return whether a tyre made since 2020 is measured on a rim of this inner width.

    >>> on_measuring_rim(mm(19), mm(25)), on_measuring_rim(mm(21), mm(28.6))
    (True, False)
    """
    return any(
        row.inner * 1000 == inner and row.narrowest * 1000 <= width <= row.widest * 1000
        for row in MEASURING_RIMS
    )


def listed_before_2006(inner: Length, width: Length) -> bool:
    """Return whether the table had the pair before the edition of 2006 widened it."""
    return any(
        row.inner * 1000 == inner
        and row.widest_before is not None
        and row.narrowest * 1000 <= width <= row.widest_before * 1000
        for row in ROWS
    )


def _guide(inner: Length) -> tuple[Length, Length]:
    return Length(inner * 145 // 100), Length(inner * 2)
