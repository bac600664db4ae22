"""Tyre on rim: the bead seats must be equal, and the bead must suit the rim's edge."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Amount, Finding, clash, fits
from partsbin.kinds.wheels import RimPart, Tyre
from partsbin.standards.bead_seats import BFX, same_seat
from partsbin.standards.length import Length, in_mm, mm
from partsbin.standards.rim_widths import HOOKLESS_BAR, HOOKLESS_SOURCE

GOES_ON_LOOSE = mm(12)
"""Up to so much larger than the rim a tyre can be mounted, and is blown off by its pressure."""

STRAIGHT_SIDE_SOURCE = "BS ISO 5775-2:2015, ulstandardspdf.com"


@about("bsd_mm")
@interface(
    "tyre on rim",
    source="ISO 5775, en.wikipedia.org ISO_5775; sheldonbrown.com/26.html; bicycle-hangar.com",
)
def tyre_on_rim(tyre: Tyre, rim: RimPart) -> Finding | None:
    """Fits only if tyre and rim have the same bead seat diameter; 540 and 541 count as one.

    A bead seat that is not recorded is what the tyre's marking means. Lengths in micrometres.
    """
    seat, wanted = tyre.bsd_mm, rim.bsd_mm
    values: tuple[About, ...] = ((tyre, "bsd_mm"), (rim, "bsd_mm"))
    if tyre.marked is not None:
        values = ((tyre, "marking"), *values)
    doubt = _doubt(tyre, seat)
    if seat == wanted:
        return fits(f"bead seats are equal{doubt}", *values)
    if same_seat(seat, wanted):
        return fits(
            f"540 and 541 mm are one nominal size; see that the bead sits evenly{doubt}",
            *values,
            source=BFX,
        )
    have, need = Amount("tyre", seat), Amount("rim", wanted)
    if seat < wanted:
        return clash(
            f"the tyre is too small for the rim; forced on, its bead is ruined{doubt}",
            *values,
            have=have,
            need=need,
            remedy=_other(wanted),
        )
    return clash(
        f"the tyre is too large for the rim and comes off when it is blown up{doubt}",
        *values,
        have=have,
        need=need,
        dangerous=seat - wanted <= GOES_ON_LOOSE,
        remedy=_other(wanted),
    )


def _other(wanted: Length) -> str:
    return f"take a tyre marked ..-{in_mm(wanted)}"


def _doubt(tyre: Tyre, seat: Length) -> str:
    """Return what the marking says otherwise, empty if it agrees or is not understood."""
    if tyre.marked is None or seat in tyre.marked.seats:
        return ""
    marked = " or ".join(in_mm(other) for other in tyre.marked.seats)
    return f" (the tyre's marking means {marked} mm: see which is true)"


@about("rim_type", "bead", "tubeless")
@interface("tyre bead on rim edge", source=STRAIGHT_SIDE_SOURCE)
def bead_on_edge(tyre: Tyre, rim: RimPart) -> Finding | None:
    """Crochet rims take any bead, old straight-side rims a rigid one, hookless rims tubeless tyres.

    A tube inside is no hindrance on a hookless rim. Its pressure is at most 5 bar.
    """
    kind = (rim, "rim_type")
    if rim.rim_type == "crochet":
        return fits("hooked edges hold every bead", kind)
    if rim.rim_type == "straight-side":
        if tyre.bead == "rigid":
            return fits("a rigid bead holds on straight sides", (tyre, "bead"), kind)
        return clash(
            "a folding bead slips off straight sides under pressure",
            (tyre, "bead"),
            kind,
            dangerous=True,
            remedy="take a tyre with a rigid bead",
        )
    if tyre.tubeless == "yes":
        return fits(
            "a tubeless tyre holds without hooks, with or without a tube, if its maker allows it",
            (tyre, "tubeless"),
            kind,
            need=Amount("highest pressure, or the tyre's own if lower,", HOOKLESS_BAR, "bar"),
            source=HOOKLESS_SOURCE,
        )
    return clash(
        "only a tubeless tyre's bead holds without hooks; another is blown off",
        (tyre, "tubeless"),
        kind,
        dangerous=True,
        remedy="take a tubeless-ready tyre that its maker lists for hookless rims",
        source=HOOKLESS_SOURCE,
    )


RULES = (tyre_on_rim, bead_on_edge)
