"""Rear derailleur: largest sprocket, total capacity, and how it is hung on the frame."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.sprockets import said
from partsbin.fit.verdict import Amount, Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import Chainset, RearDerailleur, SprocketCluster
from partsbin.kinds.frame import Frame
from partsbin.standards.derailleur_cages import (
    BEYOND_RATING,
    WITH_WASHER,
    least_capacity,
    least_max_cog,
)

RATINGS = "libstdc.com/us/q/bicycles/7264; bluecollarmtb.com 2007-06-19"


def total_capacity(rings: tuple[int, ...], cogs: tuple[int, ...]) -> int:
    """Return the teeth of chain that a derailleur must take up between its extremes.

    >>> total_capacity((22, 32, 42), (12, 34)), total_capacity((34, 50), (12, 25))
    (42, 29)
    """
    return (max(rings) - min(rings)) + (max(cogs) - min(cogs))


@interface("largest sprocket", source=RATINGS)
def largest_sprocket(derailleur: RearDerailleur, cluster: SprocketCluster) -> Finding | None:
    """Require the largest sprocket to be within the rating, which is known to be cautious.

    Two teeth more have been run, four more with a washer at the hanger bolt. A rating that is not
    known is at least that of the shortest cages, or of cages of the capacity that is known.
    """
    if not derailleur.known("max_cog"):
        if not cluster.known("cogs"):
            return None
        capacity = derailleur.capacity_teeth if derailleur.known("capacity_teeth") else 0
        if cluster.cogs[-1] <= least_max_cog(capacity):
            return fits("every derailleur takes sprockets so small", (cluster, "cogs"))
    rated, largest = derailleur.max_cog, cluster.cogs[-1]
    about = ((derailleur, "max_cog"), (cluster, "cogs"))
    have, need = Amount("largest sprocket", largest, "teeth"), Amount("rated for", rated, "teeth")
    if largest <= rated:
        return fits("the largest sprocket is within the rating", *about, have=have, need=need)
    if largest <= rated + BEYOND_RATING:
        return adapts(
            "the largest sprocket is just past the rating, which is cautious",
            *about,
            have=have,
            need=need,
            change="set the adjusting screw so that the upper pulley clears the largest sprocket",
            source="roadbikereview.com, largest cog",
        )
    if largest <= rated + WITH_WASHER:
        return adapts(
            "the upper pulley rubs on the largest sprocket",
            *about,
            have=have,
            need=need,
            change="put a washer at the hanger bolt so that the pulley clears; the capacity is not "
            "ideal, so check the chain in the largest and in the smallest pair",
            source="velonews.com technical-faq-shifting-compatibility-with-different-cassettes",
        )
    return clash(
        "the upper pulley cannot clear the largest sprocket",
        *about,
        have=have,
        need=need,
        remedy=f"take a derailleur for {largest} teeth, or smaller sprockets",
    )


@interface("derailleur capacity", source=RATINGS)
def derailleur_capacity(
    derailleur: RearDerailleur, cluster: SprocketCluster | None, chainset: Chainset | None
) -> Finding | None:
    """Require the cage to take up the difference of the rings and of the sprockets together.

    With only rings or only sprockets it can but be too small. A capacity that is not known is at
    least that of cages with the rating that is known.
    """
    rings = chainset.rings if chainset and chainset.known("rings") else None
    cogs = cluster.cogs if cluster and cluster.known("cogs") else None
    need = total_capacity(rings or (0,), cogs or (0,))
    whole = rings is not None and cogs is not None
    if not derailleur.known("capacity_teeth"):
        rated = derailleur.max_cog if derailleur.known("max_cog") else 0
        if not whole or need <= least_capacity(rated):
            return None
    about = said((derailleur, "capacity_teeth"), (chainset, "rings"), (cluster, "cogs"))
    have = Amount("capacity", derailleur.capacity_teeth, "teeth")
    wanted = Amount("needed" if whole else "needed at least", need, "teeth")
    if need > derailleur.capacity_teeth:
        return clash(
            "the cage is too short: the chain hangs slack in the smallest pair, or is too short "
            "for the largest",
            *about,
            have=have,
            need=wanted,
            remedy="take a longer cage, or rings or sprockets that differ less",
        )
    if not whole:
        return None
    return fits("the cage takes up all slack", *about, have=have, need=wanted)


@interface("derailleur on frame", source="common practice, no source")
def derailleur_on_frame(derailleur: RearDerailleur, frame: Frame) -> Finding | None:
    """Match the derailleur's bolt or plate with the frame's hanger.

    A frame without a hanger takes a plate under the axle nut, if its dropouts are open.
    """
    about = ((derailleur, "mount"), (frame, "hanger"))
    mount, hanger = derailleur.mount, frame.hanger
    if hanger == "none":
        return _without_hanger(mount, derailleur, frame)
    if mount == "hanger":
        return fits("the bolt goes into the frame's hanger", *about)
    if mount == "claw":
        return adapts(
            "the plate is not wanted beside the frame's own hanger",
            *about,
            change="take the plate off and bolt the derailleur into the hanger",
        )
    what = "hanger for direct mount" if hanger == "replaceable" else "link from hanger to mount"
    return adapts(
        "a direct mount needs a longer hanger, or the link that it came with",
        *about,
        change=f"use a {what}",
    )


def _without_hanger(mount: str, derailleur: RearDerailleur, frame: Frame) -> Finding:
    about = ((derailleur, "mount"), (frame, "hanger"))
    if mount == "direct":
        return clash("a direct mount needs a hanger, and the frame has none", *about)
    if frame.known("rear_axle") and frame.rear_axle == "thru-12":
        return clash(
            "a plate under the axle nut does not go in closed dropouts",
            *about,
            (frame, "rear_axle"),
        )
    if mount == "claw":
        return fits("the plate sits in the dropout under the axle nut", *about)
    return adapts(
        "the frame has no eye for the bolt",
        *about,
        change="bolt the derailleur to a hanger plate that sits under the axle nut",
    )


RULES = (largest_sprocket, derailleur_capacity, derailleur_on_frame)
