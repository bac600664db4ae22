"""Frame, fork, and the bearings that are pressed or screwed into them."""

from __future__ import annotations

from partsbin.kinds.attribute import code, length, text, word, yes_no
from partsbin.kinds.brakes import brake_mounts
from partsbin.kinds.condition import Stressed
from partsbin.kinds.kind import Kind
from partsbin.standards import drivetrain_sizes, seat, steerer_sizes, wheel_sizes
from partsbin.standards.length import Length

CODES = (
    "EC30.2-iso EC30.0-jis EC32.7 EC34 EC37 EC44 EC49 ZS41 ZS44 ZS49 ZS56 ZS62 IS41 IS42 IS49 IS52"
)
SHELL = "english-1.370x24 italian-36x24 french-35x1 swiss-35x1 pf41 pf42 pf46 pf37 t47"


def headset_code(measure: str) -> str:
    """Return the attribute of a headset identification code, as in `EC34` or `EC44/40`.

    EC is a cup outside the tube, ZS a cup inside it, IS no cup at all; then the bore, and perhaps
    the steerer or crown race seat. Source: canecreek.com headset-fit-finder; bores 41, 42, 52, 37
    and 32.7 from memory.
    """
    found: str = code(
        r"(EC|ZS|IS)\d\d(\.\d{1,2})?(/\d\d(\.\d{1,2})?)?(-(iso|jis))?",
        CODES,
        measure,
        shape="a headset code",
        capitals=2,
    )
    return found


def bb_shell(measure: str) -> str:
    """Return the attribute of a bottom bracket shell, also told by its bore or the cup's thread."""
    found: str = word(
        f"{SHELL} onepiece-51 spanish-37 mid-41",
        measure,
        measured={
            "34.8": "english-1.370x24",
            "35": "french-35x1 swiss-35x1",
            "36": "italian-36x24",
            "37": "pf37 spanish-37",
            "41": "pf41 mid-41",
            "42": "pf42",
            "46": "pf46",
            "47": "t47",
            "51.3": "onepiece-51",
        },
        source="bikeraceinfo.com/tech/bottom-brackets.html; dansbikestuff.blogspot.com 2013/11; "
        "skatepro BMX bottom brackets; 47 from memory",
    )
    return found


STEERER = word(
    "threaded threadless",
    "look at the top of the steerer: locknut and screw thread, or a plain tube the stem clamps",
)
THREAD = code(
    r"\d\dtpi|m\d\d(\.\d)?x\d(\.\d+)?",
    "24tpi 26tpi m25x1 m26x1",
    "thread gauge on the top 20 mm of the steerer, in good light; 24 and 26 to the inch look alike",
    shape="a steerer thread",
    also={"m25x1.0": "m25x1", "m26x1.0": "m26x1"},
)
CROWN_RACE = length(
    25,
    41,
    "calliper across the fork's seat under the race, or the bore of the race, on two axes",
    steerer_sizes.CROWN_RACES,
)
SPINDLE = word(
    "taper-jis taper-iso splined-8x22-short splined-8x22-long splined-10x21 integrated-24 "
    "integrated-24-22 integrated-30 integrated-28.99 bmx-19 bmx-22 cottered onepiece",
    "count the splines and calliper the spindle at its end, across the flats if it is square",
    measured={
        "12.5": "taper-iso",
        "12.7": "taper-jis",
        "16": "cottered",
        "19": "bmx-19",
        "21": "splined-10x21",
        "22": "splined-8x22-short splined-8x22-long bmx-22",
        "24": "integrated-24 integrated-24-22",
        "28.99": "integrated-28.99",
        "30": "integrated-30",
    },
    source="moultoneer.wordpress.com/2022/03/17; jitetan.com octalink; "
    "accidentalrandonneur.wordpress.com bb92; skatepro BMX; 12.5, 16, 21 and 28.99 from memory",
)
SHELL_WIDTH = length(
    60, 125, "calliper across the shell's two faces, without cups", drivetrain_sizes.SHELL_WIDTHS
)
FRONT_MECH_MOUNTS = "clamp braze-on direct-42.7 direct-22.1"
NATIVE_ROTOR = length(
    120,
    230,
    "the rotor that a calliper bolted on without an adapter is centred over; stamped by the mount "
    "or in the maker's sheet",
    wheel_sizes.ROTORS,
)
BRAKE_REACH = length(
    30,
    120,
    "rule from the middle of the brake bolt hole down to the middle of the rim's braking track",
)
TUNED_WHEEL = length(
    90,
    800,
    "three-digit number on the tyre of the wheel it was built with, where the pads met the rim",
    wheel_sizes.BEAD_SEATS,
)
DROPOUT_SLOT = length(4, 25, "calliper across the slot's parallel sides, paint scraped away, twice")
CLEARANCE = length(
    10,
    160,
    "calliper between the two sides at the narrowest place that the tyre passes, paint to paint",
)


