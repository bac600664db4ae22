"""Chainline, from the frame's middle to the middle of the rings, by the rear hub's width."""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm


class Chainline(NamedTuple):
    """The range of chainlines that the sprockets of a rear hub of some width want."""

    widest_hub: Length
    low: Length
    high: Length
    source: str


def _row(widest_hub: str, low: str, high: str, source: str) -> Chainline:
    return Chainline(mm(widest_hub), mm(low), mm(high), source)


SINGLES = "lfgss.com/comments/5994410; roadbikereview.com, Bottom bracket sizing and chainline"
ROAD = "renehersecycles.com, Bottom brackets demystified"
TRIPLES = "mtbr.com 933644; ru-facts.com chainline"
BOOST = "bikeradar.com, A guide to mountain bike axle standards"

CHAINLINES = (
    _row("118", "42", "42", SINGLES),
    _row("120", "42", "43.5", f"{SINGLES}; {ROAD}"),
    _row("130", "43.5", "45", ROAD),
    _row("145", "43.5", "50", f"{ROAD}; {TRIPLES}"),
    _row("148", "50.5", "53", f"{TRIPLES}; 3 mm more: {BOOST}"),
)
TOLERANCE = mm("0.5")
"""Guideline; up to 2 mm is given too. Source: roadbikereview.com, as above"""
USABLE = mm("5")
"""Common practice, no source: beyond, the chain comes off or wears fast."""
NARROWEST_HUB = mm("108")


def chainline_for(hub: Length) -> Chainline | None:
    """Return the row for a rear hub's width, None for hubs beyond the table.

    >>> chainline_for(mm("135")).high, chainline_for(mm("100"))
    (50000, None)
    """
    if hub < NARROWEST_HUB:
        return None
    return next((row for row in CHAINLINES if hub <= row.widest_hub), None)
