"""Chain widths by number of speeds: over the pin, and between the inner plates."""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm

PLATES = "cyclingboutique.in, Bicycle chain explained (2024)"
SIZES = "bike.bikegremlin.com/1220"


class ChainWidth(NamedTuple):
    """One chain: its outer width over the pin and its inner width."""

    outer: Length
    inner: Length
    source: str


def _row(outer: str, inner: str, source: str) -> ChainWidth:
    return ChainWidth(mm(outer), mm(inner), source)


WIDTHS = {
    1: _row("8.6", "3.175", f"inner: {SIZES}; outer from memory"),
    5: _row("7.8", "2.38", f"as 6 speeds: {SIZES}"),
    6: _row("7.8", "2.38", PLATES),
    7: _row("7.3", "2.38", PLATES),
    8: _row("7.1", "2.38", f"{PLATES}; velogear.com.au Chains"),
    9: _row("6.6", "2.18", f"{PLATES}; brainybiker.com/archives/18780"),
    10: _row("5.9", "2.18", f"{PLATES}; brainybiker.com/archives/18780"),
    11: _row("5.6", "2.18", PLATES),
    12: _row("5.2", "2.18", f"{PLATES}; brainybiker.com/archives/18780"),
    13: _row("4.9", "2.18", f"outer: {PLATES}; inner from memory"),
}
"""The usual widths; makers differ by about 0.2 mm, so a measured width goes before these."""

SINGLE_SPROCKETS = {"3/32": mm("2.38"), "1/8": mm("3.175")}
"""Inner width of the chain that a single sprocket is made for. Source: bike.bikegremlin.com/3555"""

NARROW_INNER = mm("2.18")
"""Inner width of all chains from 9 speeds on."""


def inner_for(outer: Length) -> Length:
    """Return the inner width that goes with an outer width.

    >>> inner_for(mm(6.7)), inner_for(mm(7.1)), inner_for(mm(9))
    (2180, 2380, 3175)
    """
    if outer < mm("6.95"):
        return NARROW_INNER
    return mm("2.38") if outer < mm("8.2") else mm("3.175")


def speeds_for(outer: Length) -> int:
    """Return the number of speeds whose chain has nearly that outer width.

    >>> speeds_for(mm(6.6)), speeds_for(mm(5.84))
    (9, 10)
    """
    return min(WIDTHS, key=lambda speeds: (abs(WIDTHS[speeds].outer - outer), -speeds))
