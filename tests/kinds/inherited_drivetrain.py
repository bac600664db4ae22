"""What chain, sprockets, cranks, derailleurs and shifters say of each other on one bike."""

from __future__ import annotations

from tests.kinds.donor_bikes import Inheritance, bike

CASSETTE = {"kind": "cassette", "speeds": 8, "spline": "one-wide-spline-35"}
FREEWHEEL = {"kind": "freewheel", "thread": "iso-1.375x24"}
CASES: dict[str, Inheritance] = {
    # sheldonbrown.com/speeds.html
    "shifter from cassette": (bike(sprockets=CASSETTE), "shifter", "rear shifter", "speeds", 8),
    "chain from cassette": (bike(sprockets=CASSETTE), "chain", "chain", "speeds", 8),
    "derailleur from cassette": (
        bike(sprockets=CASSETTE),
        "rear_derailleur",
        "rear derailleur",
        "speeds",
        8,
    ),
    "cassette from derailleur": (
        bike(rear_derailleur={"kind": "rear_derailleur", "speeds": 9}),
        "cassette",
        "sprockets",
        "speeds",
        9,
    ),
    # bike.bikegremlin.com/1278
    "family from derailleur": (
        bike(rear_derailleur={"kind": "rear_derailleur", "index_family": "ratio-1.1"}),
        "combined_lever",
        "rear shifter",
        "index_family",
        "ratio-1.1",
    ),
    # koovacomponents.com freehub guide; sheldonbrown.com/freewheels.html
    "driver from cassette": (
        bike(sprockets=CASSETTE),
        "wheel",
        "rear wheel",
        "driver",
        "one-wide-spline-35",
    ),
    "thread from wheel": (
        bike(rear_wheel={"kind": "wheel", "driver": "iso-1.375x24"}),
        "freewheel",
        "sprockets",
        "thread",
        "iso-1.375x24",
    ),
    "no spline from a thread": (
        bike(rear_wheel={"kind": "wheel", "driver": "iso-1.375x24"}),
        "cassette",
        "sprockets",
        "spline",
        None,
    ),
    "driver from freewheel": (
        bike(sprockets=FREEWHEEL),
        "wheel",
        "rear wheel",
        "driver",
        "iso-1.375x24",
    ),
    "no driver in front": (bike(sprockets=CASSETTE), "wheel", "front wheel", "driver", None),
    # bikeraceinfo.com/tech/bottom-brackets.html; moultoneer.wordpress.com/2022/03/17
    "shell from frame": (
        bike(frame={"kind": "frame", "bb_shell": "italian-36x24"}),
        "bottom_bracket",
        "bottom bracket",
        "shell",
        "italian-36x24",
    ),
    "spindle from cranks": (
        bike(chainset={"kind": "chainset", "spindle": "taper-jis"}),
        "bottom_bracket",
        "bottom bracket",
        "spindle",
        "taper-jis",
    ),
    # mtbr.com 933644
    "front pull from front derailleur": (
        bike(front_derailleur={"kind": "front_derailleur", "front_pull": "road"}),
        "shifter",
        "front shifter",
        "front_pull",
        "road",
    ),
    "front positions from rings": (
        bike(chainset={"kind": "chainset", "rings": [26, 36, 46]}),
        "shifter",
        "front shifter",
        "speeds",
        3,
    ),
    "no front positions from one ring": (
        bike(chainset={"kind": "chainset", "rings": [46]}),
        "shifter",
        "front shifter",
        "speeds",
        None,
    ),
    # bike.bikegremlin.com/1297
    "front band from seat tube": (
        bike(frame={"kind": "frame", "seat_tube_od_mm": 34.9, "fd_mount": "clamp"}),
        "front_derailleur",
        "front derailleur",
        "clamp_mm",
        34.9,
    ),
    "no front band where it is brazed on": (
        bike(frame={"kind": "frame", "seat_tube_od_mm": 34.9, "fd_mount": "braze-on"}),
        "front_derailleur",
        "front derailleur",
        "clamp_mm",
        None,
    ),
    # bike.bikegremlin.com/3555
    "chain inside from sprocket": (
        bike(sprockets={"kind": "sprocket", "width_in": "1/8"}),
        "chain",
        "chain",
        "inner_mm",
        3.175,
    ),
    # A hub gear has one sprocket and several positions: common practice.
    "hub gear says nothing of the chain": (
        bike(sprockets={"kind": "sprocket"}, rear_shifter={"kind": "shifter", "speeds": 3}),
        "chain",
        "chain",
        "speeds",
        None,
    ),
    "shifter alone says nothing of the chain": (
        bike(rear_shifter={"kind": "shifter", "speeds": 3}),
        "chain",
        "chain",
        "speeds",
        None,
    ),
}
