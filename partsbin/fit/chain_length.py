"""Chain length: how many half-inch links the largest ring and sprocket need."""

from __future__ import annotations

import math

from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Amount, Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import Chain, Chainset, Sprocket, SprocketCluster
from partsbin.kinds.frame import Frame
from partsbin.standards.length import Length

INCH = 25_400
SPARE = 2
"""Links too many that a derailleur or a dropout slot takes up; common practice, no source."""
SIMPLE = "bit1024.com Chain-Length; calculatorultra.com chain length"
EXACT = "Bike trig, forum text in nvidia/Nemotron-CC-Math-v1; pitch circle from memory"


def simple_length(chainstay: Length, ring: int, sprocket: int) -> float:
    """Return the usual estimate of a derailleur chain's length in inches.

    Twice the chainstay, a quarter of the teeth of the largest ring and sprocket, and one inch.

    >>> simple_length(Length(16 * INCH), 44, 12)
    47.0
    """
    return 2 * chainstay / INCH + ring / 4 + sprocket / 4 + 1


def loop_length(chainstay: Length, ring: int, sprocket: int) -> float:
    """Return the length in inches of a chain drawn taut round a ring and a sprocket.

    >>> round(loop_length(Length(16 * INCH), 44, 12) + 1, 2)
    47.45
    """
    centres = chainstay / INCH
    ring_radius, sprocket_radius = _radius(ring), _radius(sprocket)
    rise = ring_radius - sprocket_radius
    lean = 2 * math.asin(rise / centres)
    straight = 2 * math.sqrt(centres**2 - rise**2)
    return straight + ring_radius * (math.pi + lean) + sprocket_radius * (math.pi - lean)


def _radius(teeth: int) -> float:
    return 0.5 / (2 * math.sin(math.pi / teeth))


def whole_links(inches: float) -> int:
    """Return the even number of half-inch links that reaches a length.

    >>> whole_links(47.0), whole_links(47.45)
    (94, 96)
    """
    return 2 * math.ceil(round(inches, 6))


@interface("chain length", source=f"{SIMPLE}; {EXACT}")
def chain_length(
    chain: Chain, frame: Frame, chainset: Chainset, driven: SprocketCluster | Sprocket
) -> Finding | None:
    """Compare the links with what the largest ring and sprocket need, where all are known.

    The exact form decides, since the usual estimate comes out up to half an inch short; with a
    derailleur an inch is added. A longer chain is shortened.
    """
    single = isinstance(driven, Sprocket)
    if not (
        chain.known("links")
        and frame.known("chainstay_mm")
        and chainset.known("rings")
        and driven.known("teeth" if single else "cogs")
    ):
        return None
    ring = chainset.rings[-1]
    sprocket = driven.teeth if isinstance(driven, Sprocket) else driven.cogs[-1]
    need = whole_links(loop_length(frame.chainstay_mm, ring, sprocket) + (not single))
    usual = need if single else whole_links(simple_length(frame.chainstay_mm, ring, sprocket))
    values = (
        (chain, "links"),
        (frame, "chainstay_mm"),
        (chainset, "rings"),
        (driven, "teeth" if single else "cogs"),
    )
    return _compared(chain.links, need, usual, values)


def _compared(links: int, need: int, usual: int, values: tuple[About, ...]) -> Finding:
    have, wanted = Amount("links", links, ""), Amount("needed", need, "")
    if links < min(need, usual):
        return clash(
            "the chain is too short to reach round the largest ring and sprocket",
            *values,
            have=have,
            need=wanted,
            remedy=f"join {need - links} links of the same chain to it, or take another",
        )
    if links < need:
        return adapts(
            "the chain is long enough by the usual estimate, but short by the exact one",
            *values,
            have=have,
            need=wanted,
            change="lay it over the largest ring and sprocket: the cage must not stand straight",
        )
    if links > need + SPARE:
        return adapts(
            "the chain is longer than needed",
            *values,
            have=have,
            need=wanted,
            change=f"take {links - need} links out, after trying it on the largest sprockets",
        )
    return fits("the chain is long enough", *values, have=have, need=wanted)


RULES = (chain_length,)
