"""Which inner tubes serve in which tyres: bead seats that interchange, stretch, and width."""

from __future__ import annotations

from enum import StrEnum

from partsbin.standards.length import Length, mm


class Stretch(StrEnum):
    """How a tube's size goes with a tyre's bead seat."""

    SAME = "same"
    INTERCHANGE = "interchange"
    STRETCHED = "stretched"
    EMERGENCY = "emergency"
    TOO_SMALL = "too small"
    TOO_LARGE = "too large"


INTERCHANGE = {
    frozenset({622, 630}): "bicycle-hangar.com wheel sizes; veloaporter.com tube size",
    frozenset({590, 597}): "firehouse-bicycles.shoplightspeed.com 597",
    frozenset({540, 541}): "bikefix.co.uk/tyre-and-wheel-sizes, on their tyres",
}
"""Pairs of bead seats, in millimetres, whose tubes serve either tyre."""

STRETCHES = {(559, 584): "powermanmalaysia.com tube sizes"}
"""A tube's and a larger tyre's bead seat, in millimetres, that are known to go."""

RULE_SOURCE = (
    "rustycrank.com tire size; limits by arithmetic from powermanmalaysia.com tube sizes (559 in "
    "584 goes, 584 in 622 in an emergency) and tadpolerider2.wordpress.com (451 in 406 does not)"
)
MOST_LARGER = 15
"""Per mille that a tube may be larger than the tyre: 630 in 622 is 13, 451 in 406 is 111."""

MOST_STRETCH, EMERGENCY_STRETCH = 50, 70
"""Per mille of the tube that a tyre may be larger: 584 on 559 is 45, 622 on 584 is 65."""

WIDTH_SOURCE = "powermanmalaysia.com tube sizes"
OVER_SOURCE = "gengrasharley-davidson.com tube size: 1.5 in tube in a 1.95 in tyre, not in 2.3 in"
OVER = (135, 100)
"""A tyre up to 1.3 times the tube's widest goes with a shorter life (1.95 in on 1.5 in), 1.53 times
does not (2.3 in); a little over 1.3, because the same tyre is 50 mm and the same tube 38 mm."""

ROUNDING = mm(0.5)
INCH_ROUNDING = mm(3)
"""An inch width is only near the metric one: 1.75 in is 44.45 mm and is printed as 47."""


def stretch(tube: Length, tyre: Length) -> Stretch:
    """Return how a tube made for one bead seat goes with a tyre of another.

    >>> print(stretch(mm(559), mm(584)), stretch(mm(584), mm(622)), stretch(mm(451), mm(406)))
    interchange emergency too large
    """
    if tube == tyre:
        return Stretch.SAME
    pair = (tube // 1000, tyre // 1000)
    if frozenset(pair) in INTERCHANGE or pair in STRETCHES:
        return Stretch.INTERCHANGE
    if tube > tyre:
        larger = (tube - tyre) * 1000 > MOST_LARGER * tyre
        return Stretch.TOO_LARGE if larger else Stretch.INTERCHANGE
    by = (tyre - tube) * 1000
    if by <= MOST_STRETCH * tube:
        return Stretch.STRETCHED
    return Stretch.EMERGENCY if by <= EMERGENCY_STRETCH * tube else Stretch.TOO_SMALL


def source_of(tube: Length, tyre: Length) -> str:
    """Return where it is published that these two go together, empty if only the rule says so."""
    pair = (tube // 1000, tyre // 1000)
    return INTERCHANGE.get(frozenset(pair)) or STRETCHES.get(pair, "")
