"""What a handlebar measures where the stem clamps it and where the hands hold it."""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm

SHEET = "lovecitycycles.com/?page_id=796, Handlebar and Stem Dimension sheet"
STRAIGHT = frozenset({"flat", "riser", "swept"})
"""Styles whose grip area is the same on all. Source: velogear.com.au, which grip fits."""


class BarRow(NamedTuple):
    """One family of bars: its stem clamp and grip area, the shapes it is met in, the source.

    `material` is given where only bars of that material belong to the row.
    """

    clamp: Length
    grip: Length
    shapes: frozenset[str]
    material: str
    source: str


DROPS = frozenset({"drop"})
BARS = (
    BarRow(mm(22.2), mm(22.2), STRAIGHT, "", SHEET),
    BarRow(mm(23.8), mm(22.2), STRAIGHT, "", SHEET),
    BarRow(mm(23.8), mm(22.2), DROPS, "steel", SHEET),
    BarRow(mm(25.0), mm(23.5), DROPS, "", SHEET),
    BarRow(mm(25.4), mm(22.2), STRAIGHT, "", SHEET),
    BarRow(mm(25.4), mm(22.2), DROPS, "steel", f"{SHEET}; smontanaro.net/CR/2007/3/78"),
    BarRow(mm(25.4), mm(23.8), DROPS, "aluminium", f"{SHEET}; smontanaro.net/CR/2007/3/78"),
    BarRow(mm(25.8), mm(23.8), DROPS, "", SHEET),
    BarRow(mm(26.0), mm(23.8), DROPS, "", SHEET),
    BarRow(mm(26.4), mm(23.8), DROPS, "", SHEET),
    BarRow(mm(27.0), mm(23.8), DROPS, "", SHEET),
    BarRow(mm(31.8), mm(23.8), DROPS, "", f"{SHEET}; smontanaro.net/CR/2007/3/78"),
    BarRow(mm(31.8), mm(22.2), STRAIGHT, "", f"{SHEET}; velogear.com.au, which grip fits"),
    BarRow(mm(35.0), mm(22.2), STRAIGHT, "", "velogear.com.au, which grip fits; 35.0 from memory"),
)

MEANT_FOR_LARGER = {mm(25.8): mm(26.0)}
"""Bars that were made for the next larger clamp too. Source: the sheet above."""

BAR_END_BORE = (mm(19), mm(21))
"""Inside of a bar end that holds a bar-end shifter. Source: parktool.com Bar end shifter
service; velo-orange.blogspot.com 2008/02 wants 19.6 at least."""

PLUG_PLAY = mm(1)
"""A plug gives so much. Common practice, no source."""

DROP_BAND = mm(23.8)
"""Band of levers for drop bars. Source: urbanvelo.org issue 12 p. 70."""

LARGEST_GRIP_BAND = mm(24)
"""A wider band belongs on the bar's thick middle. Source: bikeforums.net t-645002."""


def grip_area(style: str, clamp: Length | None, material: str) -> BarRow | None:
    """Return the one row of the table that gives such a bar's grip area, None if none is sure.

    The grip area does not follow from the clamp alone, so a bar of unknown style has none.

    >>> grip_area("drop", mm(31.8), "").grip
    23800
    >>> grip_area("drop", mm(25.4), "") is None
    True
    """
    rows = [
        row
        for row in BARS
        if style in row.shapes
        and (clamp is None or clamp == row.clamp)
        and (not row.material or not material or material == row.material)
    ]
    return rows[0] if rows and len({row.grip for row in rows}) == 1 else None
