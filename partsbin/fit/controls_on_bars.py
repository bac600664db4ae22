"""Levers, shifters, grips and plugs on the handlebar, by the diameter where each one sits."""

from __future__ import annotations

from partsbin.fit import aspect
from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.cockpit import (
    BarPlug,
    BrakeLever,
    CombinedLever,
    Grips,
    Handlebar,
    Shifter,
)
from partsbin.kinds.kind import Kind
from partsbin.standards.bar_table import (
    BAR_END_BORE,
    DROP_BAND,
    LARGEST_GRIP_BAND,
    PLUG_PLAY,
    STRAIGHT,
    grip_area,
)
from partsbin.standards.length import Length, in_mm
from partsbin.standards.sleeves import sleeve_words

GRIP_SOURCE = "urbanvelo.org issue 12 p. 70; cyclescribe.blogspot.com 2011-03"
TOPS_SOURCE = "bikeforums.net t-645002"


@aspect.about("bar_mm", "grip_mm")
@interface("control on handlebar", source=GRIP_SOURCE)
def control_on_handlebar(control: BrakeLever | Shifter, bar: Handlebar) -> Finding | None:
    """Band and grip area are the same size; a wider band takes a sleeve, a narrower one is no fit.

    Sizes in micrometres. Controls at the bar's end, on the stem or the frame, and second levers
    on the bar's thick middle, are other interfaces.
    """
    if control.known("mount") and control.mount not in {"grip", "bar-clamp"}:
        return None
    band = control.bar_mm
    if band > LARGEST_GRIP_BAND and _may_be_second(control):
        return None
    size, told = _grip_area(bar)
    about = ((control, "bar_mm"), told)
    have, need = Amount("band", band), Amount("grip area", size)
    if band < size:
        return clash(
            "the band does not close round the bar",
            *about,
            have=have,
            need=need,
            remedy=f"take a {in_mm(size)} mm control",
            source="velo-orange.blogspot.com 2008/02",
        )
    caution = _shape_caution(control, bar, band)
    if band > size:
        return adapts(
            "the band is wider than the bar and would turn on it",
            *about,
            have=have,
            need=need,
            adapter=Adapter(what=f"sleeve {sleeve_words(size, band)}"),
            change=caution,
            source=f"{GRIP_SOURCE}; the sleeve from memory",
        )
    if caution:
        return adapts(
            "band and bar are the same size, but not made for each other's shape",
            *about,
            change=caution,
            source="brainybiker.com bullhorn",
        )
    return fits("band and bar are the same size", *about)


def _may_be_second(control: Kind) -> bool:
    """Return whether a control of unknown mount may be a second lever for the bar's middle."""
    alone = isinstance(control, BrakeLever) and not isinstance(control, CombinedLever)
    return alone and not control.known("mount")


def _grip_area(bar: Handlebar) -> tuple[Length, About]:
    """Return a bar's diameter where the hands hold, and what tells it.

    An unknown one follows from shape, clamp and material where the bar table has one size only.
    """
    if not bar.known("grip_mm") and "grip_mm" not in bar.open_values:
        row = grip_area(
            bar.style if bar.known("style") else "",
            bar.clamp_mm if bar.known("clamp_mm") else None,
            bar.material if bar.known("material") else "",
        )
        if row is not None:
            return row.grip, (bar, "style")
    return bar.grip_mm, (bar, "grip_mm")


def _shape_caution(control: Kind, bar: Handlebar, band: Length) -> str:
    """Return what to mind where a drop-bar lever comes on a bar of another shape, else empty.

    Source: brainybiker.com bullhorn; straight bars from memory.
    """
    if not bar.known("style") or not isinstance(control, BrakeLever) or band < DROP_BAND:
        return ""
    if bar.style == "bullhorn" and isinstance(control, CombinedLever):
        return "the blade may meet the bar before the brake is on: test it before riding"
    if bar.style in STRAIGHT:
        return "a lever for drop bars stands badly on a straight one: test reach and travel"
    return ""


