"""Cockpit: bars, stems, grips, brake levers and shifters."""

from __future__ import annotations

from decimal import Decimal

from partsbin.kinds.attribute import count, length, number, word, yes_no
from partsbin.kinds.brakes import (
    BRAKE_CABLE_HEAD,
    PULL_SIZES,
    PULL_SOURCE,
    PULL_WAY,
    SHIFT_CABLE_HEAD,
    WHOLE_FLUIDS,
)
from partsbin.kinds.condition import Stressed
from partsbin.kinds.kind import Kind
from partsbin.standards import bar_sizes, steerer_sizes
from partsbin.standards.length import Length

BAND = length(
    20,
    36,
    "calliper inside the closed band, or round the bar where it sat, on two axes",
    bar_sizes.BANDS,
)
INDEX_FAMILY = word(
    "ratio-1.7 ratio-1.9 ratio-1.2 ratio-1.1-flat-11 ratio-1.12-flat-11 ratio-1.4-road-11 "
    "ratio-1.4-road-10 ratio-1.1 ratio-1.3 italian-1.4 italian-1.5 uneven-old",
    "rule five clicks of cable at the shifter, divide by five, compare with the table of families; "
    "for a derailleur rule how far the cage moves for 10 mm of cable",
)
FRONT_PULL = word(
    "road flat-bar",
    "levers for drop bars move the front cable less than flat-bar ones; see what it came with",
)


class Handlebar(Stressed):
    """A handlebar."""

    first = ("style", "clamp_mm", "width_mm")
    caution = (
        "A bar that breaks throws the rider. Scrap one that is bent, cracked, notched at the clamp "
        "or corroded; plug both ends; a carbon bar of unknown history is not sold."
    )
    inspection = (
        "tape and grips off, no corrosion, crack or score, most of all at the clamp's edges",
        "straight and even on both sides",
        "both ends take a plug",
    )
    style: str = word(
        "flat riser swept drop bullhorn",
        "lay it on a bench and look: straight, raised, swept back, dropped or forward",
    )
    clamp_mm: Length = length(
        20, 37, "calliper in the bar's middle where the stem clamps, on two axes", bar_sizes.CLAMPS
    )
    grip_mm: Length = length(
        18, 26, "calliper where the grips or levers sit, on two axes", bar_sizes.GRIPS
    )
    bore_mm: Length = length(8, 24, "calliper inside the bar's open end, on two axes")
    width_mm: Length = length(250, 1000, "tape from end to end, or hook to hook of a drop bar")
    material: str = word(
        "steel aluminium titanium carbon",
        "a magnet sticks to steel; look into the open end for woven carbon",
        also={"aluminum": "aluminium", "alloy": "aluminium"},
    )


class BarShim(Kind):
    """A sleeve, mostly in two halves, between a thin bar and a wide clamp."""

    first = ("inner_mm", "outer_mm")
    caution = "A sleeve of the wrong wall lets the bar turn in the stem."
    inner_mm: Length = length(20, 36, "calliper inside, closed and unsprung", bar_sizes.CLAMPS)
    outer_mm: Length = length(20, 38, "calliper outside, closed and unsprung", bar_sizes.CLAMPS)


class Stem(Stressed):
    """A stem, with a quill or clamped on a threadless steerer."""

    first = ("type", "bar_clamp_mm", "length_mm")
    caution = (
        "A stem that breaks or slips throws the rider. Keep the insertion mark out of sight, use "
        "the maker's torque, scrap one that is bent or cracked."
    )
    inspection = (
        "no crack at clamps, bolt holes and the quill's slot",
        "all bolts there, straight, threads sound",
        "quill: insertion mark readable, wedge moves",
    )
    type: str = word(
        "quill threadless",
        "a quill goes down inside the fork; a threadless stem clamps round the steerer",
    )
    bar_clamp_mm: Length = length(
        20,
        37,
        "calliper inside the closed bar clamp, on two axes; often stamped on it",
        bar_sizes.CLAMPS,
    )
    quill_mm: Length = length(
        18, 32, "calliper round the quill above the wedge, on two axes", steerer_sizes.QUILLS
    )
    steerer_clamp_mm: Length = length(
        20,
        42,
        "calliper inside the closed steerer clamp, on two axes",
        steerer_sizes.STEERER_CLAMPS,
    )
    height_mm: Length = length(
        10,
        400,
        "rule the height of the steerer clamp, or a quill from insertion mark to bar middle",
    )
    length_mm: Length = length(0, 200, "rule from the steerer's middle to the bar's middle")
    angle_deg: Decimal = number(
        "-60", "90", "protractor between the stem's arm and a right angle to the steerer", "°"
    )


class Grips(Kind):
    """A pair of grips."""

    first = ("inner_mm",)
    caution = "A loose grip comes off in the hand."
    inner_mm: Length = length(
        18,
        27,
        "calliper across the bore, unstretched, or round the bar they came from",
        bar_sizes.GRIP_BORES,
    )


class BarTape(Kind):
    """Tape for a drop bar."""


class BarPlug(Kind):
    """A plug that closes the end of a bar."""

    first = ("inner_mm",)
    caution = "An open bar end cuts like a pipe in a fall: every end is plugged."
    inner_mm: Length = length(8, 24, "calliper inside the bar end that it holds in, on two axes")


class BrakeLever(Kind):
    """A brake lever without a shifter."""

    first = ("side", "bar_mm", "brake_pull")
    caution = (
        "Brakes stop the rider. A lever of another pull than its brake is dangerous, and so is "
        "another fluid than the printed one."
    )
    inspection = (
        "blade not bent or cracked, ball end there",
        "pivot tight, cable pocket not torn",
        "hydraulic: no leak, lever firm",
    )
    bar_mm: Length = BAND
    mount: str = word(
        "grip tops",
        "see whether it sits where the hands hold, or as a second lever on the bar's thick middle",
    )
    side: str = word("left right", "hold it as it sits on the bar: the hand that pulls it")
    brake_pull: str = word(
        "long short hydraulic", PULL_WAY, measured=PULL_SIZES, source=PULL_SOURCE
    )
    fluid: str = WHOLE_FLUIDS
    brake_cable_head: str = BRAKE_CABLE_HEAD


class Shifter(Kind):
    """A shifter for one derailleur or gear hub."""

    first = ("side", "speeds", "index_family")
    side: str = word(
        "front rear",
        "which derailleur its cable goes to: few positions front, many rear; rear is mostly right",
        also={"right": "rear", "left": "front"},
    )
    mount: str = word(
        "bar-clamp bar-end downtube stem",
        "see what it was fixed to: round the bar, into the bar's end, on the down tube or the stem",
        also={"down-tube": "downtube"},
    )
    bar_mm: Length = BAND
    speeds: int = count(
        1, 14, "count the positions: all clicks, and one more", listed="2 3 5 6 7 8 9 10 11 12"
    )
    pull_per_click_mm: Length = length(
        1, 7, "calliper the cable end over five middle clicks and divide by five, twice"
    )
    index_family: str = INDEX_FAMILY
    friction: str = yes_no("turn the lever: it moves without clicks, or has a mode that does")
    front_pull: str = FRONT_PULL
    shift_cable_head: str = SHIFT_CABLE_HEAD


class CombinedLever(Shifter, BrakeLever):
    """A shifter and a brake lever in one body."""

    first = ("side", "speeds", "brake_pull")
    mount: str = word(
        "bar-clamp grip",
        "it clamps round the bar where the hands hold; both words say the same",
    )
