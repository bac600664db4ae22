"""What frame, fork, seat, bars and stem say of each other on one bike."""

from __future__ import annotations

from tests.kinds.donor_bikes import Inheritance, bike

THREADED = {"kind": "fork", "steerer": "threaded", "steerer_mm": 28.6}
BARE = {"kind": "fork", "steerer": "threadless", "steerer_mm": 28.6}
CASES: dict[str, Inheritance] = {
    # bike.bikegremlin.com/3114
    "post from frame": (
        bike(frame={"kind": "frame", "seat_tube_bore_mm": 27.2}),
        "seatpost",
        "seatpost",
        "diameter_mm",
        27.2,
    ),
    "frame from reading of post": (
        bike(seatpost={"kind": "seatpost", "diameter_mm": 27.18}),
        "frame",
        "frame",
        "seat_tube_bore_mm",
        27.2,
    ),
    "reading between sizes says nothing": (
        bike(seatpost={"kind": "seatpost", "diameter_mm": 27.1}),
        "frame",
        "frame",
        "seat_tube_bore_mm",
        None,
    ),
    "collar from frame": (
        bike(frame={"kind": "frame", "seat_tube_od_mm": 31.8}),
        "seat_clamp",
        "seat clamp",
        "diameter_mm",
        31.8,
    ),
    # lovecitycycles.com Handlebar and Stem Dimension sheet
    "lever from bar": (
        bike(handlebar={"kind": "handlebar", "grip_mm": 22.2}),
        "brake_lever",
        "left brake lever",
        "bar_mm",
        22.2,
    ),
    "bar from stem": (
        bike(stem={"kind": "stem", "bar_clamp_mm": 26.0}),
        "handlebar",
        "handlebar",
        "clamp_mm",
        26.0,
    ),
    "stem from bar": (
        bike(handlebar={"kind": "handlebar", "clamp_mm": 31.8}),
        "stem",
        "stem",
        "bar_clamp_mm",
        31.8,
    ),
    "bar not from a lever on its tops": (
        bike(left_brake_lever={"kind": "brake_lever", "bar_mm": 26.0, "mount": "tops"}),
        "handlebar",
        "handlebar",
        "grip_mm",
        None,
    ),
    "shifter band from a flat bar": (
        bike(handlebar={"kind": "handlebar", "style": "flat", "grip_mm": 22.2}),
        "shifter",
        "rear shifter",
        "bar_mm",
        22.2,
    ),
    "no shifter band from a drop bar": (
        bike(handlebar={"kind": "handlebar", "style": "drop", "grip_mm": 23.8}),
        "shifter",
        "rear shifter",
        "bar_mm",
        None,
    ),
    "combined lever from a drop bar": (
        bike(handlebar={"kind": "handlebar", "style": "drop", "grip_mm": 23.8}),
        "combined_lever",
        "rear shifter",
        "bar_mm",
        23.8,
    ),
    # bicycle-forum.net quill measurements 2007; motorbicycling.com p=105482
    "quill from threaded steerer": (bike(fork=THREADED), "stem", "stem", "quill_mm", 25.4),
    "no quill from threadless steerer": (bike(fork=BARE), "stem", "stem", "quill_mm", None),
    "stem type from fork": (bike(fork=THREADED), "stem", "stem", "type", "quill"),
    "fork from stem type": (
        bike(stem={"kind": "stem", "type": "threadless"}),
        "fork",
        "fork",
        "steerer",
        "threadless",
    ),
    "clamp from threadless steerer": (bike(fork=BARE), "stem", "stem", "steerer_clamp_mm", 28.6),
    "no clamp from threaded steerer": (
        bike(fork=THREADED),
        "stem",
        "stem",
        "steerer_clamp_mm",
        None,
    ),
    # Wikipedia 'Headset'; canecreek.com headset-fit-finder
    "headset from fork": (bike(fork=BARE), "headset", "headset", "steerer_mm", 28.6),
    "frame from headset": (
        bike(headset={"kind": "headset", "lower": "EC44/40"}),
        "frame",
        "frame",
        "head_tube_lower",
        "EC44",
    ),
}