class Frame(Stressed):
    """A frame without its fork."""

    first = ("style", "seat_tube_length_mm", "wheel_bsd_mm")
    caution = (
        "A cracked or bent frame can break while it is ridden. Steel may be straightened or spread "
        "by somebody who can; aluminium, carbon and titanium may not."
    )
    inspection = (
        "no crack at any weld, lug, bridge, bottle boss, dropout or the seat clamp slot",
        "no ripple or bulge behind the head tube, no dent",
        "rear end in line with the head tube, dropouts parallel",
        "serial number there and checked",
    )
    style: str = word(
        "mtb road touring hybrid city bmx folding kids",
        "look at tube shapes, mounts and the wheels it takes",
    )
    material: str = word(
        "steel heat-treated-steel aluminium titanium carbon",
        "a magnet sticks to steel; a sticker names heat-treated tubes; carbon sounds dull",
        also={"aluminum": "aluminium", "alloy": "aluminium", "carbon-fibre": "carbon"},
    )
    seat_tube_length_mm: Length = length(
        100, 750, "tape from the bottom bracket's middle to the top of the seat tube"
    )
    top_tube_length_mm: Length = length(
        200, 750, "tape level from the head tube's middle to the seat tube's middle"
    )
    standover_mm: Length = length(
        200, 1000, "with its wheels on, tape from the floor to the top of the top tube's middle"
    )
    seat_tube_bore_mm: Length = length(
        20,
        36,
        "calliper inside the seat tube 30 mm down, clear of the slot, on two axes; "
        "or read the stamp on the post that came out",
        seat.POSTS,
    )
    seat_tube_od_mm: Length = length(
        22, 60, "calliper round the seat tube on bare metal, on two axes", seat.SEAT_TUBES
    )
    head_tube_upper: str = headset_code(
        "with the cup out, calliper in the top of the head tube on two axes; see whether bearings "
        "sit outside (EC), inside a cup (ZS) or on the frame itself (IS)"
    )
    head_tube_lower: str = headset_code(
        "with the cup out, calliper in the bottom of the head tube on two axes; see whether "
        "bearings sit outside (EC), inside a cup (ZS) or on the frame itself (IS)"
    )
    head_tube_length_mm: Length = length(50, 350, "rule along the bare head tube, cups out")
    bb_shell: str = bb_shell(
        "calliper inside an unthreaded shell; of a threaded one calliper the old cup over its "
        "thread, and note on which side it loosens the wrong way"
    )
    bb_shell_width_mm: Length = SHELL_WIDTH
    rear_spacing_mm: Length = length(
        70,
        230,
        "rule between the inner faces of the rear dropouts, wheel out and unsprung",
        wheel_sizes.OVER_LOCKNUT,
    )
    rear_axle: str = word(
        "qr nutted thru-12",
        "open slots take a quick-release or nutted axle; closed round holes take a 12 mm one",
        also={"quick-release": "qr"},
    )
    brake_mounts: tuple[str, ...] = brake_mounts(
        "look at the seat stays, their bridge and the left dropout; calliper between bolt holes"
    )
    brake_reach_mm: Length = BRAKE_REACH
    native_rotor_mm: Length = NATIVE_ROTOR
    wheel_bsd_mm: Length = TUNED_WHEEL
    dropout_slot_mm: Length = DROPOUT_SLOT
    fork_axle_to_crown_mm: Length = length(
        200,
        700,
        "of the fork that it was built for: tape from the axle's middle straight to the crown race "
        "seat, unloaded",
    )
    tyre_clearance_mm: Length = CLEARANCE
    fd_mount: str = word(
        f"{FRONT_MECH_MOUNTS} none",
        "look at the seat tube: plain and round, a curved tab with one slot, two threaded holes "
        "(calliper their distance), or no place for a front derailleur",
        measured={"22.1": "direct-22.1", "42.7": "direct-42.7"},
        source="hulkbike.com/blog/deraillieur",
    )
    hanger: str = word(
        "integral replaceable none",
        "look at the right dropout: threaded eye of one piece, a bolted piece, or no eye",
    )
    downtube_bosses: str = word(
        "none curved flat",
        "look for lever bosses on the down tube's sides and whether their base follows the tube",
    )
    down_tube_od_mm: Length = length(
        20,
        100,
        "calliper round the down tube near the head, on two axes",
        drivetrain_sizes.DOWN_TUBES,
    )
    chainstay_mm: Length = length(
        250, 650, "tape from the bottom bracket's middle to the rear axle's middle"
    )
    rack_eyelets: str = yes_no("look for threaded eyes at the dropouts and on the seat stays")
    mudguard_eyelets: str = yes_no(
        "look for threaded eyes at the dropouts and a hole in the bridge"
    )
    bottle_bosses: str = yes_no("look for two threaded bosses on the down tube or seat tube")
    serial_number: str = text("read it under the bottom bracket shell, or at head or dropout")


