"""Building a wheel: as many spoke holes in the hub as in the rim."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.verdict import Amount, Finding, clash, fits
from partsbin.kinds.wheels import Hub, Rim


@interface(
    "spoke holes of hub and rim",
    source="filtersweep.blogspot.com 2007/07; sheldonbrown.com/mismatch.html",
)
def spoke_holes(hub: Hub, rim: Rim) -> Finding | None:
    """Hub and rim need the same number; an expert can lace others, which is no use for stock."""
    values = ((hub, "spokes"), (rim, "spokes"))
    if hub.spokes == rim.spokes:
        return fits("hub and rim have the same number of holes", *values)
    return clash(
        "holes are left over, and the spokes pull unevenly",
        *values,
        have=Amount("hub", hub.spokes, "holes"),
        need=Amount("rim", rim.spokes, "holes"),
        remedy=f"take a hub with {rim.spokes} holes; only an expert laces 36 to 32",
    )


RULES = (spoke_holes,)
