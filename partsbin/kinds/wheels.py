"""Wheels, hubs, rims, spokes, tyres, tubes and what fastens them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Self

from partsbin.kinds.attribute import Attribute, code, count, length, text, word, yes_no
from partsbin.kinds.condition import Stressed
from partsbin.kinds.kind import Kind
from partsbin.standards import wheel_sizes
from partsbin.standards.length import Length
from partsbin.standards.tyre_marking import Marking, read_marking

if TYPE_CHECKING:
    from partsbin.kinds.spec import Spec

SPLINES = (
    "one-wide-spline-short one-wide-spline-35 tall-spline-10 one-wide-spline-36.8 "
    "italian-deep-spline short-spline-thread short-spline-thread-road fine-spline "
    "fine-spline-road equal-spline-threaded"
)
FREEWHEEL_THREADS = "iso-1.375x24 british-1.370x24 italian-35x24tpi french-34.7x1 bmx-30x1"
THREAD_SIZES = {
    "30": "bmx-30x1",
    "34.7": "french-34.7x1",
    "34.80": "british-1.370x24",
    "34.92": "iso-1.375x24",
    "35": "italian-35x24tpi",
}
"""Outside of the thread on the hub; three lie so close that a calliper rarely decides."""
THREAD_SOURCE = "sheldonbrown.com/freewheels.html"
SIDE = word("front rear", "sprockets or their thread make it a rear one")
VALVE = word(
    "schrader presta dunlop",
    "calliper the stem: 6 mm with a small locknut is presta; 8 mm is schrader with a pin inside, "
    "or dunlop with a nut that holds the core",
    measured={"6": "presta", "8": "schrader dunlop"},
    source="en.wikipedia.org Dunlop_valve; handwiki.org Presta valve",
)
ROTOR_MOUNT = word(
    "six-bolt-44 splined-lockring none",
    "look at the hub's left side or the rotor's middle: six bolts, a splined ring with a lockring, "
    "or nothing",
    also={"six-bolt": "six-bolt-44", "6-bolt": "six-bolt-44"},
    measured={"44": "six-bolt-44"},
    source="bike-advisor.com centerlock-or-six-bolts; 44 mm from memory",
)


def bead_seat(measure: str) -> Length:
    """Return the attribute of a bead seat diameter."""
    found: Length = length(90, 800, measure, wheel_sizes.BEAD_SEATS)
    return found


def axle_thread(measure: str) -> str:
    """Return the attribute of an axle's thread: inches by threads to the inch, or millimetres."""
    found: str = code(
        r"(\d+/\d+|\d(\.\d+)?)x\d\d|m?\d\d?(\.\d+)?x\d(\.\d+)?",
        "5/16x24 5/16x26 3/8x24 3/8x26 9x1 10x1 m12x1.0 m12x1.5 m12x1.75 m14x1.5 m15x1.5",
        measure,
        shape="an axle thread",
        also={
            "m9x1": "9x1",
            "9x1.0": "9x1",
            "m10x1": "10x1",
            "10x1.0": "10x1",
            "m12x1": "m12x1.0",
            "12x1.0": "m12x1.0",
            "12x1.5": "m12x1.5",
            "12x1.75": "m12x1.75",
            "15x1.5": "m15x1.5",
        },
    )
    return found


class HubPart(Kind, abstract=True):
    """What a hub decides, loose or in its wheel."""

    side: str = SIDE
    spacing_mm: Length = length(
        60,
        230,
        "calliper over the outer faces of the two locknuts, twice",
        wheel_sizes.OVER_LOCKNUT,
    )
    axle: str = word(
        "qr nutted thru-12 thru-15 thru-20",
        "look at the axle: hollow with a skewer, solid with nuts, or open for a thick loose axle",
        also={"quick-release": "qr", "solid": "nutted"},
    )
    axle_mm: Length = length(
        5, 30, "calliper over the axle's thread, or inside an open hub's ends", wheel_sizes.AXLES
    )
    axle_thread: str = axle_thread("thread gauge on the axle's end; a nut of known thread as check")
    end_caps: str = word(
        "fixed changeable", "pull at the hub's end caps, or see the maker's sheet for other caps"
    )
    rotor_mount: str = ROTOR_MOUNT
    driver: str = word(
        f"{SPLINES} {FREEWHEEL_THREADS} none",
        "look at the right side: splines (rule them from stop to end: 35 or 36.8 mm), a plain "
        "thread (calliper and thread gauge), or nothing",
        measured={
            "31": "one-wide-spline-short",
            "35": "one-wide-spline-35",
            "36.8": "one-wide-spline-36.8",
        },
        source="charigaku.com/16/2183; koovacomponents.com freehub guide; 31 from memory",
    )
    spokes: int = count(
        8, 72, "count the spoke holes, both sides", listed="16 18 20 24 28 32 36 40 48"
    )


