"""Bottom brackets: the shell of the frame, and the spindle of the crank."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import Chainset
from partsbin.kinds.frame import BottomBracket, Frame
from partsbin.standards.bottom_bracket_shells import (
    BMX,
    BORES,
    CRANKS_IN_SHELLS,
    SAME_BORE,
    SAME_THREAD,
    SHELL_TABLE,
    SHELLS,
    SLEEVED,
)
from partsbin.standards.length import in_mm, mm

TAPERS = frozenset({"taper-jis", "taper-iso"})
SHORT_SPINDLES = frozenset({*TAPERS, "splined-8x22-short", "splined-8x22-long", "cottered"})
"""Spindles whose length places the crank."""
TAPER_SOURCE = "moultoneer.wordpress.com/2022/03/17; thegoldenwrench.blogspot.com/2010/01"
SPLINE_SOURCE = "jitetan.com/term/octalink.html; urbanvelo.org/issue17/p70-71"
BEARINGS = {
    "integrated-24": mm("24"),
    "integrated-24-22": mm("24"),
    "integrated-28.99": mm("28.99"),
    "integrated-30": mm("30"),
}
REDUCER_WALL = mm("1")
"""Thinnest reducer; common practice, no source."""
SHIFT_FITS, SHIFT_USABLE = mm("0.5"), mm("2")
"""How far a crank may stand off its chainline. Source: roadbikereview.com, as for chainline"""


@about("shell", "bb_shell")
@interface("bottom bracket in shell", source=SHELL_TABLE)
def bottom_bracket_in_shell(bracket: BottomBracket, frame: Frame) -> Finding | None:
    """Require the thread or bore of the shell; threads that nearly agree are never tried."""
    values = ((bracket, "shell"), (frame, "bb_shell"))
    own, wanted = bracket.shell, frame.bb_shell
    if own == wanted:
        return fits(f"bearing and shell are of one kind: {SHELLS[own].means}", *values)
    sleeve = SLEEVED.get((own, wanted))
    if sleeve is not None:
        return adapts(
            "the shell's bore is wider than the bearing's cups",
            *values,
            adapter=Adapter(what=sleeve),
            source="common practice, no source",
        )
    pair = {own, wanted}
    if pair == SAME_THREAD:
        cause = "the thread agrees, but the right cup turns the other way"
    elif pair in SAME_BORE:
        cause = "the bore agrees, but depth and bearings differ"
    elif SHELLS[own].held == SHELLS[wanted].held == "thread":
        cause = "the threads differ: the cup binds, strips or falls through"
    elif SHELLS[own].held == SHELLS[wanted].held:
        cause = "the bores differ"
    else:
        cause = "one is screwed and the other pressed in"
    return clash(
        cause,
        *values,
        remedy=f"take a bottom bracket for {wanted} ({SHELLS[wanted].means})",
        source=SHELLS[wanted].source,
    )


@about("shell_width_mm", "bb_shell_width_mm")
@interface("bottom bracket in shell width", source=f"{SHELL_TABLE}; {BORES}")
def bottom_bracket_in_width(bracket: BottomBracket, frame: Frame) -> Finding | None:
    """Require the shell's width; bearings for cranks with a spindle of their own take spacers."""
    values = ((bracket, "shell_width_mm"), (frame, "bb_shell_width_mm"))
    made_for, width = bracket.shell_width_mm, frame.bb_shell_width_mm
    if made_for == width:
        return fits("the bottom bracket is made for that width", *values)
    have, need = Amount("made for", made_for), Amount("shell", width)
    if made_for < width:
        return clash(
            "the bottom bracket is for a narrower shell: its cups or spindle do not reach",
            *values,
            have=have,
            need=need,
        )
    if bracket.spindle in BEARINGS:
        return adapts(
            "the bottom bracket is for a wider shell",
            *values,
            have=have,
            need=need,
            adapter=Adapter(what=f"spacers of {in_mm(made_for - width)} mm together at the cups"),
            source="common practice, no source",
        )
    return clash(
        "the bottom bracket is for a wider shell: its second cup does not tighten",
        *values,
        have=have,
        need=need,
    )


@about("spindle")
@interface("crank on spindle", source=SPLINE_SOURCE)
def crank_on_spindle(chainset: Chainset, bracket: BottomBracket) -> Finding | None:
    """Require the same square or splines, or bearings for the crank's own spindle."""
    values = ((chainset, "spindle"), (bracket, "spindle"))
    crank, spindle = chainset.spindle, bracket.spindle
    if crank == spindle:
        return fits("crank and spindle are of one kind", *values)
    if {crank, spindle} == TAPERS:
        return _on_other_taper(crank, chainset, bracket)
    if crank in BEARINGS and spindle in BEARINGS:
        return _in_bearings(crank, spindle, chainset, bracket)
    return clash(
        "crank and spindle are of different kinds and do not go together",
        *values,
        remedy=f"take a bottom bracket with spindle {crank}, or another chainset",
    )


