"""Seat: posts, shims, clamps and saddles."""

from __future__ import annotations

from partsbin.kinds.attribute import length, word
from partsbin.kinds.condition import Stressed
from partsbin.kinds.kind import Kind
from partsbin.standards import seat
from partsbin.standards.length import Length

RAILS = word(
    "round-7 oval-7x9 plain-22.2",
    "calliper across one rail: 7 mm and round, or about 7 by 9 mm and oval (carbon); "
    "a plain pillar is one 22.2 mm tube top without a clamp",
    measured={"7": "round-7", "9": "oval-7x9", "22.2": "plain-22.2"},
    source="xjd.com saddle rail pages; 22.2 from memory",
)


class SeatClamp(Kind):
    """A collar that closes the top of the seat tube on the post."""

    first = ("diameter_mm",)
    caution = "A slipping collar lets the saddle turn or drop; one too tight cracks the frame."
    diameter_mm: Length = length(
        22, 45, "calliper across the seat tube's outside, just below the slot, twice", seat.COLLARS
    )


class Seatpost(Stressed):
    """The post that carries the saddle."""

    first = ("diameter_mm", "length_mm", "rails")
    caution = (
        "A post that breaks throws the rider. Keep the minimum-insertion mark inside the frame; "
        "scrap a bent, cracked or notched post."
    )
    inspection = (
        "straight, sighted along its length",
        "no crack or notch at the clamp head and the insertion mark",
        "insertion mark still readable",
    )
    diameter_mm: Length = length(
        20,
        36,
        "calliper below the insertion mark, on two axes at a right angle; "
        "the size is often stamped just under the mark",
        seat.POSTS,
    )
    length_mm: Length = length(50, 700, "tape along the whole post")
    insertion_mark_mm: Length = length(10, 400, "rule from the lower end to the mark")
    rails: str = RAILS
    material: str = word(
        "steel aluminium titanium carbon",
        "a magnet sticks to steel; carbon sounds dull when tapped",
        also={"aluminum": "aluminium", "alloy": "aluminium"},
    )


class SeatpostShim(Kind):
    """A sleeve that fills the gap between a thin post and a wide seat tube."""

    first = ("inner_mm", "outer_mm")
    inner_mm: Length = length(20, 36, "calliper inside, unsprung", seat.POSTS)
    outer_mm: Length = length(20, 38, "calliper outside, unsprung", seat.POSTS)


class Saddle(Kind):
    """A saddle."""

    first = ("rails",)
    caution = "Rails that break let the saddle turn under the rider."
    inspection = ("rails straight and uncracked, firm in the shell; shell whole",)
    rails: str = RAILS