class RimPart(Stressed, abstract=True):
    """What a rim decides, loose or in its wheel."""

    bsd_mm: Length = bead_seat(
        "three-digit number on a tyre that fitted, or on the rim; else tape round the bead seat, "
        "divided by 3.1416"
    )
    rim_inner_mm: Length = length(8, 130, "calliper between the rim's walls inside, at two places")
    rim_type: str = word(
        "crochet straight-side hookless",
        "feel the inside of the rim's wall: hooked, plain (old), or plain and marked for tubeless",
    )
    rim_depth_mm: Length = length(
        5, 130, "calliper from the rim's outer edge to where a spoke goes in"
    )
    rim_material: str = word(
        "steel aluminium carbon",
        "a magnet sticks to steel; carbon sounds dull",
        also={"aluminum": "aluminium", "alloy": "aluminium"},
    )
    rim_wall_mm: Length = length(
        0, 8, "rim-wall calliper, or calliper over a ball laid in the hook, at four places; lowest"
    )
    brake_track: str = yes_no("look for a flat side wall, machined or worn bright, for rim pads")
    valve_hole_mm: Length = length(
        4, 12, "calliper in the valve hole, burr wiped off", wheel_sizes.VALVE_HOLES
    )
    spokes: int = count(8, 72, "count the spoke holes", listed="16 18 20 24 28 32 36 40 48")


WHEEL_INSPECTION = (
    "turns true and round, no spoke loose or broken",
    "rim wall over 1.0 mm and flat, no crack at spoke or valve holes, joint whole",
    "hub turns without play or notch, axle straight",
)


class Wheel(RimPart, HubPart):
    """A built wheel."""

    first = ("side", "bsd_mm", "spacing_mm")
    caution = (
        "A rim that bursts or a wheel that comes loose throws the rider. Scrap a rim wall of "
        "1.0 mm or less, or one that is cracked or bulged."
    )
    inspection = WHEEL_INSPECTION
    hub_play: str = yes_no("hold the axle and rock the rim sideways; feel at the rim for a knock")


class Hub(HubPart):
    """A hub without a rim."""

    first = ("side", "spacing_mm", "spokes")
    caution = "A hub whose flange breaks lets the wheel fold."
    inspection = (
        "no crack at the spoke holes of either flange",
        "turns without play or notch, axle straight",
    )


class Rim(RimPart):
    """A rim without a hub."""

    first = ("bsd_mm", "spokes", "rim_inner_mm")
    caution = Wheel.caution
    inspection = ("round and flat on a table", WHEEL_INSPECTION[1])
    erd_mm: Length = length(
        60, 800, "rule two spokes with nipples pulled tight across the rim, at two places"
    )


class Spokes(Kind):
    """Spokes of one length."""

    first = ("length_mm", "gauge_mm")
    length_mm: Length = length(50, 400, "spoke rule from the inside of the elbow to the end")
    gauge_mm: Length = length(1, 4, "calliper across the spoke near its elbow, twice")


class Tyre(Kind):
    """A tyre."""

    first = ("marking", "bsd_mm", "width_mm")
    caution = "A tyre that bursts throws the rider: none with cords, cracks or bulges is sold."
    inspection = (
        "no cord, bulge, deep cut or cracked side wall, tread left",
        "beads whole and even",
    )
    bsd_mm: Length = bead_seat("three-digit number of its marking, as 622 in 37-622")
    marking: str = text("read the side wall: all figures of the size, as printed")
    width_mm: Length = length(
        10, 140, "first number of a marking such as 37-622; or calliper it blown up on a rim"
    )
    made_year: int = count(
        1950, 2099, "four figures in a frame on the side wall: week and year", unit=""
    )
    bead: str = word("rigid folding", "fold it: a wire bead springs back, a soft one stays")
    tubeless: str = yes_no("read the side wall; without such words it is no")
    cracks: str = yes_no("bend the side wall and tread under a lamp, all the way round")
    marked: Marking | None = None
    """What the marking means, if that is known and understood."""

    @classmethod
    def of(cls, spec: Spec) -> Self:
        """Return the piece of a spec; a bead seat that is not recorded is what the marking says.

        Where the marking leaves several, they are what the bead seat may be.
        """
        piece = super().of(spec)
        text = piece.__dict__.get("marking", piece.likely.get("marking"))
        marked = read_marking(text) if isinstance(text, str) else None
        if marked is None:
            return piece
        assumed = "marking" in piece.likely
        piece.marked = None if assumed else marked
        if piece.known("bsd_mm") or "bsd_mm" in piece.open_values:
            return piece
        if assumed:
            piece.likely = {"bsd_mm": marked.seats[0], **piece.likely}
            return piece
        piece.likely = {name: v for name, v in piece.likely.items() if name != "bsd_mm"}
        if len(marked.seats) == 1:
            piece.__dict__["bsd_mm"] = marked.seats[0]
        else:
            piece.open_values = {**piece.open_values, "bsd_mm": marked.seats}
            form = cls.attributes["bsd_mm"].form
            way = "; ".join(filter(None, (cls.attributes["bsd_mm"].measure, marked.tell)))
            piece.__dict__["attributes"] = {**cls.attributes, "bsd_mm": Attribute(form, way)}
        return piece