def _on_other_taper(crank: str, chainset: Chainset, bracket: BottomBracket) -> Finding:
    """Return what mixed tapers mean, of which the sources disagree whether it holds."""
    where = (
        "the crank goes on too far and may bottom out on the spindle's end"
        if crank == "taper-jis"
        else "the crank goes only part of the way on"
    )
    return adapts(
        f"the squares taper alike but end at different sizes: {where}",
        (chainset, "spindle"),
        (bracket, "spindle"),
        have=Amount("crank sits off by", mm("4.5")),
        change="contested: set it on and look; use it only if it neither bottoms out nor stands "
        "short of the spindle's end, and check the chainline",
        source=TAPER_SOURCE,
    )


def _in_bearings(crank: str, spindle: str, chainset: Chainset, bracket: BottomBracket) -> Finding:
    """Return whether a crank's own spindle goes in bearings that were made for another one."""
    values = ((chainset, "spindle"), (bracket, "spindle"))
    source = "accidentalrandonneur.wordpress.com/tag/bb92; bike.bikegremlin.com/1652"
    if (crank, spindle) == ("integrated-24-22", "integrated-24"):
        return adapts(
            "the crank's left end is 22 mm",
            *values,
            adapter=Adapter(what="left bearing of 22 mm"),
            source=source,
        )
    have, need = Amount("spindle", BEARINGS[crank]), Amount("bearing", BEARINGS[spindle])
    if BEARINGS[spindle] - BEARINGS[crank] >= 2 * REDUCER_WALL:
        sizes = f"{in_mm(BEARINGS[spindle])} to {in_mm(BEARINGS[crank])} mm"
        return adapts(
            "the bearings are for a thicker spindle",
            *values,
            adapter=Adapter(what=f"reducers from {sizes} in the bearings"),
            have=have,
            need=need,
            source=source,
        )
    return clash(
        "the spindle does not fit the bearings, which are for another",
        *values,
        have=have,
        need=need,
        source=source,
    )


@about("spindle_length_mm")
@interface("spindle length", source="derived; roadbikereview.com, Bottom bracket sizing")
def spindle_length(chainset: Chainset, bracket: BottomBracket) -> Finding | None:
    """Compare the spindle's length with the one that the crank wants, if both are told.

    Half of a difference moves the chainline. A spindle that places the crank by a stop, or one
    that is part of the crank, has no length that matters.
    """
    if not (chainset.known("spindle_length_mm") and bracket.known("spindle_length_mm")):
        return None
    kinds = {piece.spindle for piece in (chainset, bracket) if piece.known("spindle")}
    if kinds - SHORT_SPINDLES:
        return None
    values = ((chainset, "spindle_length_mm"), (bracket, "spindle_length_mm"))
    have = Amount("spindle", bracket.spindle_length_mm)
    need = Amount("wanted", chainset.spindle_length_mm)
    off = abs(bracket.spindle_length_mm - chainset.spindle_length_mm) // 2
    if off <= SHIFT_FITS:
        return fits("the spindle has the length that the crank wants", *values)
    if off <= SHIFT_USABLE:
        return adapts(
            f"the chainline moves by {in_mm(off)} mm",
            *values,
            have=have,
            need=need,
            change="usable, not ideal: see that the rings and arms clear the frame",
        )
    return clash(
        f"the chainline moves by {in_mm(off)} mm, and the rings or arms may touch the frame",
        *values,
        have=have,
        need=need,
    )


@about("spindle", "bb_shell")
@interface("crank for shell", source=BORES)
def crank_for_shell(
    chainset: Chainset, frame: Frame, bracket: BottomBracket | None
) -> Finding | None:
    """Look up whether a crank with a spindle of its own goes in the frame's shell.

    A bottom bracket for both, among the parts, answers for the reducers.
    """
    if not (chainset.known("spindle") and frame.known("bb_shell")):
        return None
    values = ((chainset, "spindle"), (frame, "bb_shell"))
    crank, shell = chainset.spindle, frame.bb_shell
    if crank == "onepiece" and shell != "onepiece-51":
        return clash("a one-piece crank passes only through a 51.3 mm shell", *values, source=BMX)
    row = CRANKS_IN_SHELLS.get((crank, shell))
    if row is None:
        return None
    if not (row.adapter or row.caution):
        return fits("the crank is made for such a shell", *values, source=row.source)
    if bracket is not None and not row.caution:
        return None
    return adapts(
        "the shell is made for another spindle",
        *values,
        adapter=Adapter(what=row.adapter) if row.adapter else None,
        change=row.caution,
        source=row.source,
    )


RULES = (
    bottom_bracket_in_shell,
    bottom_bracket_in_width,
    crank_on_spindle,
    spindle_length,
    crank_for_shell,
)
