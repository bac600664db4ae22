"""Over-locknut width that a freewheel needs, by its number of sprockets."""

from __future__ import annotations

from partsbin.standards.length import Length, mm

NEEDED = {4: mm(114), 5: mm(120), 6: mm(126), 7: mm(126), 8: mm(130)}
"""Source: sheldonbrown.com/cribsheet-spacing.html"""
NARROW_PITCH_LIMIT = mm("5.2")
"""Between the pitches of narrow (5.0) and wide (5.5) sets of six.

Source: cyclingforums.com/threads/mix'n-match-gear-systems.15065.
"""


def least_spacing(speeds: int, pitch: Length | None = None) -> Length:
    """Return the least width between the locknuts; six narrow sprockets need that of five.

    >>> least_spacing(6), least_spacing(6, mm("5.0")), least_spacing(3)
    (126000, 120000, 114000)
    """
    if speeds == 6 and pitch is not None and pitch < NARROW_PITCH_LIMIT:
        return NEEDED[5]
    return NEEDED[min(max(speeds, 4), 8)]
