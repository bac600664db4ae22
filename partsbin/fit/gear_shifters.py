"""Which derailleur a shifter moves, as far as it says."""

from __future__ import annotations

from partsbin.kinds.cockpit import Shifter

MOST_FRONT_POSITIONS = 3


def moves_rear(shifter: Shifter) -> bool:
    """Return whether a shifter is, or may be, the one of the rear derailleur."""
    if shifter.known("side"):
        return shifter.side == "rear"
    if shifter.known("speeds"):
        return shifter.speeds > MOST_FRONT_POSITIONS
    return not shifter.known("front_pull")


def moves_front(shifter: Shifter) -> bool:
    """Return whether a shifter is, or may be, the one of the front derailleur."""
    if shifter.known("side"):
        return shifter.side == "front"
    if shifter.known("speeds"):
        return shifter.speeds <= MOST_FRONT_POSITIONS
    return not (shifter.known("index_family") or shifter.known("pull_per_click_mm"))


def is_friction(shifter: Shifter) -> bool:
    """Return whether a shifter is known to move without clicks, or to have a mode that does."""
    return shifter.known("friction") and shifter.friction == "yes"
