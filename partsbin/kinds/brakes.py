"""Brakes, their pads and fluids, cables and housing."""

from __future__ import annotations

from decimal import Decimal

from partsbin.kinds.attribute import length, number, text, word, words
from partsbin.kinds.kind import Kind
from partsbin.standards import drivetrain_sizes, wheel_sizes
from partsbin.standards.length import Length

BLEED_CAUTION = (
    "Mineral oil and DOT fluid destroy each other's seals, and the brake then fails: use only the "
    "fluid that is printed on the brake. DOT fluid eats paint and skin."
)
PULL_SIZES = {
    "6": "short",
    "7": "short",
    "8": "short",
    "9": "short",
    "10": "short long",
    "12.5": "short long",
    "13.5": "long",
    "15": "long",
    "16.5": "long",
}
"""Cable moved by about 20 degrees of lever; between the two families nothing is sure."""
PULL_SOURCE = "bike.bikegremlin.com/1402; the band from 9 to 13.5 mm is left undecided"
PULL_WAY = (
    "swing the lever about 20 degrees and rule how far the cable end moves: "
    "about 7 to 8 mm is short, about 15 mm long; lever pivot to cable head under 30 mm is short"
)
WHOLE_FLUIDS = word(
    "mineral dot",
    "read it on the lever or the reservoir's lid; never guess by colour",
    also={
        "mineral-oil": "mineral",
        "dot-4": "dot",
        "dot-5.1": "dot",
        "dot4": "dot",
        "dot5.1": "dot",
    },
)
BRAKE_CABLE_HEAD = word(
    "barrel pear",
    "look at the cable's moulded end, or the pocket in the lever: a barrel across the cable, "
    "or a pear along it",
)
SHIFT_CABLE_HEAD = word(
    "large small",
    "calliper the cable's moulded head against a known one; the large one will not enter the "
    "other's pocket",
)
DISC_MOUNTS = "is-51 post-74 post-68 flat-34"
DISC_SIZES = {"34": "flat-34", "51": "is-51", "68": "post-68", "74": "post-74"}
DISC_SOURCE = "bikeman.com 1638 disc mounting; forum.bikeradar.com t=1590919; 34 from memory"
DISC_ALSO = {"is": "is-51", "flat": "flat-34"}
SIDE = word("front rear", "which wheel it stops, read from its bolt length, arch or cable run")


def brake_mounts(measure: str) -> tuple[str, ...]:
    """Return the attribute that lists what brakes a frame or a fork takes."""
    found: tuple[str, ...] = words(
        f"canti-boss u-brake-boss calliper-hole calliper-recessed {DISC_MOUNTS}",
        measure,
        also={
            "caliper-hole": "calliper-hole",
            "caliper-recessed": "calliper-recessed",
            "cantilever-boss": "canti-boss",
            **DISC_ALSO,
        },
    )
    return found


def disc_mount(measure: str) -> str:
    """Return the attribute of one disc brake mount, also told by its hole distance."""
    found: str = word(DISC_MOUNTS, measure, also=DISC_ALSO, measured=DISC_SIZES, source=DISC_SOURCE)
    return found


def rotor_size(measure: str) -> Length:
    """Return the attribute of a rotor's diameter."""
    found: Length = length(120, 230, measure, wheel_sizes.ROTORS)
    return found


class RimBrake(Kind):
    """A brake that presses on the rim, one wheel's worth."""

    first = ("type", "side", "brake_pull")
    caution = (
        "A lever and a brake of different cable pull give no braking or lock the wheel. Pads that "
        "touch the tyre burst it."
    )
    inspection = (
        "arms not bent or cracked, return spring works, no play at the pivots",
        "cable anchor bolt and its washer sound",
        "pads above their wear line and of this brake's fitting",
    )
    type: str = word(
        "linear-pull mini-linear-pull cantilever side-pull dual-pivot centre-pull u-brake",
        "look at arms and cable: two upright arms and one cable across, a straddle cable, or one "
        "body on a single bolt with one or two pivots",
        also={
            "v-brake": "linear-pull",
            "mini-v-brake": "mini-linear-pull",
            "mini-v": "mini-linear-pull",
            "canti": "cantilever",
            "center-pull": "centre-pull",
            "sidepull": "side-pull",
        },
    )
    side: str = SIDE
    reach_min_mm: Length = length(
        20, 130, "rule from the mounting bolt to the pads' middle, pads at the top of their slots"
    )
    reach_max_mm: Length = length(
        20,
        140,
        "rule from the mounting bolt to the pads' middle, pads at the bottom of their slots",
    )
    brake_pull: str = word(
        "long short",
        "rule an arm from its pivot to the cable: about 100 mm takes long pull, about 85 mm and "
        "less, and every other rim brake, short pull",
        measured=PULL_SIZES,
        source=PULL_SOURCE,
    )
    bolt: str = word(
        "nut recessed",
        "look at the mounting bolt: long with an outside nut, or short for a sleeve nut",
    )


