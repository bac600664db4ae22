"""The lengths that a bicycle is drawn by: those that are recorded of it, else usual ones.

The usual ones are common practice, no source: they only make the drawing, nothing is judged by
them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import cos, radians, sin, sqrt
from typing import TYPE_CHECKING

from partsbin.bench.drawing.shapes import Point

if TYPE_CHECKING:
    from partsbin.kinds.spec import Spec

UM_PER_MM = 1000
TOOTH = 12.7 / (2 * 3.1416)
"""Millimetres of radius that each tooth of a half-inch chain's wheel adds."""


@dataclass(frozen=True, slots=True)
class Lengths:
    """What a side view is drawn by, in millimetres and degrees."""

    seat_tube: float = 520
    top_tube: float = 560
    """Level, from the middle of the head tube to that of the seat tube."""
    slope: float = 0
    """How much lower the top tube meets the seat tube."""
    head_tube: float = 140
    chainstay: float = 440
    drop: float = 60
    """How far the bottom bracket is below the axles."""
    seat_angle: float = 73
    head_angle: float = 71.5
    fork: float = 390
    """From the axle to the crown."""
    rake: float = 45
    bsd: float = 622
    tyre: float = 35
    stem: float = 90
    rise: float = 45
    """How far above the head tube the bar is."""
    saddle: float = 175
    """How far above the seat tube's end the saddle is."""
    ring: float = 42 * TOOTH
    sprocket: float = 26 * TOOTH


USUAL = {
    "road": Lengths(head_angle=73, tyre=25, fork=370, chainstay=415, rise=35, drop=70, stem=100),
    "touring": Lengths(tyre=32, chainstay=445),
    "hybrid": Lengths(tyre=37, slope=40, rise=70, seat_tube=500),
    "city": Lengths(tyre=42, rise=130, stem=60, head_angle=69, rake=60, head_tube=170),
    "mtb": Lengths(
        seat_tube=450, slope=70, bsd=559, tyre=50, fork=430, head_angle=70.5, drop=35, saddle=220,
        head_tube=120, rise=60, ring=36 * TOOTH,
    ),
    "bmx": Lengths(
        seat_tube=290, top_tube=520, slope=60, bsd=406, tyre=50, fork=325, chainstay=380,
        drop=-10, head_tube=115, rise=230, stem=50, rake=35, head_angle=74, saddle=90,
    ),
    "folding": Lengths(
        seat_tube=430, top_tube=540, slope=190, bsd=406, tyre=45, fork=300, drop=-60,
        head_tube=150, rise=330, stem=20, rake=35, head_angle=73, saddle=330, chainstay=410,
    ),
    "kids": Lengths(
        seat_tube=330, top_tube=470, slope=60, bsd=507, tyre=48, fork=355, chainstay=390,
        drop=10, head_tube=100, rise=110, stem=50, saddle=150, ring=32 * TOOTH,
    ),
}  # fmt: skip
"""By the style of the frame."""
LIMITS = {
    "seat_tube": (260, 640),
    "top_tube": (420, 640),
    "head_tube": (80, 230),
    "chainstay": (360, 480),
    "fork": (280, 520),
    "bsd": (305, 630),
    "tyre": (20, 64),
    "stem": (20, 140),
}
"""Between which lengths a drawing is still one; a slip of the pen does not spoil the page."""
RECORDED = {
    "seat_tube": ("frame", "seat_tube_length_mm"),
    "top_tube": ("frame", "top_tube_length_mm"),
    "head_tube": ("frame", "head_tube_length_mm"),
    "chainstay": ("frame", "chainstay_mm"),
    "fork": ("fork", "axle_to_crown_mm"),
    "bsd": ("rear wheel", "bsd_mm"),
    "tyre": ("rear tyre", "width_mm"),
    "stem": ("stem", "length_mm"),
}
"""In which slot's part, and in which attribute of it, a length is recorded."""


def lengths_of(on_bike: Mapping[str, Spec], style: str = "") -> Lengths:
    """Return the lengths of a bike from its parts by slot; `style` where the frame has none."""
    frame = on_bike.get("frame")
    named = str(frame.get("style") or style) if frame else style
    usual = USUAL.get(named.lower(), Lengths())
    known: dict[str, float] = {}
    for name, (slot, attribute) in RECORDED.items():
        spec = on_bike.get(slot)
        value = spec.get(attribute) if spec else None
        if isinstance(value, int):
            low, high = LIMITS[name]
            known[name] = min(max(value / UM_PER_MM, low), high)
    teeth = (("ring", "chainset", "rings", 30, 52), ("sprocket", "sprockets", "cogs", 16, 34))
    for name, slot, attribute, fewest, most in teeth:
        found = on_bike[slot].get(attribute) if slot in on_bike else None
        counts = [n for n in found if isinstance(n, int)] if isinstance(found, tuple) else []
        if counts:
            known[name] = min(max(*counts, fewest), most) * TOOTH
    return replace(usual, **known)


@dataclass(frozen=True, slots=True)
class Places:
    """Where the joints of a bicycle are; the wheels stand on the line y = 0."""

    rear: Point
    front: Point
    bottom: Point
    """The middle of the bottom bracket."""
    seat_top: Point
    top_rear: Point
    """Where the top tube meets the seat tube."""
    head_top: Point
    head_low: Point
    crown: Point
    bar: Point
    """Where the stem holds the bar."""
    saddle: Point
    up_seat: float
    """The angle of the seat tube upwards, in radians."""
    up_head: float
    radius: float
    """Of a wheel with its tyre."""


def places_of(lengths: Lengths) -> Places:
    """Return where the joints of a bicycle with these lengths are."""
    radius = lengths.bsd / 2 + lengths.tyre
    rear = Point(0, -radius)
    stay = sqrt(lengths.chainstay**2 - lengths.drop**2)
    bottom = Point(stay, -radius + lengths.drop)
    up_seat, up_head = -radians(180 - lengths.seat_angle), -radians(180 - lengths.head_angle)
    seat_top = bottom.to(lengths.seat_tube, up_seat)
    # First as if the front axle stood over the rear one, then as far ahead as the top tube asks.
    axle = Point(0, -radius)
    axis = Point(-lengths.rake * sin(-up_head), -lengths.rake * cos(up_head))
    steer = axle.moved(axis.x, axis.y)
    crown = steer.to(sqrt(lengths.fork**2 - lengths.rake**2), up_head)
    head_low = crown.to(18, up_head)
    head_top = head_low.to(lengths.head_tube, up_head)
    top_front = head_top.to(-26, up_head)
    seat_axis = bottom.x + (bottom.y - top_front.y) / sin(-up_seat) * cos(up_seat)
    ahead = lengths.top_tube + seat_axis - top_front.x
    top_rear_y = max(top_front.y + lengths.slope, seat_top.y + 22)
    top_rear = bottom.to((bottom.y - top_rear_y) / sin(-up_seat), up_seat)
    head_top, head_low, crown = (p.moved(ahead) for p in (head_top, head_low, crown))
    return Places(
        rear=rear,
        front=axle.moved(ahead),
        bottom=bottom,
        seat_top=seat_top,
        top_rear=top_rear,
        head_top=head_top,
        head_low=head_low,
        crown=crown,
        bar=head_top.to(lengths.rise, up_head).moved(lengths.stem * 0.95),
        saddle=seat_top.to(lengths.saddle, up_seat),
        up_seat=up_seat,
        up_head=up_head,
        radius=radius,
    )
