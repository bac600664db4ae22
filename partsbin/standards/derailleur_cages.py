"""What rear derailleurs of a cage length take at least: largest sprocket and total capacity."""

from __future__ import annotations

from typing import NamedTuple


class CageClass(NamedTuple):
    """One class of rear derailleur by the length of its cage."""

    name: str
    max_cog: int
    capacity: int
    source: str


CAGES = (
    CageClass("short, racing", 26, 28, "roadbikereview.com, largest cog; defietssite.nl capacity"),
    CageClass("short, road double", 27, 29, "libstdc.com/us/q/bicycles/7264"),
    CageClass("medium, road triple", 27, 37, "libstdc.com/us/q/bicycles/7264"),
    CageClass("medium, flat bar", 34, 33, "bluecollarmtb.com 2007-06-19"),
    CageClass("long, flat bar", 34, 38, "defietssite.nl capacity; largest sprocket from memory"),
    CageClass("long, flat bar, 9 speeds", 34, 45, "bluecollarmtb.com 2007-06-19"),
)

BEYOND_RATING = 2
"""Teeth beyond its rating that a derailleur was seen to run. Source: roadbikereview.com"""
WITH_WASHER = 4
"""Teeth beyond its rating that a washer at the hanger bolt bought.

Source: velonews.com technical-faq-shifting-compatibility-with-different-cassettes
"""


def least_max_cog(capacity: int) -> int:
    """Return the largest sprocket that every derailleur of that capacity takes.

    >>> least_max_cog(45), least_max_cog(33), least_max_cog(29)
    (34, 27, 27)
    """
    return min(row.max_cog for row in CAGES if row.capacity >= min(capacity, CAGES[-1].capacity))


def least_capacity(max_cog: int) -> int:
    """Return the total capacity that every derailleur rated for that sprocket has.

    >>> least_capacity(34), least_capacity(28)
    (33, 28)
    """
    rated = min(max_cog, CAGES[-1].max_cog) - BEYOND_RATING
    return min(row.capacity for row in CAGES if row.max_cog >= rated)
