"""Disc callipers on frames and forks: the mount, the bracket, and the rotor a mount begins with."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.ends import apart, end_of
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.brakes import BrakeAdapter, DiscCalliper
from partsbin.kinds.frame import Fork, Frame
from partsbin.kinds.wheels import Rotor
from partsbin.standards.disc_mounts import (
    BRACKETS,
    DISC_MOUNTS,
    SMALLEST_IS,
    SMALLEST_IS_SOURCE,
    SPACING_SOURCE,
    WASHERS,
    lift,
)
from partsbin.standards.length import in_mm

SIZE_SOURCE = "forum.bikeradar.com t=1590919 disc mounts; ja.bicycles.asklobster.com/posts/44161"


@about("mount", "brake_mounts")
@interface("disc calliper on frame or fork", source=SPACING_SOURCE)
def calliper_on_mount(
    calliper: DiscCalliper, holder: Frame | Fork, rotor: Rotor | None
) -> Finding | None:
    """Bolt a calliper to its own mount, to another one only where a bracket is made for it.

    The bracket must be made for the rotor too, if one is known.
    """
    if apart(calliper, holder):
        return None
    values = ((calliper, "mount"), (holder, "brake_mounts"))
    present = [mount for mount in holder.brake_mounts if mount in DISC_MOUNTS]
    if not present:
        return clash(
            f"there is no place for a disc calliper on the {holder.word}",
            *values,
            remedy="take a rim brake, or another frame or fork; mounts are not added",
        )
    wanted = calliper.mount
    if wanted in present:
        return fits("the mounts are of one kind", *values)
    mount = next((m for m in present if (m, wanted) in BRACKETS), present[0])
    bracket = BRACKETS.get((mount, wanted))
    adapter = _bracket(mount, wanted, rotor)
    if bracket is not None:
        return adapts(
            "the bolt holes are of another kind",
            *values,
            adapter=adapter,
            change=bracket.caution,
            source=bracket.source,
        )
    return clash(
        "the bolt holes do not meet, and there is no ordinary bracket between them",
        *values,
        adapter=adapter,
        remedy=f"or take a calliper with {mount} mount",
    )


def _bracket(mount: str, wanted: str, rotor: Rotor | None) -> Adapter:
    """Return the bracket between two mounts, for the rotor if its size is known."""
    values: dict[str, str | int] = {"from_mount": mount, "to_mount": wanted}
    what = f"bracket from {mount} to {wanted}"
    if rotor is not None and rotor.known("diameter_mm"):
        values["rotor_mm"] = rotor.diameter_mm
        what += f" for a {in_mm(rotor.diameter_mm)} mm rotor"
    return Adapter(what=what, kind="brake_adapter", values=values)


@about("to_mount", "mount")
@interface("disc calliper on bracket", source=SPACING_SOURCE)
def calliper_on_bracket(calliper: DiscCalliper, bracket: BrakeAdapter) -> Finding | None:
    """Require the calliper's mount to be the one that the bracket offers."""
    values = ((calliper, "mount"), (bracket, "to_mount"))
    if calliper.mount == bracket.to_mount:
        return fits("the bracket offers the calliper's mount", *values)
    return clash(
        "the bolt holes do not meet",
        *values,
        remedy=f"take a bracket to {calliper.mount}",
    )


@about("native_rotor_mm", "diameter_mm")
@interface("rotor size on mount", source=SIZE_SOURCE)
def rotor_on_mount(rotor: Rotor, holder: Frame | Fork) -> Finding | None:
    """Allow a post or flat mount its own rotor bare, larger ones by a bracket, none smaller.

    The two-tab mount has no size of its own, but a smallest: 160 mm in front, 140 mm at the rear.
    """
    mounts: tuple[str, ...] = ()
    if holder.known("brake_mounts"):
        mounts = tuple(mount for mount in holder.brake_mounts if mount in DISC_MOUNTS)
        if not mounts:
            return None
        if mounts == ("is-51",):
            return _on_two_tabs(rotor, holder)
    values = ((rotor, "diameter_mm"), (holder, "native_rotor_mm"))
    native, size = holder.native_rotor_mm, rotor.diameter_mm
    have, need = Amount("rotor", size), Amount("mount begins with", native)
    if size == native:
        return fits("the mount is made for this rotor size", *values)
    if size < native:
        return clash(
            "no bracket brings a calliper further in: its pads would miss the smaller rotor",
            *values,
            have=have,
            need=need,
            remedy=f"take a rotor of {in_mm(native)} mm or more",
        )
    wanted: dict[str, str | int] = {"rotor_mm": size}
    if len(mounts) == 1:
        wanted["from_mount"] = mounts[0]
    rise = lift(native, size)
    return adapts(
        f"the calliper must stand {in_mm(rise)} mm further out",
        *values,
        have=have,
        need=need,
        adapter=Adapter(
            what=_lifter(rise, "flat-34" in mounts, holder) + f" for {in_mm(size)} mm",
            kind="brake_adapter",
            values=wanted,
        ),
        change="see in the maker's sheet that the frame or fork may carry so large a rotor",
    )


def _lifter(rise: int, flat: bool, holder: Frame | Fork) -> str:
    """Return what lifts a calliper by so much."""
    if rise <= WASHERS:
        return f"{in_mm(rise)} mm washers under the calliper, or a bracket"
    if flat and end_of(holder) == "front":
        return "mounting plate turned over, or a bracket"
    return "bracket"


def _on_two_tabs(rotor: Rotor, holder: Frame | Fork) -> Finding:
    # A larger own size on record goes before the table's smallest.
    smallest = max(SMALLEST_IS[end_of(holder)], holder.__dict__.get("native_rotor_mm", 0))
    size = rotor.diameter_mm
    values = ((rotor, "diameter_mm"), (holder, "brake_mounts"))
    have, need = Amount("rotor", size), Amount("smallest", smallest)
    if size < smallest:
        return clash(
            "the two-tab mount stands too far out for so small a rotor",
            *values,
            have=have,
            need=need,
            remedy=f"take a rotor of {in_mm(smallest)} mm or more",
            source=SMALLEST_IS_SOURCE,
        )
    return fits(
        "the rotor is not below the mount's smallest size",
        *values,
        have=have,
        need=need,
        source=SMALLEST_IS_SOURCE,
    )


RULES = (calliper_on_mount, calliper_on_bracket, rotor_on_mount)
