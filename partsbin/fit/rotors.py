"""Rotors: in their calliper, on their hub, and whether they are still thick enough."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.ends import apart
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.brakes import DiscCalliper
from partsbin.kinds.wheels import HubPart, Rotor
from partsbin.standards.brake_wear import ROTOR_SOURCE, Wear, rotor_wear
from partsbin.standards.disc_mounts import WASHERS, lift
from partsbin.standards.length import in_mm

HUB_SOURCE = "brainybiker.com 6-bolt rotors and splined hubs; SAE J2696_201205 abstract"


@about("rotor_mm")
@interface(
    "rotor in calliper",
    source="forum.bikeradar.com t=1590919 disc mounts; 200 and 203 mm from memory",
)
def rotor_in_calliper(rotor: Rotor, calliper: DiscCalliper) -> Finding | None:
    """Give a calliper the rotor it stands for, a larger one with a bracket, none smaller.

    200 and 203 mm are two sizes: 1.5 mm of radius, made up by washers or the right bracket. How
    the rotor is fixed to its hub is nothing to the calliper.
    """
    if not (calliper.known("rotor_mm") or "rotor_mm" in calliper.open_values):
        return None
    values = ((rotor, "diameter_mm"), (calliper, "rotor_mm"))
    stands, size = calliper.rotor_mm, rotor.diameter_mm
    if size == stands:
        return fits("the calliper stands for this rotor size", *values)
    rise = lift(stands, size)
    have, need = Amount("rotor", size), Amount("calliper stands for", stands)
    what = f"bracket for {in_mm(size)} mm"
    if 0 < rise <= WASHERS:
        what = f"{in_mm(rise)} mm washers under the calliper, or a {what}"
    adapter = Adapter(what=what, kind="brake_adapter", values={"rotor_mm": size})
    if rise >= -WASHERS:
        return adapts(
            "the pads would not lie wholly on the rotor",
            *values,
            have=have,
            need=need,
            adapter=adapter,
        )
    return clash(
        "the calliper stands too far out and its pads miss the rotor",
        *values,
        have=have,
        need=need,
        adapter=adapter,
        remedy=f"or take a rotor of {in_mm(stands)} mm",
    )


@about("thickness_mm")
@interface("thickness of rotor", source=ROTOR_SOURCE)
def thickness_of_rotor(rotor: Rotor, _calliper: DiscCalliper) -> Finding | None:
    """Refuse a rotor below its marked least thickness.

    Without a mark the highest and the lowest figure in use bound it. A rotor that nobody has
    measured is a question of inspection, not of fit.
    """
    if not rotor.known("thickness_mm"):
        return None
    values = ((rotor, "thickness_mm"), (rotor, "min_thickness_mm"))
    wear = rotor_wear(rotor.thickness_mm, rotor.__dict__.get("min_thickness_mm"))
    if wear is Wear.NEAR:
        wear = rotor_wear(rotor.thickness_mm, rotor.min_thickness_mm)
    if wear is Wear.WITHIN:
        return fits("the rotor is thick enough", *values)
    return clash(
        "the rotor is worn out: it overheats and can break",
        *values,
        dangerous=True,
        remedy="scrap it",
    )


@interface("rotor on hub", source=HUB_SOURCE)
def rotor_on_hub(rotor: Rotor, hub: HubPart) -> Finding | None:
    """Put a six-bolt rotor on a splined hub by an adapter; a splined one on a bolted hub never.

    The reverse is from memory: the splines need more room than the bolt circle has.
    """
    values = ((rotor, "rotor_mount"), (hub, "rotor_mount"))
    mine, theirs = rotor.rotor_mount, hub.rotor_mount
    if theirs == "none":
        return clash("the hub has no place for a rotor", *values, remedy="take a disc brake hub")
    if mine == theirs:
        return fits("rotor and hub are of one mount", *values)
    if (mine, theirs) == ("six-bolt-44", "splined-lockring"):
        return adapts(
            "the rotor has bolt holes, the hub splines",
            *values,
            adapter=Adapter(what="six-bolt to splined-hub adapter with its lockring and M5 bolts"),
        )
    return clash(
        "the rotor's splines find nothing on a bolted hub, and no adapter exists",
        *values,
        remedy=f"take a {theirs} rotor",
    )


@interface("disc brake on wheel", source="fitro.info and alltoolsforyou.com wheel and fork fit")
def disc_brake_on_wheel(calliper: DiscCalliper, hub: HubPart) -> Finding | None:
    """Require a hub that carries a rotor."""
    if apart(calliper, hub):
        return None
    values = ((hub, "rotor_mount"),)
    if hub.rotor_mount == "none":
        return clash(
            "the hub carries no rotor, so there is nothing to brake on",
            *values,
            remedy="take a wheel with a rotor mount",
        )
    return fits("the hub carries a rotor", *values)


RULES = (rotor_in_calliper, thickness_of_rotor, rotor_on_hub, disc_brake_on_wheel)
