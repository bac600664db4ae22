"""Axle threads, their diameter and pitch, and which of them only seem to be the same."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from partsbin.standards.length import Length, mm


class Thread(NamedTuple):
    """A thread's outside diameter and pitch in micrometres."""

    diameter: Length
    pitch: Length


INCH = mm(25.4)
SOURCE = "wrenchfu.com axle-nut; hotvehs.com wheel axle; modernbike.com/help-1446"

ROWS = {
    "9x1": "wrenchfu.com axle-nut",
    "10x1": "wrenchfu.com axle-nut",
    "5/16x24": "wrenchfu.com axle-nut; hotvehs.com wheel axle",
    "5/16x26": "wrenchfu.com axle-nut; hotvehs.com wheel axle",
    "3/8x24": "wrenchfu.com axle-nut; hotvehs.com wheel axle",
    "3/8x26": "wrenchfu.com axle-nut; hotvehs.com wheel axle",
    "m12x1.0": "modernbike.com/help-1446; hardlite-components.com thru-axle",
    "m12x1.5": "modernbike.com/help-1446; hardlite-components.com thru-axle",
    "m12x1.75": "modernbike.com/help-1446; hardlite-components.com thru-axle",
    "m14x1.5": "from memory",
    "m15x1.5": "from memory",
}
"""Threads met on bicycle axles, with where each is published."""

STARTS = mm(0.7)
"""Diameters this near go on by hand for a turn or more: 9.52 lies between 9 and 10 mm."""

_CODE = re.compile(r"m?(\d+)(?:/(\d+))?(\.\d+)?x(\d+(?:\.\d+)?)")


@lru_cache(maxsize=256)
def thread(code: str) -> Thread:
    """Return the diameter and pitch of an axle thread's code.

    >>> thread("3/8x26"), thread("m10x1.0") == thread("10x1")
    (Thread(diameter=9525, pitch=977), True)
    """
    match = _CODE.fullmatch(code)
    if match is None:
        raise ValueError(f"{code!r} is not an axle thread")
    whole, under, part, pitch = match.groups()
    across = INCH * int(whole) / int(under) if under else float(whole + (part or "")) * 1000
    # A pitch of ten or more is threads to the inch.
    step = INCH / float(pitch) if float(pitch) >= 10 else float(pitch) * 1000
    return Thread(Length(round(across)), Length(round(step)))


def seem_alike(one: str, other: str) -> bool:
    """Return whether two different threads can be started on each other and then bind or strip.

    >>> seem_alike("10x1", "3/8x26"), seem_alike("10x1", "m15x1.5")
    (True, False)
    """
    a, b = thread(one), thread(other)
    return abs(a.diameter - b.diameter) <= STARTS and abs(a.pitch - b.pitch) < mm(0.2)