class Fork(Stressed):
    """A fork, rigid or sprung."""

    first = ("steerer_mm", "steerer_length_mm", "wheel_bsd_mm")
    caution = (
        "A fork that breaks throws the rider without warning. Scrap it if bent, cracked, notched "
        "at the crown, or if it is carbon and its history is not known."
    )
    inspection = (
        "blades straight and in line, seen from the side and from the front",
        "no crack or notch at the crown race, crown, dropouts, brake bosses and steerer",
        "steerer thread sound; steerer not cut too short",
        "sprung fork: no play in the bushes, stanchions not pitted",
    )
    steerer: str = STEERER
    steerer_mm: Length = length(
        20,
        45,
        "calliper round the top of the steerer, over the thread, twice",
        steerer_sizes.STEERERS,
    )
    steerer_lower_mm: Length = length(
        24,
        50,
        "calliper round the steerer just above the crown race, twice",
        steerer_sizes.LOWER_STEERERS,
    )
    steerer_bore_mm: Length = length(
        15, 34, "calliper inside the steerer's top, on two axes", steerer_sizes.QUILLS
    )
    steerer_length_mm: Length = length(
        40, 500, "rule from the crown race seat to the top of the steerer"
    )
    steerer_material: str = word(
        "steel aluminium titanium carbon",
        "a magnet sticks to steel; look into the cut end for woven carbon",
        also={"aluminum": "aluminium"},
    )
    material: str = word(
        "steel heat-treated-steel aluminium titanium carbon",
        "hold a magnet to the blades, it sticks to steel; a sticker names heat-treated tubes; "
        "carbon sounds dull",
        also={"aluminum": "aluminium", "alloy": "aluminium", "carbon-fibre": "carbon"},
    )
    thread: str = THREAD
    crown_race_mm: Length = CROWN_RACE
    axle: str = word(
        "qr nutted thru-12 thru-15 thru-20",
        "open slots take a quick-release or nutted axle; calliper a closed round hole",
        also={"quick-release": "qr"},
        measured={"9": "qr nutted", "12": "thru-12", "15": "thru-15", "20": "thru-20"},
        source="hotvehs.com wheel axle; wrenchfu.com axle-nut",
    )
    spacing_mm: Length = length(
        60,
        230,
        "rule between the inner faces of the dropouts, wheel out and unsprung",
        wheel_sizes.OVER_LOCKNUT,
    )
    brake_mounts: tuple[str, ...] = brake_mounts(
        "look at the crown, the blades and the left leg; calliper between bolt holes"
    )
    brake_reach_mm: Length = BRAKE_REACH
    native_rotor_mm: Length = NATIVE_ROTOR
    wheel_bsd_mm: Length = TUNED_WHEEL
    max_wheel_bsd_mm: Length = length(
        90,
        800,
        "largest wheel that turns under the crown with 6 mm of air; its tyre's three-digit number",
        wheel_sizes.BEAD_SEATS,
    )
    dropout_slot_mm: Length = DROPOUT_SLOT
    tyre_clearance_mm: Length = CLEARANCE
    axle_to_crown_mm: Length = length(
        200, 700, "tape from the axle's middle straight to the crown race seat, unloaded"
    )
    travel_mm: Length = length(
        0, 250, "cable tie round a stanchion, then push the fork to its stop, air or spring out"
    )


class Headset(Kind):
    """The steering bearing: cups, races, bearings, and a locknut if it is threaded."""

    first = ("steerer", "steerer_mm", "upper")
    caution = (
        "A loose or wrong headset makes the steering shake or lock. A cup of the wrong standard "
        "cracks the head tube or works loose."
    )
    inspection = (
        "races without dents, bearings turn without a notch in the middle",
        "threads sound and keyed washer there",
    )
    steerer: str = STEERER
    steerer_mm: Length = length(
        20,
        45,
        "calliper inside the upper race or top cap, where the steerer goes through",
        steerer_sizes.STEERERS,
    )
    thread: str = THREAD
    upper: str = headset_code(
        "calliper round the upper cup's pressed skirt, on two axes; see where its bearing sits"
    )
    lower: str = headset_code(
        "calliper round the lower cup's pressed skirt, on two axes; see where its bearing sits"
    )
    crown_race_mm: Length = CROWN_RACE
    stack_mm: Length = length(
        0,
        100,
        "rule the height that it adds above and below the head tube, skirts not counted",
    )


class BottomBracket(Kind):
    """The bearing of the crank axle, with or without a spindle."""

    first = ("shell", "shell_width_mm", "spindle")
    shell: str = bb_shell(
        "read it on the cups, or calliper the cup over its thread or its pressed skirt, and note "
        "which cup has a left-hand thread"
    )
    shell_width_mm: Length = length(
        60,
        125,
        "read it on the unit (as in 68x110), or measure the shell it came from, face to face",
        drivetrain_sizes.SHELL_WIDTHS,
    )
    spindle: str = SPINDLE
    spindle_length_mm: Length = length(
        80, 200, "calliper along the spindle from end to end, bolts out; often printed on the unit"
    )