@interface("second lever on handlebar", source=TOPS_SOURCE)
def second_lever_on_handlebar(lever: BrakeLever, bar: Handlebar) -> Finding | None:
    """Lever for the tops: it is the size of the bar's middle, or of the thinner part beside it.

    Sizes in micrometres. A wider band takes a sleeve, a narrower one does not go.
    """
    if isinstance(lever, CombinedLever):
        return None
    if lever.known("mount"):
        if lever.mount != "tops":
            return None
    elif not lever.known("bar_mm") or lever.bar_mm <= LARGEST_GRIP_BAND:
        return None
    band = lever.bar_mm
    size, told = _tops(bar, band)
    about = ((lever, "bar_mm"), told)
    if band == size:
        return fits("band and bar are the same size", *about)
    have, need = Amount("band", band), Amount("bar", size)
    if band < size:
        return clash("the band does not close round the bar", *about, have=have, need=need)
    return adapts(
        "the band is wider than the bar where it goes",
        *about,
        have=have,
        need=need,
        adapter=Adapter(what=f"sleeve {sleeve_words(size, band)}"),
    )


def _tops(bar: Handlebar, band: Length) -> tuple[Length, About]:
    """Return the bar's middle, or its thinner part where the middle is unknown or too thick."""
    if not bar.known("clamp_mm") and bar.known("grip_mm"):
        return bar.grip_mm, (bar, "grip_mm")
    if bar.clamp_mm > band:
        return _grip_area(bar)
    return bar.clamp_mm, (bar, "clamp_mm")


@interface("bar-end shifter in bar", source="parktool.com Bar end shifter service")
def bar_end_shifter_in_bar(shifter: Shifter, bar: Handlebar) -> Finding | None:
    """Want a bore of 19 to 21 mm, where the shifter's plug spreads; the outside says nothing."""
    if not shifter.known("mount") or shifter.mount != "bar-end":
        return None
    about = ((bar, "bore_mm"), (shifter, "mount"))
    least, most = BAR_END_BORE
    bore = Amount("bore", bar.bore_mm)
    if bore.value < least:
        return clash(
            "the bar end is too narrow for the shifter's plug",
            *about,
            have=bore,
            need=Amount("at least", least),
        )
    if bore.value > most:
        return clash(
            "the bar end is too wide for the shifter's plug to hold",
            *about,
            have=bore,
            need=Amount("at most", most),
        )
    return fits("the shifter's plug spreads in this bore", *about, have=bore)


@aspect.about("inner_mm", "grip_mm")
@interface("grips on handlebar", source="velogear.com.au, which grip fits")
def grips_on_handlebar(grips: Grips, bar: Handlebar) -> Finding | None:
    """Grips and grip area are the same size; drop bars take tape."""
    inner = grips.inner_mm
    size, told = _grip_area(bar)
    about = ((grips, "inner_mm"), told)
    if inner == size:
        return fits("grips and bar are the same size", *about)
    have, need = Amount("grips", inner), Amount("grip area", size)
    if inner < size:
        return clash(
            "the grips do not go on this bar",
            *about,
            have=have,
            need=need,
            remedy="take tape for a drop bar, or grips of its size",
        )
    return clash(
        "the grips are loose and come off in the hand",
        *about,
        have=have,
        need=need,
        dangerous=True,
        remedy=f"take {in_mm(size)} mm grips",
    )


@interface("plug in bar end", source="common practice, no source")
def plug_in_bar_end(plug: BarPlug, bar: Handlebar) -> Finding | None:
    """Plug and bar end are of one bore; a plug gives a millimetre either way."""
    about = ((plug, "inner_mm"), (bar, "bore_mm"))
    size, bore = plug.inner_mm, bar.bore_mm
    have, need = Amount("plug", size), Amount("bore", bore)
    if size > bore + PLUG_PLAY:
        return clash("the plug does not go in", *about, have=have, need=need)
    if size < bore - PLUG_PLAY:
        return clash("the plug falls out, and an open bar end cuts", *about, have=have, need=need)
    return fits("the plug holds in this bore", *about)


RULES = (
    control_on_handlebar,
    second_lever_on_handlebar,
    bar_end_shifter_in_bar,
    grips_on_handlebar,
    plug_in_bar_end,
)
