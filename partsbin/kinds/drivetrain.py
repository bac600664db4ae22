"""Drivetrain: derailleurs, sprockets, chains, cranks and pedals."""

from __future__ import annotations

from decimal import Decimal

from partsbin.kinds.attribute import count, counts, length, number, word
from partsbin.kinds.cockpit import FRONT_PULL, INDEX_FAMILY
from partsbin.kinds.condition import Stressed
from partsbin.kinds.frame import FRONT_MECH_MOUNTS, SPINDLE
from partsbin.kinds.kind import Kind
from partsbin.kinds.wheels import FREEWHEEL_THREADS, SPLINES, THREAD_SIZES, THREAD_SOURCE
from partsbin.standards import drivetrain_sizes
from partsbin.standards.length import Length

GEARS = "5 6 7 8 9 10 11 12"
PEDAL_THREAD = word(
    "9/16x20 1/2x20 14x1.25",
    "calliper over the pedal's thread, or see the crank: one-piece cranks take 1/2 in, others "
    "9/16 in, old French ones 14 mm and are mostly marked",
    also={"9/16": "9/16x20", "9/16in": "9/16x20", "1/2": "1/2x20", "1/2in": "1/2x20"},
    measured={"12.7": "1/2x20", "14": "14x1.25", "14.29": "9/16x20"},
    source="lfgss.com/comments/8473736; defietssite.nl pedals; smontanaro.net/CR/2003/05/0420",
)
BOLT_CIRCLE = length(
    50,
    170,
    "calliper between two neighbouring bolts' middles, times 1.155 for 3 arms, 1.414 for 4, "
    "1.701 for 5",
    drivetrain_sizes.BOLT_CIRCLES,
)
ARMS = count(3, 8, "count the arms that hold the ring", listed="3 4 5")


class RearDerailleur(Kind):
    """A rear derailleur."""

    first = ("speeds", "index_family", "max_cog")
    ratio: Decimal = number(
        "0.7",
        "3",
        "pull 10 mm of cable, rule how far the cage moves sideways, and divide by 10, twice",
    )
    index_family: str = INDEX_FAMILY
    speeds: int = count(3, 14, "read the number in its model marking", listed=GEARS)
    max_cog: int = count(
        13, 60, "largest sprocket it is rated for, in the maker's sheet", unit="teeth"
    )
    capacity_teeth: int = count(
        6,
        60,
        "rated in the maker's sheet: large less small ring plus large less small sprocket",
        unit="teeth",
    )
    mount: str = word(
        "hanger claw direct",
        "look at its bolt: in a threaded eye, on a plate under the axle, or straight on the frame",
    )


class FrontDerailleur(Kind):
    """A front derailleur."""

    first = ("mount", "clamp_mm", "rings")
    mount: str = word(
        FRONT_MECH_MOUNTS,
        "look behind the cage: a band, a curved foot with one bolt, or two bolts (calliper them)",
        measured={"22.1": "direct-22.1", "42.7": "direct-42.7"},
        source="hulkbike.com/blog/deraillieur",
    )
    clamp_mm: Length = length(
        22, 45, "calliper inside the closed band, on two axes", drivetrain_sizes.DERAILLEUR_BANDS
    )
    cable_routing: str = word(
        "top bottom dual", "see from where the cable reaches its clamp bolt: above, below, or both"
    )
    front_pull: str = FRONT_PULL
    rings: int = count(
        2,
        3,
        "look at the cage: plates of like height are for 2, a deep inner one for 3",
        listed="2 3",
    )
    max_ring: int = count(
        20, 70, "lay its outer plate on a ring of known size: the curves run alike", unit="teeth"
    )
    capacity_teeth: int = count(
        6, 40, "rated in the maker's sheet: largest less smallest ring", unit="teeth"
    )


class SprocketCluster(Kind, abstract=True):
    """Several sprockets on one hub."""

    speeds: int = count(1, 14, "count the sprockets, loose or on the hub", listed=GEARS)
    spacing: str = word(
        "standard italian flat-bar uneven-old",
        "calliper the whole stack, take one sprocket's thickness off, divide by the gaps, and "
        "compare with the table of pitches",
    )
    pitch_mm: Length = length(
        2.5,
        7,
        "calliper from the first sprocket's face to the same face of the last, divide by the gaps",
    )
    cog_thickness_mm: Length = length(
        1, 4, "calliper across the flank of a middle sprocket, above its tooth roots, twice"
    )
    cogs: tuple[int, ...] = counts(8, 60, "count each sprocket's teeth, or read the stamp on it")