class DiscCalliper(Kind):
    """The calliper of a disc brake, worked by cable or by fluid."""

    first = ("mount", "brake_pull", "fluid")
    caution = "Brakes stop the rider. " + BLEED_CAUTION
    inspection = (
        "pistons move evenly, no leak at seals, hose or fittings",
        "mount not cracked, threads sound, right bolts with it",
        "pads thick enough, dry and of this calliper's shape",
    )
    mount: str = disc_mount(
        "calliper between the middles of the two bolt holes: bolts along the axle are IS, "
        "across it post; 34 mm and bolts from below are flat"
    )
    side: str = SIDE
    brake_pull: str = word(
        "long short hydraulic",
        "a hose means hydraulic; of a cable calliper read the maker's mark for road (short) or "
        "flat-bar (long) levers, or rule how far its arm takes the cable",
        measured=PULL_SIZES,
        source=PULL_SOURCE,
    )
    fluid: str = WHOLE_FLUIDS
    rotor_mm: Length = rotor_size("diameter printed on the rotor that it ran on")


class BrakeAdapter(Kind):
    """A bracket that puts a disc calliper on another mount or over a larger rotor."""

    first = ("from_mount", "to_mount", "rotor_mm")
    caution = "A bracket of the wrong rotor size lets the pads run over the rotor's edge."
    from_mount: str = disc_mount("calliper between the holes that go on the frame or fork")
    to_mount: str = disc_mount("calliper between the holes that the brake calliper bolts to")
    rotor_mm: Length = rotor_size("read the rotor size stamped on the bracket")


class PullAdapter(Kind):
    """A pulley in the cable that changes how far it moves, for brakes or for shifting."""

    first = ("factor",)
    caution = "In a brake cable it must be fixed so that it cannot slip, turn or chafe the cable."
    inspection = ("pulley not cracked, cable not frayed where it is clamped",)
    factor: Decimal = number(
        "0.3",
        "4",
        "pull 20 mm of cable in, rule what comes out on the other side, and divide out by in",
    )


class BrakePads(Kind):
    """A pair of pads or blocks."""

    first = ("for_brake", "shape")
    caution = "Oily or worn pads do not stop. Metal showing, or under 0.5 mm of lining, is scrap."
    inspection = ("lining even, dry, uncracked, firm on its plate", "wear line still there")
    shape: str = text("lay them on the old pads, or read the shape's number on the back")
    thickness_mm: Length = length(
        0, 30, "calliper over the lining alone, without the plate, at its thinnest end"
    )
    for_brake: str = word("rim disc", "blocks on a post or shoe are for rims, plates for discs")


class BrakeFluid(Kind):
    """A bottle of brake fluid."""

    first = ("fluid",)
    caution = BLEED_CAUTION
    inspection = ("seal unbroken and date good",)
    fluid: str = word(
        "mineral dot-4 dot-5.1 dot-5-silicone",
        "read the bottle; if the label is gone, do not use it",
        also={
            "mineral-oil": "mineral",
            "dot4": "dot-4",
            "dot5.1": "dot-5.1",
            "dot-5": "dot-5-silicone",
            "dot5": "dot-5-silicone",
        },
    )


class BrakeCable(Kind):
    """An inner cable for a brake."""

    first = ("brake_cable_head", "length_mm")
    caution = "A frayed brake cable breaks when it is needed. Use only sound inners."
    inspection = ("no broken strand, kink or rust along its whole length",)
    brake_cable_head: str = BRAKE_CABLE_HEAD
    diameter_mm: Length = length(1, 2.5, "calliper across the cable on a clean place, twice")
    length_mm: Length = length(100, 10_000, "tape from the head to the end")


class ShiftCable(Kind):
    """An inner cable for a derailleur or a hub gear."""

    first = ("shift_cable_head", "length_mm")
    shift_cable_head: str = SHIFT_CABLE_HEAD
    diameter_mm: Length = length(0.8, 2, "calliper across the cable on a clean place, twice")
    length_mm: Length = length(100, 10_000, "tape from the head to the end")


class Housing(Kind):
    """Outer cable, cut or on a roll."""

    first = ("use", "outer_mm", "length_mm")
    caution = "Shift housing bursts under a brake's pull: never use it on a brake."
    inspection = ("liner and cover uncracked, ends cut square, no kink",)
    use: str = word(
        "brake shift",
        "look at a cut end: one wound flat wire is for brakes, many lengthwise wires for shifting",
    )
    outer_mm: Length = length(
        3, 7, "calliper across the outer cover, twice", drivetrain_sizes.HOUSINGS
    )
    length_mm: Length = length(10, 200_000, "tape along the piece, or along what is on the roll")
