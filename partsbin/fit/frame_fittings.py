"""What is bolted to a frame: down-tube levers, rack, mudguards, bottle cage."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.cockpit import Shifter
from partsbin.kinds.frame import Frame
from partsbin.kinds.other import BottleCage, Mudguards, Rack
from partsbin.standards.down_tube_levers import BANDS, BOSS_SOURCE, BOSS_TUBE
from partsbin.standards.length import in_mm

PRACTICE = "common practice, no source"
CARBON = "no clip goes on a carbon tube: there use the axle, the seatpost or the handlebar"


@interface("shifter on down tube", source=BOSS_SOURCE)
def shifter_on_down_tube(shifter: Shifter, frame: Frame) -> Finding | None:
    """Down-tube levers have a curved base, made for bosses on a 28.6 mm tube.

    On a thicker tube the base is filed; a flat boss does not take it; a frame without bosses
    takes a band with bosses if one is made for its tube.
    """
    if not shifter.known("mount") or shifter.mount != "downtube":
        return None
    about = ((shifter, "mount"), (frame, "downtube_bosses"))
    bosses = frame.downtube_bosses
    if bosses == "flat":
        return clash(
            "a lever's curved base does not sit on a flat boss",
            *about,
            remedy="take bar or bar-end levers, and cable stops for the bosses",
            source="bikeforums.net t-231963",
        )
    if bosses == "none":
        return _band(frame, *about)
    if frame.known("down_tube_od_mm") and frame.down_tube_od_mm > BOSS_TUBE:
        return adapts(
            "the lever's base digs into a tube thicker than it was made for",
            *about,
            (frame, "down_tube_od_mm"),
            have=Amount("down tube", frame.down_tube_od_mm),
            need=Amount("made for", BOSS_TUBE),
            change="file the base until it sits on the boss alone",
        )
    return fits("lever base and bosses are made for each other", *about)


def _band(frame: Frame, *about: About) -> Finding:
    """Return whether a band with bosses is made for a frame that has none."""
    outside = frame.down_tube_od_mm
    about = (*about, (frame, "down_tube_od_mm"))
    if outside in BANDS:
        band = f"band with lever bosses, {in_mm(outside)} mm"
        return adapts(
            "the frame has no bosses", *about, adapter=Adapter(what=band), source="from memory"
        )
    return clash(
        "the frame has no bosses, and no band is made for its tube",
        *about,
        remedy="take bar or bar-end levers",
        source="from memory",
    )


@interface("rack on frame", source=PRACTICE)
def rack_on_frame(_rack: Rack, frame: Frame) -> Finding | None:
    """Racks are bolted to eyelets, or to clips round the tubes of a metal frame."""
    return _bolted(frame, "rack_eyelets", "clips round the stays, or a clamp with eyes")


@interface("mudguards on frame", source=PRACTICE)
def mudguards_on_frame(_mudguards: Mudguards, frame: Frame) -> Finding | None:
    """Mudguard stays are bolted to eyelets, or to clips round the tubes of a metal frame."""
    return _bolted(frame, "mudguard_eyelets", "clips round the stays")


@interface("bottle cage on frame", source=PRACTICE)
def bottle_cage_on_frame(_cage: BottleCage, frame: Frame) -> Finding | None:
    """Bottle cages are bolted to bosses, or to a band round a tube of a metal frame."""
    return _bolted(frame, "bottle_bosses", "band with bosses round the tube")


def _bolted(frame: Frame, eyes: str, clips: str) -> Finding:
    """Return how a fitting goes on a frame with or without the eyes for it."""
    about = (frame, eyes)
    if getattr(frame, eyes) == "yes":
        return fits("the frame has the eyes for it", about)
    return adapts("the frame has no eyes for it", about, adapter=Adapter(what=clips), change=CARBON)


RULES = (shifter_on_down_tube, rack_on_frame, mudguards_on_frame, bottle_cage_on_frame)