class Cassette(SprocketCluster):
    """Sprockets that slide on a splined hub body."""

    first = ("speeds", "cogs", "spline")
    ring_behind_mm: Length = length(
        0,
        5,
        "calliper the loose ring that came behind the largest sprocket; 0 if there was none",
        drivetrain_sizes.RINGS_BEHIND,
    )
    spline: str = word(
        SPLINES,
        "look into the bore: one wide spline and its depth, many fine ones, or equal ones with a "
        "threaded last sprocket",
    )


class Freewheel(SprocketCluster):
    """Sprockets and ratchet in one block that screws on the hub."""

    first = ("speeds", "cogs", "thread")
    thread: str = word(
        FREEWHEEL_THREADS,
        "thread gauge and calliper in the block's bore, or on the hub that it came from, twice",
        measured=THREAD_SIZES,
        source=THREAD_SOURCE,
    )


class Chain(Kind):
    """A chain, or a length of one."""

    first = ("speeds", "links", "wear_percent")
    caution = "A chain that breaks or skips throws the rider forward."
    inspection = ("wear measured; no stiff or twisted link; joining link of its own width",)
    speeds: int = count(
        1,
        14,
        "read the side plates, or calliper over a pin and compare with the table of widths",
        listed="1 5 6 7 8 9 10 11 12",
    )
    inner_mm: Length = length(
        1.8, 5.5, "calliper between the inner plates, twice", drivetrain_sizes.CHAIN_INNERS
    )
    outer_mm: Length = length(4, 12, "calliper over the ends of a pin, on three pins")
    links: int = count(10, 400, "count every half inch, inner and outer links both")
    wear_percent: Decimal = number(
        "0",
        "5",
        "rule over 24 half inches, taut: each 1.5 mm beyond 304.8 mm is 0.5 percent; three places",
        "%",
    )


class Sprocket(Kind):
    """A single sprocket for a hub gear or a single speed."""

    first = ("teeth", "width_in")
    width_in: str = word(
        "3/32 1/8",
        "calliper across a tooth's root: just over 2 mm is 3/32 in, near 3 mm 1/8 in",
        also={'3/32"': "3/32", "3/32in": "3/32", '1/8"': "1/8", "1/8in": "1/8"},
        measured={"2.38": "3/32", "3.175": "1/8"},
        source="bike.bikegremlin.com/3555",
    )
    teeth: int = count(8, 40, "count the teeth, or read the stamp", unit="teeth")


class Chainset(Stressed):
    """The cranks with their rings."""

    first = ("rings", "bcd_mm", "spindle")
    caution = (
        "A crank that breaks throws the rider. Scrap it for a crack at the pedal eye or the "
        "spider, a bend, or a pedal thread that has pulled."
    )
    inspection = (
        "no crack at the pedal eyes, the spindle hole and the spider's arms",
        "arms straight, spindle hole not widened",
        "pedal threads whole",
    )
    rings: tuple[int, ...] = counts(16, 70, "count each ring's teeth, or read the stamp on it")
    bcd_mm: Length = BOLT_CIRCLE
    arms: int = ARMS
    spindle: str = SPINDLE
    spindle_length_mm: Length = length(
        80,
        200,
        "the spindle that it wants: read the maker's sheet, or calliper the one it came off",
    )
    crank_length_mm: Length = length(
        80, 230, "rule from the spindle's middle to the pedal eye's middle; stamped behind the eye"
    )
    chainline_mm: Length = length(
        35,
        75,
        "rule from the seat tube's middle to the middle of the rings, mounted on its own spindle",
    )
    speeds: int = count(
        1, 14, "read it on the crank or rings, or go by the chain that it ran", listed=GEARS
    )
    pedal_thread: str = PEDAL_THREAD


class Chainring(Kind):
    """One chainring."""

    first = ("teeth", "bcd_mm", "arms")
    teeth: int = count(16, 70, "count the teeth, or read the stamp", unit="teeth")
    bcd_mm: Length = BOLT_CIRCLE
    arms: int = ARMS
    speeds: int = count(1, 14, "read it on the ring, or go by the chain that it ran", listed=GEARS)


class Pedals(Kind):
    """A pair of pedals."""

    first = ("pedal_thread",)
    caution = "The left pedal has a left-hand thread. A pedal that breaks off throws the rider."
    inspection = (
        "axles straight, bearings turn without play, cages whole",
        "reflectors there if the bike is sold for the road",
    )
    pedal_thread: str = PEDAL_THREAD
