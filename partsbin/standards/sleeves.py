"""Sleeves between a thin part and a wide clamp: posts, bars, quills, steerers, levers."""

from __future__ import annotations

from partsbin.standards.length import Length, in_mm


def sleeve_wall(inner: Length, outer: Length) -> Length:
    """Return the wall of a sleeve in micrometres: half the difference of its two diameters.

    >>> sleeve_wall(Length(27_000), Length(27_200))
    100
    """
    return Length((outer - inner) // 2)


def sleeve_words(inner: Length, outer: Length) -> str:
    """Return a sleeve's dimensions in words.

    >>> sleeve_words(Length(22_200), Length(25_400))
    '22.2 to 25.4 mm (wall 1.6 mm)'
    """
    return f"{in_mm(inner)} to {in_mm(outer)} mm (wall {in_mm(sleeve_wall(inner, outer))} mm)"
