"""Tube in tyre: the size that it is made for, and the width of tyre that it fills."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.tyre_width import in_inches, named_width, width_of
from partsbin.fit.verdict import Amount, Finding, adapts, clash, fits
from partsbin.kinds.wheels import Tube, Tyre
from partsbin.standards import tube_sizes
from partsbin.standards.tube_sizes import Stretch

NOT_LIGHT = "not with a plastic or very light tube, which may not be stretched"
ADAPTED = {
    Stretch.STRETCHED: ("a slightly smaller tube stretches to the tyre", NOT_LIGHT),
    Stretch.EMERGENCY: (
        "the tube must stretch far",
        f"to get home only, and {NOT_LIGHT}; put in the right size before it is sold",
    ),
}


@about("bsd_mm")
@interface("tube in tyre", source=tube_sizes.RULE_SOURCE)
def tube_in_tyre(tube: Tube, tyre: Tyre) -> Finding | None:
    """Fits in its own size and the sizes that interchange; a little smaller it stretches.

    More than 1.5 % larger it folds. Bead seats in micrometres.
    """
    values = ((tube, "bsd_mm"), (tyre, "bsd_mm"))
    way = tube_sizes.stretch(tube.bsd_mm, tyre.bsd_mm)
    have, need = Amount("tube", tube.bsd_mm), Amount("tyre", tyre.bsd_mm)
    if way is Stretch.SAME:
        return fits("the tube is of the tyre's size", *values)
    if way is Stretch.INTERCHANGE:
        return fits(
            "tubes of these two sizes interchange",
            *values,
            have=have,
            need=need,
            source=tube_sizes.source_of(tube.bsd_mm, tyre.bsd_mm),
        )
    if way in ADAPTED:
        cause, caution = ADAPTED[way]
        makeshift = way is Stretch.EMERGENCY
        return adapts(cause, *values, have=have, need=need, change=caution, makeshift=makeshift)
    small = way is Stretch.TOO_SMALL
    return clash(
        "the tube is too small and tears or thins" if small else "the tube is too long and folds",
        *values,
        have=have,
        need=need,
        remedy="take a tube of the tyre's size",
    )


@about("width_min_mm", "width_max_mm", "width_mm")
@interface("tube width in tyre", source=tube_sizes.WIDTH_SOURCE)
def tube_width_in_tyre(tube: Tube, tyre: Tyre) -> Finding | None:
    """Compare the tyre's width with the tube's range.

    Up to 1.3 times its widest a tube serves with a shorter life, beyond that it does not.
    """
    width = width_of(tyre)
    have = Amount("tyre", width)
    wide = (named_width(tyre), (tube, "width_max_mm"))
    narrow = (named_width(tyre), (tube, "width_min_mm"))
    slack = tube_sizes.INCH_ROUNDING if in_inches(tyre) else tube_sizes.ROUNDING
    # What is known decides first: one end of the range is enough for a clash.
    if tube.known("width_min_mm") and width < tube.width_min_mm - slack:
        return clash(
            "the tube is too wide: it folds in the tyre and pinches",
            *narrow,
            have=have,
            need=Amount("from", tube.width_min_mm),
            remedy="take a narrower tube",
        )
    most = tube.width_max_mm
    if width <= most + tube_sizes.ROUNDING:
        if width < tube.width_min_mm - slack:
            return clash("the tube is too wide: it folds in the tyre and pinches", *narrow)
        return fits("the tyre's width is in the tube's range", *wide, (tube, "width_min_mm"))
    times, over = tube_sizes.OVER
    if width * over <= most * times:
        return adapts(
            "the tube is stretched a little thin",
            *wide,
            have=have,
            need=Amount("up to", most),
            change="it will not last as long as one of the right width",
            source=tube_sizes.OVER_SOURCE,
        )
    return clash(
        "the tube would be stretched too thin to last",
        *wide,
        have=have,
        need=Amount("up to", most),
        remedy="take a wider tube",
        source=tube_sizes.OVER_SOURCE,
    )


RULES = (tube_in_tyre, tube_width_in_tyre)
