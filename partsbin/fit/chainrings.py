"""Chainrings on cranks: bolt circle, arms, and the smallest ring that clears the bolts."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.sprockets import said
from partsbin.fit.verdict import Amount, Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import Chainring, Chainset
from partsbin.standards.bolt_circles import (
    BOLT_CIRCLES,
    CRIB,
    HELP,
    INNER_OF,
    arms_of,
    smallest_ring,
)
from partsbin.standards.length import Length, in_mm

TRIPLE = 3


@interface("chainring on crank", source=f"{CRIB}; {HELP}")
def chainring_on_crank(ring: Chainring, chainset: Chainset) -> Finding | None:
    """Require the same bolt circle and arms; a triple has a smaller circle inside as well."""
    values = said((ring, "bcd_mm"), (ring, "arms"), (chainset, "bcd_mm"), (chainset, "arms"))
    circle, crank = ring.bcd_mm, chainset.bcd_mm
    inner = _is_inner(circle, crank, chainset)
    if circle != crank and not inner:
        return clash(
            "the bolt holes lie on circles of different size",
            *values,
            have=Amount("ring", circle),
            need=Amount("crank", crank),
            remedy=f"take a ring of {in_mm(crank)} mm bolt circle{_neighbours(crank)}",
        )
    if _have_other_arms(ring, chainset, circle):
        return clash("the crank has another number of arms than the ring has holes", *values)
    if inner:
        return fits("the ring goes on the inner bolt circle of a triple", *values)
    return fits("bolt circle and arms agree", *values)


def _is_inner(circle: Length, crank: Length, chainset: Chainset) -> bool:
    """Return whether a ring's circle is the inner one of a crank that carries three rings."""
    return INNER_OF.get(crank) == circle and len(chainset.rings) == TRIPLE


def _have_other_arms(ring: Chainring, chainset: Chainset, circle: Length) -> bool:
    """Return whether the arms differ; where neither says them, the circle is all that is asked."""
    if not (ring.known("arms") or chainset.known("arms")):
        return False
    listed = arms_of(circle)
    of_ring = ring.arms if ring.known("arms") or listed is None else listed
    of_crank = chainset.arms if chainset.known("arms") or listed is None else listed
    return of_ring != of_crank


def _neighbours(diameter: Length) -> str:
    arms = arms_of(diameter)
    row = BOLT_CIRCLES.get((diameter, arms)) if arms else None
    return f", {arms} arms, neighbouring holes {in_mm(row.adjacent)} mm apart" if row else ""


@interface("smallest ring on bolt circle", source=f"{CRIB}; sheldonbrown.com/numbers.html")
def smallest_ring_on_circle(ring: Chainring, chainset: Chainset) -> Finding | None:
    """Require the ring to have at least the teeth that clear the bolts of the circle."""
    holder = ring if ring.known("bcd_mm") else chainset
    if not (ring.known("teeth") and holder.known("bcd_mm")):
        return None
    if chainset.known("bcd_mm"):
        crank, triple = chainset.bcd_mm, chainset.known("rings") and len(chainset.rings) == TRIPLE
        # On another circle the ring does not go at all; of a triple it may be the inner one.
        if holder is chainset and triple and crank in INNER_OF:
            return None
        if holder.bcd_mm not in {crank, INNER_OF.get(crank) if triple else crank}:
            return None
    arms = next((piece.arms for piece in (ring, chainset) if piece.known("arms")), None)
    row = smallest_ring(holder.bcd_mm, arms)
    if row is None:
        return None
    values = ((ring, "teeth"), (holder, "bcd_mm"))
    have, need = Amount("ring", ring.teeth, "teeth"), Amount("smallest", row.smallest, "teeth")
    if ring.teeth < row.smallest:
        return clash(
            "so small a ring does not clear the bolts of that circle",
            *values,
            have=have,
            need=need,
            source=row.source,
        )
    return fits("the ring clears the bolts", *values, have=have, need=need, source=row.source)


@interface("chainring for chain width", source="brainybiker 10-speed chain with 9-speed crankset")
def chainring_for_speeds(ring: Chainring, chainset: Chainset) -> Finding | None:
    """Compare the numbers of speeds, where both are known; one step apart works."""
    if not (ring.known("speeds") and chainset.known("speeds")):
        return None
    values = ((ring, "speeds"), (chainset, "speeds"))
    if abs(max(ring.speeds, 8) - max(chainset.speeds, 8)) <= 1:
        return fits("ring and crank are at most one step apart", *values)
    return adapts(
        "ring and crank are for chains of several steps apart",
        *values,
        change="usable, not ideal: the gap between the rings is not the chain's, so it may rub or "
        "fall between them",
    )


RULES = (chainring_on_crank, smallest_ring_on_circle, chainring_for_speeds)
