"""Valves: the hole, pump head and cap that each takes, and how long it must be."""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm


class Valve(NamedTuple):
    """The rim hole that a valve is made for, the thread of its tip, and where it is published."""

    hole: Length
    tip: str
    source: str


NARROW, WIDE = mm(6.5), mm(8.5)
"""Holes for presta, measured 6.2 to 6.6, and for the other two, measured 8.3 to 8.6 mm.

Source: urbanusmagnus.blogspot.com 2012/05; brainybiker.com; the usual figures from memory.
"""

VALVES = {
    "schrader": Valve(WIDE, "8V1", "fitro.info schrader valve in presta rim; healthfully.com"),
    "presta": Valve(NARROW, "5V2", "brainybiker.com presta tubes and schrader rims"),
    "dunlop": Valve(WIDE, "5V2", "en.wikipedia.org Dunlop_valve; healthfully.com valve stem types"),
}
HOLE_SOURCE = "brainybiker.com presta tubes and schrader rims; bikefinest.com; healthfully.com"
TIP_SOURCE = (
    "handwiki.org Presta valve; en.wikipedia.org Dunlop_valve; wikipedia-on-ipfs Presta_valve"
)

STANDS_OUT = mm(15)
"""How much longer than the rim is deep a valve must be: 25 mm takes 40, 65 mm takes 80."""

LENGTH_SOURCE = "copy of a CyclingTips article on valve stems, thebestmagnets.com"
EXTENDER_SOURCE = "copy of a CyclingTips article on valve stems; slowtwitch.cloud valve stems"


def needed_length(rim_depth: Length) -> Length:
    """Return the shortest valve for a rim of that depth.

    >>> needed_length(mm(30)), needed_length(mm(65))
    (45000, 80000)
    """
    return Length(rim_depth + STANDS_OUT)


def drilling(rim_material: str | None) -> str:
    """Return what may be done about a rim hole that is too narrow for the valve.

    Source: urbanusmagnus.blogspot.com 2012/05; carbon from memory.

    >>> drilling("carbon")
    'never drill a carbon rim; take a tube with a presta valve'
    """
    if rim_material == "carbon":
        return "never drill a carbon rim; take a tube with a presta valve"
    tube = "take a tube with a presta valve"
    if rim_material == "steel":
        return tube
    return (
        f"{tube}; only a wide, flat-bottomed aluminium rim may be drilled to 8.3 mm and deburred, "
        "never a narrow or strongly arched one"
    )
