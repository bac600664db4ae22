"""The handlebar in the stem's clamp, bare or in a sleeve of two halves."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.cockpit import BarShim, Handlebar, Stem
from partsbin.standards.bar_table import MEANT_FOR_LARGER, SHEET
from partsbin.standards.length import in_mm
from partsbin.standards.sleeves import sleeve_words

CLAMPS = f"{SHEET}; bikeforums.net 985045; retrobike.co.uk t=255183"
ONE_BOLT = "a stem that is closed by one bolt wants the exact size and no sleeve"


@interface("handlebar in stem", source=CLAMPS)
def handlebar_in_stem(bar: Handlebar, stem: Stem) -> Finding | None:
    """Equal sizes fit; a thinner bar takes a sleeve in two halves, a thicker one never goes.

    Sizes in micrometres of the bar's middle and the stem's clamp. A 25.8 mm bar was made for
    26.0 mm stems too.
    """
    about = ((bar, "clamp_mm"), (stem, "bar_clamp_mm"))
    size, bore = bar.clamp_mm, stem.bar_clamp_mm
    if size == bore:
        return fits("bar and clamp are the same size", *about)
    have, need = Amount("bar", size), Amount("clamp", bore)
    if size > bore:
        return clash(
            "the bar is thicker than the clamp, and no sleeve can help",
            *about,
            have=have,
            need=need,
            remedy=f"take a {in_mm(size)} mm stem or a {in_mm(bore)} mm bar",
        )
    if MEANT_FOR_LARGER.get(size) == bore:
        return adapts(
            "the bar was made for this clamp too, but may slip in it",
            *about,
            have=have,
            need=need,
            change=f"tighten it to the stem's torque and test by hand that it holds; {ONE_BOLT}",
            source=f"{SHEET}; forums.thepaceline.net t-64417",
        )
    return adapts(
        "the bar is thinner than the clamp and would turn in it",
        *about,
        have=have,
        need=need,
        adapter=Adapter(
            what=f"sleeve in two halves {sleeve_words(size, bore)}",
            kind="bar_shim",
            values={"inner_mm": size, "outer_mm": bore},
        ),
        change=ONE_BOLT,
    )


@interface("sleeve in stem", source=CLAMPS)
def sleeve_in_stem(shim: BarShim, stem: Stem) -> Finding | None:
    """Outside of the sleeve and clamp are the same size, or it does not go."""
    about = ((shim, "outer_mm"), (stem, "bar_clamp_mm"))
    outer, bore = shim.outer_mm, stem.bar_clamp_mm
    if outer == bore:
        return fits("sleeve and clamp are the same size", *about)
    because = "the sleeve is too thick" if outer > bore else "the sleeve is loose in the clamp"
    return clash(because, *about, have=Amount("sleeve", outer), need=Amount("clamp", bore))


@interface("handlebar in sleeve", source=CLAMPS)
def handlebar_in_sleeve(bar: Handlebar, shim: BarShim) -> Finding | None:
    """Inside of the sleeve and the bar's middle are the same size, or it does not go."""
    about = ((bar, "clamp_mm"), (shim, "inner_mm"))
    size, inner = bar.clamp_mm, shim.inner_mm
    if size == inner:
        return fits("bar and sleeve are the same size", *about)
    because = "the bar is too thick" if size > inner else "the bar is loose in the sleeve"
    return clash(because, *about, have=Amount("bar", size), need=Amount("sleeve", inner))


RULES = (handlebar_in_stem, sleeve_in_stem, handlebar_in_sleeve)
