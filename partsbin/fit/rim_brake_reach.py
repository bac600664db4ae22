"""Rim brakes and wheel size: the reach of callipers, and bosses placed for one wheel."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.ends import apart
from partsbin.fit.rim_brakes import is_calliper
from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.brakes import RimBrake
from partsbin.kinds.frame import Fork, Frame
from partsbin.kinds.wheels import RimPart
from partsbin.standards.length import Length, in_mm, mm
from partsbin.standards.rim_brakes import (
    BOSSES,
    EASY_SLOT,
    LONG_SLOT,
    REACH_SOURCE,
    USUAL_SLOT,
    callipers_reaching,
    pad_shift,
)

SAME_HEIGHT = mm(1)
"""Two bead seats that differ by less than this leave the pads where they were."""


@about("brake_reach_mm", "reach_min_mm", "reach_max_mm")
@interface("reach of calliper", source=REACH_SOURCE)
def reach_of_calliper(brake: RimBrake, holder: Frame | Fork, rim: RimPart | None) -> Finding | None:
    """Compare the needed reach with the calliper's; another wheel size changes it.

    Needed is the reach measured with the wheel that the mounts were placed for, plus half of how
    much smaller this wheel's bead seat is. A recorded reach that is out of range by itself stays a
    clash while nobody knows which wheel it was measured with. Lengths in micrometres.
    """
    if apart(brake, holder) or not is_calliper(brake):
        return None
    recorded = brake.known("reach_min_mm") or brake.known("reach_max_mm")
    if rim is not None and not recorded and not holder.known("brake_reach_mm"):
        return None
    needed = holder.brake_reach_mm
    values: list[About] = [(holder, "brake_reach_mm")]
    if rim is not None:
        bare = _beyond(brake, needed, *values)
        if bare is not None and not holder.known("wheel_bsd_mm"):
            return bare
        if apart(holder, rim):
            return None
        needed = Length(needed + pad_shift(holder.wheel_bsd_mm, rim.bsd_mm))
        values += [(holder, "wheel_bsd_mm"), (rim, "bsd_mm")]
    beyond = _beyond(brake, needed, *values)
    if beyond is not None:
        return beyond
    # Both ends must be known before the calliper may be called right; the unknown one is asked.
    ends = f"{in_mm(brake.reach_min_mm)} to {in_mm(brake.reach_max_mm)} mm"
    return fits(
        f"the pads come to the middle of the rim's track, the calliper reaches {ends}",
        *values,
        need=Amount("needed reach", needed),
    )


def _beyond(brake: RimBrake, needed: Length, *values: About) -> Finding | None:
    """Return the clash with an end of the calliper's reach that is known."""
    need = Amount("needed reach", needed)
    if brake.known("reach_max_mm") and needed > brake.reach_max_mm:
        return clash(
            "the pads end above the rim and rub the tyre",
            (brake, "reach_max_mm"),
            *values,
            have=Amount("the calliper reaches down to", brake.reach_max_mm),
            need=need,
            remedy=_other(needed),
        )
    if brake.known("reach_min_mm") and needed < brake.reach_min_mm:
        return clash(
            "the pads end below the rim's track",
            (brake, "reach_min_mm"),
            *values,
            have=Amount("the calliper reaches up to", brake.reach_min_mm),
            need=need,
            remedy=_other(needed),
        )
    return None


def _other(needed: Length) -> str:
    classes = callipers_reaching(needed) or f"that reaches {in_mm(needed)} mm"
    return f"take a calliper {classes}" if classes.startswith("that") else f"usual class: {classes}"


@about("wheel_bsd_mm", "bsd_mm")
@interface(
    "brake bosses for wheel size",
    source="bikerhub.net purchasing fork; bikeforums.net 682238; slots of 5 to 12.5 mm from memory",
)
def bosses_for_wheel(holder: Frame | Fork, rim: RimPart, brake: RimBrake | None) -> Finding | None:
    """Bosses are placed for one wheel; another needs its pads higher or lower by half the step.

    Up to 8 mm a usual slot gives, up to 12.5 mm a long one or a boss plate; beyond that no rim
    brake on the bosses meets the rim. A disc brake does not mind.
    """
    if apart(holder, rim):
        return None
    if apart(holder, brake):
        brake = None
    if not _rides_on_bosses(holder, brake):
        return None
    if brake is None and not holder.known("wheel_bsd_mm"):
        return None
    values = ((holder, "wheel_bsd_mm"), (rim, "bsd_mm"))
    shift = pad_shift(holder.wheel_bsd_mm, rim.bsd_mm)
    height = Length(abs(shift))
    if height < SAME_HEIGHT:
        return fits("the bosses stand right for this rim", *values)
    if height > LONG_SLOT:
        return clash(
            "no pad slot reaches from these bosses to the rim",
            *values,
            have=Amount("pads must move", height),
            need=Amount("most that a long slot gives", LONG_SLOT),
            remedy="take a wheel of the bosses' size, or a frame or fork for this wheel",
        )
    return _moved(height, "lower" if shift > 0 else "higher", *values)


def _moved(height: Length, way: str, *values: About) -> Finding:
    """Return what moves the pads by a height that a slot, usual or long, still gives."""
    pads = f"pads {in_mm(height)} mm {way}"
    place = "the pads must lie wholly on the track and clear the tyre"
    have = Amount("pads must move", height)
    if height > USUAL_SLOT:
        return adapts(
            "the pads must move further than a usual slot gives",
            *values,
            have=have,
            adapter=Adapter(what=f"brake with long pad slots, or boss plates: {pads}"),
            change=place,
        )
    near = "within any brake's slot" if height <= EASY_SLOT else "near the end of a usual slot"
    return adapts(
        "the bosses were placed for another rim",
        *values,
        have=have,
        change=f"set the {pads}, {near}; {place}",
    )


def _rides_on_bosses(holder: Frame | Fork, brake: RimBrake | None) -> bool:
    """Return whether the brake, or any brake that the mounts take, is one on bosses."""
    if holder.known("brake_mounts") and BOSSES.issuperset(holder.brake_mounts or ("none",)):
        return True
    return brake is not None and not is_calliper(brake)


RULES = (reach_of_calliper, bosses_for_wheel)
