"""Hydraulic brakes: lever, calliper and bottle must be of one kind of fluid."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.brake_pull import is_cabled
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Finding, clash, fits
from partsbin.kinds.brakes import BrakeFluid, DiscCalliper
from partsbin.kinds.cockpit import BrakeLever
from partsbin.standards.brake_fluids import SEALS, SOURCE, SYSTEM_OF


@about("fluid")
@interface("fluid of lever and calliper", source=SOURCE, vital=True)
def fluid_of_lever_and_calliper(lever: BrakeLever, calliper: DiscCalliper) -> Finding | None:
    """Both must be made for mineral oil, or both for DOT fluid; nothing in between exists."""
    if is_cabled(lever) or is_cabled(calliper):
        return None
    values = ((lever, "fluid"), (calliper, "fluid"))
    if lever.fluid == calliper.fluid:
        return fits("both are made for one kind of fluid", *values)
    return clash(
        "whichever fluid is filled in destroys the seals of one of the two, and the brake fails",
        *values,
        dangerous=True,
        remedy="take lever and calliper of one fluid",
    )


@about("fluid")
@interface("brake fluid in brake", source=f"{SOURCE}; bike-advisor.com mineral oil and DOT (marks)")
def fluid_in_brake(bottle: BrakeFluid, part: BrakeLever | DiscCalliper) -> Finding | None:
    """Mineral oil goes in mineral brakes, DOT 4 or 5.1 in DOT brakes, silicone in neither."""
    if is_cabled(part):
        return None
    values = ((bottle, "fluid"), (part, "fluid"))
    filled = SYSTEM_OF[bottle.fluid]
    if filled == "silicone":
        return clash(
            "silicone fluid is for no bicycle brake and does not mix with DOT 4 or 5.1",
            *values,
            dangerous=True,
            remedy="fill in what is printed on the brake",
        )
    if filled == part.fluid:
        return fits(
            "the bottle is of the brake's kind; where a thin mineral oil is marked on the brake, "
            "only that",
            *values,
        )
    return clash(
        f"the fluid destroys the brake's {SEALS[part.fluid]}, and the brake fails",
        *values,
        dangerous=True,
        remedy="fill in what is printed on the brake; if it was filled wrongly, renew all seals",
    )


@about("fluid")
@interface("brake fluids mixed", source=SOURCE)
def fluids_mixed(bottle: BrakeFluid, other: BrakeFluid) -> Finding | None:
    """DOT 4 and DOT 5.1 may be mixed; mineral oil, glycol and silicone never."""
    values = ((bottle, "fluid"), (other, "fluid"))
    if SYSTEM_OF[bottle.fluid] == SYSTEM_OF[other.fluid]:
        return fits("fluids of one kind", *values)
    return clash(
        "the two must never meet in one brake",
        *values,
        dangerous=True,
        remedy="keep one kind, with its own bleed tools",
    )


RULES = (fluid_of_lever_and_calliper, fluid_in_brake, fluids_mixed)
