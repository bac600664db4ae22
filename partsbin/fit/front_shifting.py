"""Front shifting: the shifter, the front derailleur, and the rings."""

from __future__ import annotations

from decimal import Decimal

from partsbin.fit.aspect import about
from partsbin.fit.gear_shifters import is_friction, moves_front
from partsbin.fit.rule import interface
from partsbin.fit.sprockets import said
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.cockpit import CombinedLever, Shifter
from partsbin.kinds.drivetrain import Chainset, FrontDerailleur
from partsbin.standards.front_derailleurs import (
    CAGE_SOURCE,
    DIFFERENCES,
    PULL_SLACK,
    PULL_SOURCE,
    ROAD_BY_FLAT,
    SMALLER_OUTER,
    SMALLER_USABLE,
)
from partsbin.standards.length import mm

PULL_OF_BAR = {mm("23.8"): "road", mm("22.2"): "flat-bar"}
"""A combined lever pulls as the bar that it clamps on. Source: brainybiker.com, drop bars on a
flat bar road bike; rookiejournal.com road levers."""
CASE_SOURCE = "cyclinguk.org/cycle, page on front shifting"


@about("front_pull", "friction")
@interface("front shifter and derailleur", source=PULL_SOURCE)
def front_pull(shifter: Shifter, derailleur: FrontDerailleur) -> Finding | None:
    """Require road with road pull or flat-bar with flat-bar; a lever without clicks goes with both.

    A road front derailleur moves as far for 0.746 of the cable of a flat-bar one.
    """
    if not moves_front(shifter):
        return None
    if is_friction(shifter):
        return fits("a lever without clicks sets any travel", (shifter, "friction"))
    values = said((shifter, "front_pull"), (shifter, "bar_mm"), (derailleur, "front_pull"))
    pull = _pull_of(shifter)
    if pull == derailleur.front_pull:
        return fits("shifter and derailleur have the same pull", *values)
    if pull == "flat-bar":
        cause, factor = "moves the cage too far", ROAD_BY_FLAT
    else:
        cause, factor = "does not move the cage far enough", 1 / ROAD_BY_FLAT
    return clash(
        f"the shifter {cause}: road and flat-bar front pull differ",
        *values,
        adapter=Adapter(
            what=f"pulley adapter in the gear cable, factor {factor:.2f}",
            kind="pull_adapter",
            values={"factor": _near(factor)},
        ),
        remedy=f"or take a front derailleur with {pull} pull, or a lever without clicks",
    )


def _pull_of(shifter: Shifter) -> str:
    """Return the shifter's front pull, which the bar of a combined lever may tell."""
    combined = isinstance(shifter, CombinedLever) and shifter.known("bar_mm")
    if combined and not shifter.known("front_pull"):
        told = PULL_OF_BAR.get(shifter.bar_mm)
        if told is not None:
            return told
    return shifter.front_pull


def _near(factor: Decimal) -> tuple[Decimal, Decimal]:
    return (factor * (1 - PULL_SLACK), factor * (1 + PULL_SLACK))


@interface("shifter positions for rings", source="radreise-forum.de/posts/1500566")
def positions_for_rings(shifter: Shifter, chainset: Chainset) -> Finding | None:
    """Require a position for each ring; a surplus one the limit screw blocks."""
    if not (moves_front(shifter) and shifter.known("speeds")) or is_friction(shifter):
        return None
    if not chainset.known("rings"):
        return None
    have, need = shifter.speeds, len(chainset.rings)
    values = ((shifter, "speeds"), (chainset, "rings"))
    if have < need:
        return clash(
            "the shifter has fewer positions than there are rings",
            *values,
            have=Amount("positions", have, ""),
            need=Amount("rings", need, ""),
            remedy=f"take a shifter of {need} positions",
        )
    spare = "; the limit screw blocks the rest" if have > need else ""
    return fits(f"there is a position for each ring{spare}", *values)


@interface("front derailleur and number of rings", source=CAGE_SOURCE)
def derailleur_for_rings(derailleur: FrontDerailleur, chainset: Chainset) -> Finding | None:
    """Require a derailleur for three rings where there are three; it serves two as well."""
    if not (derailleur.known("rings") and chainset.known("rings")) or len(chainset.rings) == 1:
        return None
    values = ((derailleur, "rings"), (chainset, "rings"))
    if len(chainset.rings) > derailleur.rings:
        return clash("a derailleur for two rings does not reach the big ring of three", *values)
    return fits("the derailleur reaches all rings", *values)


@about("max_ring")
@interface("front derailleur and big ring", source=CASE_SOURCE)
def derailleur_for_big_ring(derailleur: FrontDerailleur, chainset: Chainset) -> Finding | None:
    """Require the big ring to be the cage's own or up to four teeth smaller."""
    if chainset.known("rings") and len(chainset.rings) == 1:
        return None
    made_for, ring = derailleur.max_ring, chainset.rings[-1]
    values = ((derailleur, "max_ring"), (chainset, "rings"))
    have, need = Amount("big ring", ring, "teeth"), Amount("cage made for", made_for, "teeth")
    if ring > made_for:
        return clash(
            "the big ring is larger than the cage is made for, and its tail rubs",
            *values,
            have=have,
            need=need,
        )
    if made_for - ring <= SMALLER_OUTER:
        return fits("the cage follows the big ring", *values, have=have, need=need)
    if made_for - ring <= SMALLER_USABLE:
        return adapts(
            "the big ring is smaller than the cage is made for",
            *values,
            have=have,
            need=need,
            change="usable, not ideal: set the cage low and look that it clears the frame and the "
            "chain in every gear",
        )
    return clash(
        "the big ring is so small that the cage stands off it and cannot be set low enough",
        *values,
        have=have,
        need=need,
    )


@about("capacity_teeth")
@interface("front derailleur capacity", source="defietssite.nl capacity")
def front_capacity(derailleur: FrontDerailleur, chainset: Chainset) -> Finding | None:
    """Require the difference of the rings to be within the capacity.

    A capacity that is not known matters only beyond what such derailleurs take as a rule.
    """
    if not chainset.known("rings") or len(chainset.rings) == 1:
        return None
    rings = chainset.rings
    need = rings[-1] - rings[0]
    if not derailleur.known("capacity_teeth") and need <= DIFFERENCES.get(len(rings), 0):
        return None
    values = ((derailleur, "capacity_teeth"), (chainset, "rings"))
    have = Amount("capacity", derailleur.capacity_teeth, "teeth")
    wanted = Amount("difference of the rings", need, "teeth")
    if need > derailleur.capacity_teeth:
        return clash(
            "the cage is too shallow: in the small ring the chain drags on it",
            *values,
            have=have,
            need=wanted,
        )
    return fits("the cage is deep enough", *values, have=have, need=wanted)


RULES = (
    front_pull,
    positions_for_rings,
    derailleur_for_big_ring,
    derailleur_for_rings,
    front_capacity,
)
