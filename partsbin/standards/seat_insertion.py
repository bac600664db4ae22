"""How deep a seatpost must stand in the frame, and how loosely carbon may be clamped."""

from __future__ import annotations

from partsbin.standards.length import Length, mm

MARK_SOURCE = "16 CFR 1512.15(b)"
DIAMETERS_BELOW_MARK = 2
"""The mark stands at least so many post diameters above the post's lower end."""

CARBON_PLAY = mm(0.2)
"""Most play on the diameter where post or frame is carbon. Source: carbon-bike-service.eu."""


def least_depth(diameter: Length) -> Length:
    """Return how much of a post of that diameter must stay in the frame at least.

    >>> least_depth(mm(27.2))
    54400
    """
    return Length(DIAMETERS_BELOW_MARK * diameter)
