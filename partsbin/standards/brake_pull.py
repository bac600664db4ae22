"""Cable pull: what a brake lever moves and what a brake wants, and the pulleys between them.

All figures are the cable's travel for about 20 degrees of lever.
Source: bike.bikegremlin.com/1402, mechanical brake compatibility.
"""

from __future__ import annotations

from decimal import Decimal

from partsbin.standards.length import Length, mm

SOURCE = "bike.bikegremlin.com/1402, mechanical brake compatibility"
LEVERS = {
    # Linear-pull levers for flat bars, and the few long-pull drop-bar levers.
    "long": (mm(15), mm(15)),
    # Cantilever and old road levers 7 mm, newer road and combined drop-bar levers 8 mm.
    "short": (mm(7), mm(8)),
}
"""Least and most that a lever of each family pulls."""

RIM_BRAKES = {
    "linear-pull": mm(15),
    "mini-linear-pull": mm(7),
    "cantilever": mm(7),
    "u-brake": mm(7),
    "side-pull": mm(7),
    "centre-pull": mm(7),
    "dual-pivot": mm(8),
}
"""What a rim brake wants, by its type; centre-pulls are counted with the old callipers."""

STATED = {"long": mm(15), "short": mm(7)}
"""What a rim brake wants whose pull is known by itself: callipers are made for either lever."""

DISC_CALLIPERS = {"long": mm(15), "short": mm(8)}
"""What a cable disc calliper wants: flat-bar ones long pull, road ones short."""

LEAST, MOST = Decimal("0.8"), Decimal("1.25")
"""Limits of lever pull by brake pull; inside them 7 and 8 mm mix, beyond them the families do.

The band is derived from the table; sheldonbrown.com/drivetrain-mixing.shtml for the pulleys.
"""


def family(wanted: Length) -> str:
    """Return the family of levers for a brake that wants so much cable.

    >>> family(mm(8))
    'short'
    """
    return "long" if wanted > mm(10) else "short"


def works(lever: str, wanted: Length, factor: Decimal = Decimal(1)) -> bool:
    """Return whether every lever of a family moves a brake rightly, through a pulley or bare.

    `factor` is the pulley's cable out by cable in.

    >>> works("short", mm(15)), works("short", mm(15), Decimal(2))
    (False, True)
    """
    least, most = LEVERS[lever]
    return least * factor >= LEAST * wanted and most * factor <= MOST * wanted


def pulley(lever: str, brake: str) -> tuple[Decimal, Decimal]:
    """Return the least and most factor of a pulley that brings one family to the other.

    It serves every lever and every brake of the two families.

    >>> [round(figure, 2) for figure in pulley("short", "long")]
    [Decimal('1.71'), Decimal('2.34')]
    """
    (lever_least, lever_most), (brake_least, brake_most) = LEVERS[lever], LEVERS[brake]
    return LEAST * brake_most / lever_least, MOST * brake_least / lever_most


PULLEYS = {
    ("short", "long"): pulley("short", "long"),
    ("long", "short"): pulley("long", "short"),
}
"""Factors of the two pulleys that brakes use: about double, and about half."""
