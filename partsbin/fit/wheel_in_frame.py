"""Wheel in frame and fork: the size they were made for, and the width over the locknuts."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.ends import apart
from partsbin.fit.hub_width import hub_between
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Amount, Finding, adapts, clash, fits
from partsbin.kinds.frame import Fork, Frame
from partsbin.kinds.wheels import HubPart, Wheel
from partsbin.standards import hub_spacing
from partsbin.standards.disc_mounts import DISC_MOUNTS
from partsbin.standards.length import Length, in_mm, mm
from partsbin.standards.rim_brakes import pad_shift

SIZE_SOURCE = "raceface.com how to fit a wheelset; bikerhub.net purchasing fork"
SAME_PLACE = mm(4)
"""A rim up to so much lower is of the same class: 630 to 622 (fixed.org.au 42786)."""

MOST_LARGER = mm(12.5)
"""Radius that a larger wheel may add if it turns: 559 to 584 mm. From memory."""

MOST_SMALLER_DISC, MOST_SMALLER_REACH = mm(32), mm(19)
"""Radius that a smaller wheel may lose: 622 to 559 under a disc brake, 622 to 584 under a
calliper's reach. From memory."""

AIR = "see that it turns with at least 1.6 mm of air at every angle (16 CFR 1512.11)"


@about("wheel_bsd_mm")
@interface("wheel size in frame", source=SIZE_SOURCE)
def wheel_size_in_frame(wheel: Wheel, frame: Frame) -> Finding | None:
    """Fits if the wheel is of the size that the frame was made for; see `wheel_size_in_fork`."""
    if apart(wheel, frame):
        return None
    return _of_size(wheel, frame)


@about("wheel_bsd_mm", "max_wheel_bsd_mm")
@interface("wheel size in fork", source=SIZE_SOURCE)
def wheel_size_in_fork(wheel: Wheel, fork: Fork) -> Finding | None:
    """Fits if the wheel is of the fork's size; a little larger it may turn, smaller it sits lower.

    A wheel above the largest that turns under the crown clashes. Bead seats in micrometres.
    """
    if apart(wheel, fork):
        return None
    if fork.known("max_wheel_bsd_mm"):
        values = ((wheel, "bsd_mm"), (fork, "max_wheel_bsd_mm"))
        if wheel.bsd_mm > fork.max_wheel_bsd_mm:
            return clash(
                "the wheel does not turn under the crown",
                *values,
                have=Amount("wheel", wheel.bsd_mm),
                need=Amount("largest", fork.max_wheel_bsd_mm),
            )
        if not fork.known("wheel_bsd_mm"):
            return fits("the wheel turns under the crown", *values)
    return _of_size(wheel, fork)


def _of_size(wheel: Wheel, holder: Frame | Fork) -> Finding:
    values = ((wheel, "bsd_mm"), (holder, "wheel_bsd_mm"))
    lower = pad_shift(holder.wheel_bsd_mm, wheel.bsd_mm)
    if 0 <= lower <= SAME_PLACE:
        return fits(f"the {holder.word} was made for wheels of this size", *values)
    have, need = Amount("wheel", wheel.bsd_mm), Amount(f"the {holder.word}'s", holder.wheel_bsd_mm)
    if lower < 0:
        if _turns(wheel, holder) or lower >= -MOST_LARGER:
            return adapts(
                "the wheel is larger than the one it was made for",
                *values,
                have=have,
                need=need,
                change=f"{AIR}; the pads of rim brakes go {in_mm(-lower)} mm up",
            )
        return clash(
            "the wheel is too large to turn in it",
            *values,
            have=have,
            need=need,
            remedy=f"take a {in_mm(holder.wheel_bsd_mm)} mm wheel",
        )
    if lower <= _most_smaller(wheel, holder):
        return adapts(
            "the wheel is smaller than the one it was made for",
            *values,
            have=have,
            need=need,
            change=f"the bike sits {in_mm(lower)} mm lower less the taller tyre: see that the "
            "pedals clear the ground in bends, and that rim pads reach",
        )
    return clash(
        "the wheel is too small: the brake does not reach it and the bike sits too low",
        *values,
        have=have,
        need=need,
        remedy=f"take a {in_mm(holder.wheel_bsd_mm)} mm wheel",
    )


def _turns(wheel: Wheel, holder: Frame | Fork) -> bool:
    return (
        isinstance(holder, Fork)
        and holder.known("max_wheel_bsd_mm")
        and wheel.bsd_mm <= holder.max_wheel_bsd_mm
    )


def _most_smaller(wheel: Wheel, holder: Frame | Fork) -> Length:
    """Return how much smaller in radius a wheel may be; discs do not mind, rim brakes do."""
    if not holder.known("brake_mounts") and wheel.known("brake_track"):
        disc = wheel.brake_track == "no"
    else:
        disc = not holder.brake_mounts or not DISC_MOUNTS.isdisjoint(holder.brake_mounts)
    return MOST_SMALLER_DISC if disc else MOST_SMALLER_REACH


@about("spacing_mm", "rear_spacing_mm")
@interface("wheel width in frame", source=hub_spacing.SPREAD_SOURCE)
def wheel_width_in_frame(hub: HubPart, frame: Frame) -> Finding | None:
    """Compare the hub's width over the locknuts with the frame's between the dropouts.

    A narrower hub takes spacers; a wider one goes into steel that springs or is cold-set, into
    nothing else. Thru axles take the hub's own end caps or nothing.
    """
    if apart(hub, frame):
        return None
    return hub_between(hub, frame, "rear_spacing_mm", "rear_axle")


@about("spacing_mm")
@interface("wheel width in fork", source=hub_spacing.SPREAD_SOURCE)
def wheel_width_in_fork(hub: HubPart, fork: Fork) -> Finding | None:
    """Compare the hub's width over the locknuts with the fork's between the dropouts."""
    if apart(hub, fork):
        return None
    return hub_between(hub, fork, "spacing_mm", "axle")


RULES = (
    wheel_size_in_frame,
    wheel_size_in_fork,
    wheel_width_in_frame,
    wheel_width_in_fork,
)
