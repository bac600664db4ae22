"""Lever and brake: whether the cable that the lever pulls is the cable that the brake wants."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, Trial, Verdict, clash, fits
from partsbin.kinds.brakes import DiscCalliper, PullAdapter, RimBrake
from partsbin.kinds.cockpit import BrakeLever, CombinedLever
from partsbin.standards.brake_pull import (
    DISC_CALLIPERS,
    LEVERS,
    PULLEYS,
    RIM_BRAKES,
    SOURCE,
    STATED,
    family,
    works,
)
from partsbin.standards.length import Length, mm

DROP_BAR = mm(23.8)
NAMED_BY_PULL = frozenset({"linear-pull", "mini-linear-pull"})
"""Types that the arm's length tells apart: a stated pull of the other kind contradicts them."""

PULLEY_NAMES = {
    "long": "pulley in the brake cable, about 2 out for 1 in",
    "short": "pulley in the brake cable, about 1 out for 2 in",
}
WEAK = {
    "long": "the lever runs out of travel before the pads press",
    "short": "the lever feels hard and the brake is weak",
}
"""What happens at a brake of each family with a lever of the other."""

FREED = (
    "; a combined lever fixes brake pull, shifting and bar together: a plain brake lever with a "
    "bar-end or down-tube shifter frees them"
)


def is_hydraulic(piece: BrakeLever | DiscCalliper) -> bool:
    """Return whether a lever or calliper is known to work by fluid."""
    known = piece.__dict__
    pull: str = known.get("brake_pull", "hydraulic" if "fluid" in known else "")
    return pull == "hydraulic"


def is_cabled(piece: BrakeLever | DiscCalliper) -> bool:
    """Return whether a lever or calliper is known to work by cable."""
    known = piece.__dict__
    cabled = known.get("brake_pull", "") in LEVERS
    return cabled or ("brake_cable_head" in known and not is_hydraulic(piece))


@about("brake_pull", "type", "fluid")
@interface("brake lever with brake", source=SOURCE, vital=True)
def lever_with_brake(lever: BrakeLever, brake: RimBrake | DiscCalliper) -> Finding | None:
    """Lever pull by brake pull must lie within 0.8 to 1.25; 7 and 8 mm mix, 15 mm does not.

    A mismatch is dangerous either way. A pulley in the cable mends it.
    """
    if isinstance(brake, RimBrake):
        if _contradicts(brake):
            trial = Trial(
                rule=lever_with_brake, pieces=(lever, brake), at=1, attribute="brake_pull"
            )
            return Finding(verdict=Verdict.MEASURE, because="", open=(trial,))
        return _cable_brake(lever, brake, _rim_brake_wants(brake))
    if is_hydraulic(brake) or brake.brake_pull == "hydraulic":
        return _hydraulic_calliper(lever, brake)
    return _cable_brake(lever, brake, DISC_CALLIPERS[brake.brake_pull])


def _contradicts(brake: RimBrake) -> bool:
    """Return whether the brake's type and its stated pull cannot both be right."""
    if not brake.known("type", "brake_pull") or brake.type not in NAMED_BY_PULL:
        return False
    return family(RIM_BRAKES[brake.type]) != brake.brake_pull


def _rim_brake_wants(brake: RimBrake) -> Length:
    """Return the cable that a rim brake wants; its own stated pull goes before its type."""
    if not brake.known("brake_pull"):
        return RIM_BRAKES[brake.type]
    if brake.known("type") and family(RIM_BRAKES[brake.type]) == brake.brake_pull:
        return RIM_BRAKES[brake.type]
    return STATED[brake.brake_pull]


def _hydraulic_calliper(lever: BrakeLever, brake: DiscCalliper) -> Finding:
    values = ((lever, "brake_pull"), (brake, "brake_pull"))
    if is_hydraulic(lever) or (not is_cabled(lever) and lever.brake_pull == "hydraulic"):
        return fits("both work by fluid", *values)
    return clash(
        "a cable cannot work a hydraulic calliper: the lever has no hose and no piston",
        *values,
        remedy="take a hydraulic lever of the calliper's fluid, or a cable calliper",
    )


def _cable_brake(lever: BrakeLever, brake: RimBrake | DiscCalliper, wanted: Length) -> Finding:
    stated = "brake_pull" if brake.known("brake_pull") else "type"
    values = ((lever, "brake_pull"), (brake, stated))
    brake_family = family(wanted)
    if is_hydraulic(lever):
        return clash(
            "a hydraulic lever pulls no cable",
            *values,
            remedy=f"take a cable lever of {brake_family} pull",
        )
    if brake_family == "long" and _is_drop_bar_body(lever):
        return clash(
            "a drop-bar shifter body pulls short cable or works by fluid, the brake wants neither",
            *values,
            dangerous=True,
            need=Amount("the brake wants about", wanted),
            remedy=f"take a brake for short pull{FREED}",
        )
    pull = lever.brake_pull
    if pull not in LEVERS:
        return clash("a hydraulic lever pulls no cable", *values)
    if works(pull, wanted):
        return fits(
            "the lever pulls the cable that the brake wants",
            *values,
            have=_pulls(pull),
            need=Amount("the brake wants about", wanted),
        )
    return _mismatch(lever, pull, wanted, *values)


def _is_drop_bar_body(lever: BrakeLever) -> bool:
    """Return whether it is a drop-bar shifter body, which pulls short cable or works by fluid."""
    if not isinstance(lever, CombinedLever) or lever.known("brake_pull"):
        return False
    return lever.__dict__.get("bar_mm") == DROP_BAR or lever.__dict__.get("front_pull") == "road"


def _pulls(pull: str) -> Amount:
    least, most = LEVERS[pull]
    return Amount("the lever pulls about", (least + most) // 2)


def _mismatch(
    lever: BrakeLever,
    pull: str,
    wanted: Length,
    *values: tuple[BrakeLever | RimBrake | DiscCalliper, str],
) -> Finding:
    brake_family = family(wanted)
    return clash(
        f"the cable pulls do not match: {WEAK[brake_family]}",
        *values,
        dangerous=True,
        have=_pulls(pull),
        need=Amount("the brake wants about", wanted),
        adapter=Adapter(
            what=PULLEY_NAMES[brake_family],
            kind="pull_adapter",
            values={"factor": PULLEYS[pull, brake_family]},
        ),
        remedy=f"or take a lever of {brake_family} pull, or a brake for {pull} pull"
        + (FREED if isinstance(lever, CombinedLever) else ""),
    )


@about("factor")
@interface(
    "pulley between brake lever and brake",
    source=f"{SOURCE}; sheldonbrown.com/drivetrain-mixing.shtml",
)
def pulley_between(
    lever: BrakeLever, pulley: PullAdapter, brake: RimBrake | DiscCalliper
) -> Finding | None:
    """Leave a brake pulley, about 2 or about 0.5, out between lever and brake that match bare.

    Pulleys of other factors are for shifting and say nothing here.
    """
    bare = lever_with_brake(lever, brake)
    if bare is None or bare.verdict is not Verdict.FITS or not is_cabled(lever):
        return None
    factor = pulley.factor
    if not any(least <= factor <= most for least, most in PULLEYS.values()):
        return None
    return clash(
        "lever and brake match without the pulley; with it the pull is wrong",
        (lever, "brake_pull"),
        (pulley, "factor"),
        (brake, "brake_pull" if brake.known("brake_pull") else "type"),
        dangerous=True,
        remedy="leave the pulley out",
    )


RULES = (lever_with_brake, pulley_between)
