"""Tyre width on rim: the table of 2006 for crochet rims, the guideline, hookless rims."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Amount, Finding, adapts, clash, fits
from partsbin.kinds.wheels import RimPart, Tyre
from partsbin.standards import rim_widths
from partsbin.standards.length import Length, in_mm
from partsbin.standards.rim_widths import Bounds, Room

MARGINAL = {
    Room.MARGINAL_WIDE: (
        "the tyre is wider than twice the rim's inside",
        "it may squirm and rim pads may rub it: keep the pressure up and see that it clears",
    ),
    Room.MARGINAL_NARROW: (
        "the tyre is narrow for the rim",
        "see that it is listed by its maker for this rim, and look out for stones and kerbs",
    ),
}


def width_of(tyre: Tyre) -> Length:
    """Return a tyre's width as recorded, else as its marking says; asks for it if neither does."""
    if not tyre.known("width_mm") and tyre.marked is not None and tyre.marked.width is not None:
        return tyre.marked.width
    return tyre.width_mm


def named_width(tyre: Tyre) -> About:
    """Return the recorded value that a tyre's width comes from."""
    from_marking = not tyre.known("width_mm") and tyre.marked is not None
    return (tyre, "marking" if from_marking else "width_mm")


def in_inches(tyre: Tyre) -> bool:
    """Return whether a tyre's width is only known from an inch marking."""
    return not tyre.known("width_mm") and tyre.marked is not None and tyre.marked.inches


@about("width_mm", "rim_inner_mm")
@interface("tyre width on rim", source=rim_widths.TABLE_SOURCE)
def tyre_width_on_rim(tyre: Tyre, rim: RimPart) -> Finding | None:
    """Fits inside table and guideline, adapts inside one of them, else clashes; lengths in um.

    A tyre made since 2020 on its own measuring rim is marginal too. What is not known of the rim's
    edge is taken for crochet, which the table is for.
    """
    width, inner = width_of(tyre), rim.rim_inner_mm
    values = (named_width(tyre), (rim, "rim_inner_mm"))
    bounds, source = _bounds(rim, inner, width)
    slack = rim_widths.INCH_ROUNDING if in_inches(tyre) else rim_widths.ROUNDING
    room = bounds.room(width, slack)
    have = Amount("tyre", width)
    if room is Room.GOOD:
        return fits("the rim's inside carries this width", *values, have=have, source=source)
    if room is Room.NARROW and _measured_on(tyre, inner, width):
        return adapts(
            "the tyre is measured on this rim, though the older table has it too narrow",
            *values,
            have=have,
            need=Amount("from", bounds.least),
            change=MARGINAL[Room.MARGINAL_NARROW][1],
            source=rim_widths.MEASURING_SOURCE,
        )
    if room in MARGINAL:
        cause, caution = MARGINAL[room]
        if room is Room.MARGINAL_WIDE and not rim_widths.listed_before_2006(inner, width):
            cause += " and not in the table before 2006"
        need = bounds.good_to if room is Room.MARGINAL_WIDE else bounds.good_from
        return adapts(
            cause,
            *values,
            have=have,
            need=Amount("guideline", need),
            change=caution,
            source=source,
        )
    return _no_room(values, room, bounds, have, source)


def _bounds(rim: RimPart, inner: Length, width: Length) -> tuple[Bounds, str]:
    edge = rim.rim_type if rim.known("rim_type") else "crochet"
    if edge == "hookless":
        return rim_widths.hookless_bounds(inner, width), rim_widths.HOOKLESS_SOURCE
    if edge == "straight-side":
        return rim_widths.guideline(inner, width), rim_widths.GUIDE_SOURCE
    bounds = rim_widths.crochet_bounds(inner, width)
    return bounds, "" if bounds.listed else rim_widths.GUIDE_SOURCE


def _measured_on(tyre: Tyre, inner: Length, width: Length) -> bool:
    return (
        tyre.known("made_year")
        and tyre.made_year >= rim_widths.MEASURING_SINCE
        and rim_widths.on_measuring_rim(inner, width)
    )


def _no_room(
    values: tuple[About, ...], room: Room, bounds: Bounds, have: Amount, source: str
) -> Finding:
    wide = room is Room.WIDE
    cause = (
        "so wide a tyre is not held upright by the rim and may roll off"
        if wide
        else "so narrow a tyre is pulled flat by the rim: it pinches and may come off"
    )
    return clash(
        cause,
        *values,
        have=have,
        need=Amount("widest" if wide else "narrowest", bounds.most if wide else bounds.least),
        remedy=f"take a tyre of {in_mm(bounds.good_from)} to {in_mm(bounds.good_to)} mm",
        source=source,
    )


RULES = (tyre_width_on_rim,)
