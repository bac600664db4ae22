"""Rim brakes: on the frame's or fork's mounts, by their bolt, and on the rim."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.ends import apart
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Finding, adapts, clash, fits
from partsbin.kinds.brakes import RimBrake
from partsbin.kinds.frame import Fork, Frame
from partsbin.kinds.wheels import RimPart, Wheel
from partsbin.standards.disc_mounts import DISC_MOUNTS
from partsbin.standards.rim_brakes import CALLIPER_HOLES, MOUNTS, MOUNTS_SOURCE, RIM_MOUNTS

WHEEL_SOURCE = "fitro.info and alltoolsforyou.com wheel and fork fit"
NO_MOUNT = {
    "u-brake": "a U-brake's bosses stand above the rim, no others will do",
    "cantilever": "it needs its two bosses below the rim",
    "linear-pull": "it needs the two cantilever bosses below the rim",
    "mini-linear-pull": "it needs the two cantilever bosses below the rim",
}


def is_calliper(brake: RimBrake) -> bool:
    """Return whether a rim brake hangs on one bolt; one with a reach does.

    Asks for the type where nothing else tells.
    """
    if not brake.known("type") and (brake.known("reach_min_mm") or brake.known("reach_max_mm")):
        return True
    return MOUNTS[brake.type] is CALLIPER_HOLES


@about("type", "brake_mounts")
@interface("rim brake on frame or fork", source=MOUNTS_SOURCE)
def brake_on_mounts(brake: RimBrake, holder: Frame | Fork) -> Finding | None:
    """Boss brakes need their own bosses, callipers a hole; a reach on record means a hole."""
    if apart(brake, holder):
        return None
    wanted = CALLIPER_HOLES if is_calliper(brake) else MOUNTS[brake.type]
    if not holder.known("brake_mounts") and holder.known("brake_reach_mm"):
        present, told_by = CALLIPER_HOLES, "brake_reach_mm"
    else:
        present, told_by = frozenset(holder.brake_mounts), "brake_mounts"
    values = ((brake, "type" if brake.known("type") else "reach_max_mm"), (holder, told_by))
    if wanted & present:
        return fits("the mounts are this brake's", *values)
    cause = "it needs a hole for its one bolt"
    if wanted is not CALLIPER_HOLES:
        cause = NO_MOUNT[brake.type]
    return clash(cause, *values, remedy=_instead(holder, present))


def _instead(holder: Frame | Fork, present: frozenset[str]) -> str:
    """Return which rim brakes the mounts do take."""
    types = [kind for kind, mounts in MOUNTS.items() if mounts & present]
    if types:
        return f"the {holder.word} takes {' or '.join(types)}"
    return f"the {holder.word} takes no rim brake"


@about("bolt")
@interface("bolt of calliper", source="smontanaro.net/CR/2005/1/778")
def bolt_of_calliper(brake: RimBrake, holder: Frame | Fork) -> Finding | None:
    """Match bolt and hole: long for an outside nut, short for a sleeve nut in a wide rear hole.

    That a recessed calliper does not go on a plain hole is from memory.
    """
    if apart(brake, holder):
        return None
    if not (brake.known("bolt") and not brake.known("type")) and not is_calliper(brake):
        return None
    values = ((brake, "bolt"), (holder, "brake_mounts"))
    present = CALLIPER_HOLES.intersection(holder.brake_mounts)
    if not present:
        return None
    wanted = "calliper-hole" if brake.bolt == "nut" else "calliper-recessed"
    if wanted in present:
        return fits("bolt and hole are of one kind", *values)
    if wanted == "calliper-hole":
        return adapts(
            "the hole is too wide behind for an outside nut",
            *values,
            adapter=Adapter(what="oversize washers for the nut, or a recessed bolt and sleeve nut"),
        )
    return clash(
        "the sleeve nut does not enter a plain hole and the bolt is too short for an outside nut",
        *values,
        remedy="change to a long bolt, or drill the rear of the hole if it is steel and thick",
    )


@interface("rim brake on rim", source=WHEEL_SOURCE)
def brake_on_rim(brake: RimBrake, rim: RimPart) -> Finding | None:
    """Require a rim with a braking track."""
    if apart(brake, rim):
        return None
    values = ((rim, "brake_track"),)
    if rim.brake_track == "no":
        return clash(
            "a rim without a braking track neither brakes nor bears the wear",
            *values,
            dangerous=True,
            remedy="take a rim made for rim brakes",
        )
    return fits("the rim has a braking track", *values)


@interface("wheel for the brakes of frame or fork", source=WHEEL_SOURCE)
def wheel_for_mounts(wheel: Wheel, holder: Frame | Fork) -> Finding | None:
    """Require a rotor mount on a disc-only frame or fork, a braking track on a rim-only one.

    Asks nothing: what is unknown of the wheel is the brake's question.
    """
    if apart(wheel, holder) or not holder.known("brake_mounts"):
        return None
    mounts = holder.brake_mounts
    disc, rim = not DISC_MOUNTS.isdisjoint(mounts), not RIM_MOUNTS.isdisjoint(mounts)
    if disc == rim:
        return None
    wanted = "rotor_mount" if disc else "brake_track"
    if not wheel.known(wanted):
        return None
    values = ((wheel, wanted), (holder, "brake_mounts"))
    if disc and wheel.rotor_mount == "none":
        return clash(
            f"the {holder.word} takes disc brakes only and the wheel carries no rotor",
            *values,
            remedy="take a wheel with a rotor mount",
        )
    if rim and wheel.brake_track == "no":
        return clash(
            f"the {holder.word} takes rim brakes only and the wheel has no braking track",
            *values,
            remedy="take a wheel with a braking track",
        )
    return fits("the wheel has what the brake works on", *values)


RULES = (brake_on_mounts, bolt_of_calliper, brake_on_rim, wheel_for_mounts)
