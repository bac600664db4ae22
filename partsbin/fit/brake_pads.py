"""Brake pads: for this sort of brake, and thick enough."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Amount, Finding, adapts, clash, fits
from partsbin.kinds.brakes import BrakePads, DiscCalliper, RimBrake
from partsbin.standards.brake_wear import (
    DISC_PAD_LEAST,
    DISC_PAD_SOURCE,
    RIM_PAD_LEAST,
    RIM_PAD_SOURCE,
    Wear,
    pad_wear,
)


def _sort(brake: RimBrake | DiscCalliper) -> str:
    return "rim" if isinstance(brake, RimBrake) else "disc"


@about("for_brake")
@interface("pads in brake", source="common practice, no source")
def pads_in_brake(pads: BrakePads, brake: RimBrake | DiscCalliper) -> Finding | None:
    """Rim pads go in rim brakes, disc pads in disc brakes; the shape is compared by eye."""
    values = ((pads, "for_brake"),)
    if pads.for_brake == _sort(brake):
        return fits("the pads are of this sort of brake; lay them on the old ones", *values)
    return clash(
        f"the pads are for {pads.for_brake} brakes, this is a {_sort(brake)} brake",
        *values,
        remedy=f"take {_sort(brake)} brake pads",
    )


@about("thickness_mm")
@interface("thickness of pads", source=f"{DISC_PAD_SOURCE}; {RIM_PAD_SOURCE}")
def thickness_of_pads(pads: BrakePads, brake: RimBrake | DiscCalliper) -> Finding | None:
    """Lining of 0.5 mm or less on a disc pad, 1 mm or less on a rim pad, is scrap.

    Pads that nobody has measured are a question of inspection, not of fit.
    """
    if not pads.known("thickness_mm"):
        return None
    sort = _sort(brake)
    limit = RIM_PAD_LEAST if sort == "rim" else DISC_PAD_LEAST
    values = ((pads, "thickness_mm"),)
    have, need = Amount("lining", pads.thickness_mm), Amount("scrap at", limit)
    wear = pad_wear(pads.thickness_mm, sort)
    if wear is Wear.PAST:
        return clash(
            "the pads are worn out, metal will soon press on the rim or rotor",
            *values,
            dangerous=True,
            have=have,
            need=need,
            remedy="take new pads",
        )
    if wear is Wear.NEAR:
        return adapts(
            "the pads are thin",
            *values,
            have=have,
            need=need,
            change="usable for a while; better renewed before the bike is handed over",
        )
    return fits("the pads are thick enough", *values, have=have, need=need)


RULES = (pads_in_brake, thickness_of_pads)
