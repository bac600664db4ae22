"""Rim tape on rim: of its size, and wide enough for the holes but not under the beads."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Amount, Finding, adapts, clash, fits
from partsbin.kinds.wheels import RimPart, RimTape
from partsbin.standards.length import mm

PRACTICE = "common practice, no source"
MOST_NARROWER = mm(4)
"""A tape up to so much narrower than the rim's inside cannot slip off its holes."""

MOST_WIDER = mm(3)
"""A tape up to so much wider lies up the walls, as tubeless tape does on purpose."""

SAME = mm(8)
"""Tapes of 622 and 630 mm stretch to each other."""


@about("bsd_mm")
@interface("rim tape on rim", source=PRACTICE)
def tape_on_rim(tape: RimTape, rim: RimPart) -> Finding | None:
    """Require a tape of the rim's size; a slightly smaller one stretches on."""
    values = ((tape, "bsd_mm"), (rim, "bsd_mm"))
    if tape.bsd_mm == rim.bsd_mm:
        return fits("tape and rim are of one size", *values)
    if 0 < rim.bsd_mm - tape.bsd_mm <= SAME:
        return adapts(
            "the tape is a little short",
            *values,
            change="stretch it on evenly and see that every hole is covered",
        )
    return clash(
        "the tape slips about" if tape.bsd_mm > rim.bsd_mm else "the tape does not go round",
        *values,
        have=Amount("tape", tape.bsd_mm),
        need=Amount("rim", rim.bsd_mm),
    )


@about("width_mm", "rim_inner_mm")
@interface("rim tape width", source=PRACTICE)
def tape_width(tape: RimTape, rim: RimPart) -> Finding | None:
    """Want a tape as wide as the rim's inside or 4 mm less; up to 3 mm more is marginal."""
    values = ((tape, "width_mm"), (rim, "rim_inner_mm"))
    have, need = Amount("tape", tape.width_mm), Amount("rim inside", rim.rim_inner_mm)
    over = tape.width_mm - rim.rim_inner_mm
    if -MOST_NARROWER <= over <= 0:
        return fits("the tape covers the rim's bed", *values)
    if 0 < over <= MOST_WIDER:
        return adapts(
            "the tape lies up the walls",
            *values,
            have=have,
            need=need,
            change="as tubeless tape it may; under a tube trim it so that no bead sits on it",
        )
    if over < 0 and tape.width_mm * 2 >= rim.rim_inner_mm:
        return adapts(
            "the tape is narrow for the rim",
            *values,
            have=have,
            need=need,
            change="lay it in the middle and see that it overlaps every spoke hole on both sides",
        )
    return clash(
        "the tape lifts the beads" if over > 0 else "the tape slips and bares the spoke holes",
        *values,
        have=have,
        need=need,
    )


RULES = (tape_on_rim, tape_width)