class Tube(Kind):
    """An inner tube."""

    first = ("bsd_mm", "valve", "width_max_mm")
    bsd_mm: Length = bead_seat("read its print or box; the three-digit number of the tyres named")
    width_min_mm: Length = length(10, 140, "read the smaller width of its print or box")
    width_max_mm: Length = length(10, 140, "read the larger width of its print or box")
    valve: str = VALVE
    valve_length_mm: Length = length(15, 160, "rule from the tube's rubber to the valve's tip")
    removable_core: str = yes_no("look for two flats on the valve's head and try a core key")


class ValveExtender(Kind):
    """A tube that lengthens a valve for a deep rim."""

    first = ("length_mm", "type")
    length_mm: Length = length(5, 160, "rule along the part that stands out")
    type: str = word(
        "in-stem on-core",
        "see where it screws: in place of the core, or on top of the closed valve",
    )


class RimTape(Kind):
    """Tape that covers the spoke holes."""

    first = ("bsd_mm", "width_mm")
    caution = "A tape that is too narrow or brittle lets a spoke hole burst the tube."
    bsd_mm: Length = bead_seat("read its print, or lay it on a rim of known size")
    width_mm: Length = length(4, 110, "rule across the tape, unstretched")


class ValveCap(Kind):
    """A cap for a valve."""

    first = ("valve",)
    valve: str = VALVE


class PumpHead(Kind):
    """The head of a pump, or its adapter."""

    first = ("valve",)
    valve: str = VALVE


class ValveGrommet(Kind):
    """A ring that centres a thin valve in a wide hole."""


class Rotor(Kind):
    """A brake rotor."""

    first = ("diameter_mm", "rotor_mount", "thickness_mm")
    caution = "A thin, cracked or oily rotor does not stop. Scrap it at its marked least thickness."
    inspection = (
        "thicker than its marked least thickness, at four places",
        "no crack at arms or holes, not bent, clean of oil",
    )
    rotor_mount: str = ROTOR_MOUNT
    diameter_mm: Length = length(
        120, 230, "rule across the rotor, or read the figure etched on it", wheel_sizes.ROTORS
    )
    thickness_mm: Length = length(
        0.5, 4, "micrometer on the braking track, clear of the edge, at four places; lowest"
    )
    min_thickness_mm: Length = length(0.5, 4, "read the figure after 'min' etched on the rotor")


FASTENING_CAUTION = "A wheel that comes out throws the rider: it must clamp and mark the dropout."


class Skewer(Kind):
    """A quick-release skewer."""

    first = ("side", "spacing_mm")
    caution = FASTENING_CAUTION
    inspection = ("rod straight, cam and lever uncracked, springs there, nut's thread sound",)
    side: str = word("front rear", "the longer of a pair is the rear one")
    spacing_mm: Length = length(
        60,
        230,
        "rule from the lever's face to the nut's face, closed on the hub that it came from; less "
        "the dropouts' thickness",
        wheel_sizes.OVER_LOCKNUT,
    )


class AxlePart(Kind, abstract=True):
    """What must agree between an axle and its nuts."""

    thread: str = axle_thread(
        "thread gauge on the thread, and a known nut or axle as check: 24 and 26 to the inch and "
        "1 mm look alike"
    )
    diameter_mm: Length = length(5, 30, "calliper over the thread, twice", wheel_sizes.AXLES)


class AxleNut(AxlePart):
    """A nut that holds a wheel."""

    first = ("thread",)
    caution = FASTENING_CAUTION
    inspection = ("thread whole, flats not rounded, washer with it",)


class Axle(AxlePart):
    """A loose axle."""

    first = ("thread", "diameter_mm")
    caution = FASTENING_CAUTION
    inspection = ("straight, rolled on glass; thread whole; no notch",)
