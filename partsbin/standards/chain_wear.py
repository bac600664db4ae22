"""When a chain is worn: elongation in percent of 12 full links, 304.8 mm."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple


class Wear(NamedTuple):
    """The elongation from which a chain of up to so many speeds is worn out."""

    up_to: int
    percent: Decimal
    source: str


GAUGES = "citycyclingtips.com/?p=748"
LIMITS = (
    Wear(4, Decimal("1.0"), GAUGES),
    Wear(10, Decimal("0.75"), GAUGES),
    Wear(14, Decimal("0.5"), GAUGES),
)
SPROCKETS_TOO = Decimal("1.04")
"""12 1/8 in over 12 links: the sprockets are worn too. From memory."""


def limit(speeds: int) -> Decimal:
    """Return the elongation in percent at which a chain for so many sprockets is worn out.

    >>> limit(1), limit(9), limit(11)
    (Decimal('1.0'), Decimal('0.75'), Decimal('0.5'))
    """
    return next(row.percent for row in LIMITS if speeds <= row.up_to)


def worn(percent: Decimal, speeds: int) -> bool:
    """Return whether a chain for so many sprockets is worn out.

    >>> worn(Decimal("0.6"), 9), worn(Decimal("0.6"), 11)
    (False, True)
    """
    return percent >= limit(speeds)
