"""Frame, fork, headset, stem, bar, levers, post and saddle of whole bikes, judged together."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest

from partsbin.fit.judge import Judgement, judge
from partsbin.kinds.spec import Spec

Bike = dict[str, dict[str, Any]]

# A steel road bike of the eighties: one inch ISO, quill, 26.0 drop bar. Sizes as in the tables.
ROAD: Bike = {
    "frame": {
        "style": "road",
        "material": "steel",
        "seat_tube_bore_mm": 27.2,
        "seat_tube_od_mm": 28.6,
        "head_tube_upper": "EC30.2-iso",
        "head_tube_lower": "EC30.2-iso",
        "head_tube_length_mm": 140,
        "fork_axle_to_crown_mm": 370,
        "downtube_bosses": "curved",
        "down_tube_od_mm": 28.6,
        "bottle_bosses": "yes",
        "mudguard_eyelets": "yes",
    },
    "fork": {
        "steerer": "threaded",
        "steerer_mm": 25.4,
        "steerer_bore_mm": 22.2,
        "steerer_length_mm": 180,
        "thread": "24tpi",
        "crown_race_mm": 26.4,
        "axle_to_crown_mm": 370,
    },
    "headset": {
        "steerer": "threaded",
        "steerer_mm": 25.4,
        "thread": "24tpi",
        "upper": "EC30.2-iso",
        "lower": "EC30.2-iso",
        "crown_race_mm": 26.4,
        "stack_mm": 40,
    },
    "stem": {"type": "quill", "quill_mm": 22.2, "bar_clamp_mm": 26.0},
    "handlebar": {
        "style": "drop",
        "clamp_mm": 26.0,
        "grip_mm": 23.8,
        "bore_mm": 20.0,
        "material": "aluminium",
    },
    "brake_lever": {"bar_mm": 23.8, "mount": "grip", "side": "left"},
    "shifter": {"mount": "downtube", "side": "rear", "speeds": 6},
    "seatpost": {
        "diameter_mm": 27.2,
        "length_mm": 250,
        "insertion_mark_mm": 65,
        "rails": "round-7",
    },
    "saddle": {"rails": "round-7"},
    "seat_clamp": {"diameter_mm": 28.6},
    "bottle_cage": {},
    "mudguards": {},
    "bar_plug": {"inner_mm": 20.0},
    "bar_tape": {},
}

# A mountain bike with a tapered fork, threadless, oversize flat bar.
MOUNTAIN: Bike = {
    "frame": {
        "style": "mtb",
        "material": "aluminium",
        "seat_tube_bore_mm": 30.9,
        "seat_tube_od_mm": 34.9,
        "head_tube_upper": "ZS44",
        "head_tube_lower": "ZS56",
        "head_tube_length_mm": 120,
    },
    "fork": {
        "steerer": "threadless",
        "steerer_mm": 28.6,
        "steerer_lower_mm": 38.1,
        "steerer_length_mm": 177,
        "crown_race_mm": 39.8,
    },
    "headset": {
        "steerer": "threadless",
        "steerer_mm": 28.6,
        "upper": "ZS44",
        "lower": "ZS56",
        "crown_race_mm": 39.8,
        "stack_mm": 20,
    },
    "stem": {
        "type": "threadless",
        "steerer_clamp_mm": 28.6,
        "bar_clamp_mm": 31.8,
        "height_mm": 40,
    },
    "handlebar": {"style": "riser", "clamp_mm": 31.8, "grip_mm": 22.2, "bore_mm": 17},
    "grips": {"inner_mm": 22.2},
    "brake_lever": {"bar_mm": 22.2, "mount": "grip", "side": "left", "brake_pull": "hydraulic"},
    "shifter": {"mount": "bar-clamp", "bar_mm": 22.2, "side": "rear", "speeds": 10},
    "seatpost": {"diameter_mm": 30.9, "rails": "round-7"},
    "saddle": {"rails": "round-7"},
    "seat_clamp": {"diameter_mm": 34.9},
}
BIKES = {"road": ROAD, "mountain": MOUNTAIN}


def judged(bike: Bike, **changes: dict[str, Any]) -> Judgement:
    """Return the judgement of a bike with some attributes of its parts changed."""
    parts = {kind: {**bike[kind], **changes.get(kind, {})} for kind in bike}
    return judge([Spec.check(kind, attributes).piece for kind, attributes in parts.items()])


@pytest.mark.parametrize("bike", BIKES.values(), ids=BIKES)
def test_bike_fits_and_lists_each_interface_once(bike: Bike) -> None:
    """A bike whose parts agree fits, and no interface stands in the list twice."""
    judgement = judged(bike)
    names = Counter(one.rule.name for one in judgement.interfaces)

    assert [
        (one.rule.name, str(one.finding.verdict))
        for one in judgement.interfaces
        if one.finding.verdict != "fits"
    ] == []
    assert {1} == set(names.values())


# One change each, and the interface that must tell it.
FAULTS: dict[str, tuple[Bike, dict[str, dict[str, Any]], str, str]] = {
    "JIS headset": (
        ROAD,
        {"headset": {"upper": "EC30.0-jis"}},
        "headset upper half in head tube",
        "clash",
    ),
    "French headset": (ROAD, {"headset": {"thread": "m25x1"}}, "headset thread", "clash"),
    "JIS race": (ROAD, {"headset": {"crown_race_mm": 27.0}}, "crown race on fork", "clash"),
    "low stack": (ROAD, {"headset": {"stack_mm": 38}}, "steerer length", "adapts"),
    "high stack": (ROAD, {"headset": {"stack_mm": 42}}, "steerer length", "clash"),
    "oversize bar": (ROAD, {"handlebar": {"clamp_mm": 31.8}}, "handlebar in stem", "clash"),
    "flat-bar lever": (ROAD, {"brake_lever": {"bar_mm": 22.2}}, "control on handlebar", "clash"),
    "thin post": (ROAD, {"seatpost": {"diameter_mm": 27.0}}, "seatpost in seat tube", "adapts"),
    "collar of the next tube": (
        ROAD,
        {"seat_clamp": {"diameter_mm": 31.8}},
        "collar round seat tube",
        "clash",
    ),
    "carbon rails": (ROAD, {"saddle": {"rails": "oval-7x9"}}, "saddle on seatpost", "clash"),
    "thick down tube": (
        ROAD,
        {"frame": {"down_tube_od_mm": 31.8}},
        "shifter on down tube",
        "adapts",
    ),
    "low fork": (ROAD, {"fork": {"axle_to_crown_mm": 350}}, "fork length", "adapts"),
    "straight head tube": (
        MOUNTAIN,
        {"frame": {"head_tube_lower": "EC34"}},
        "steerer in head tube, lower end",
        "clash",
    ),
    "lower half for a straight fork": (
        MOUNTAIN,
        {"frame": {"head_tube_lower": "ZS44"}, "headset": {"lower": "ZS44"}},
        "steerer through headset halves",
        "clash",
    ),
    "straight fork": (
        MOUNTAIN,
        {"fork": {"steerer_lower_mm": 28.6, "crown_race_mm": 30}},
        "crown race on fork",
        "adapts",
    ),
    "quill stem": (MOUNTAIN, {"stem": {"type": "quill"}}, "stem in fork", "clash"),
    "low stem": (MOUNTAIN, {"stem": {"height_mm": 45}}, "steerer length", "clash"),
    "short head tube": (
        MOUNTAIN,
        {"frame": {"head_tube_length_mm": 80}, "fork": {"steerer_length_mm": 137}},
        "taper in head tube",
        "adapts",
    ),
}


@pytest.mark.parametrize(("bike", "changes", "name", "verdict"), FAULTS.values(), ids=FAULTS)
def test_one_fault_is_told_by_its_interface(
    bike: Bike, changes: dict[str, dict[str, Any]], name: str, verdict: str
) -> None:
    """One part of another size makes its own interface, and so the bike, what it is."""
    judgement = judged(bike, **changes)
    found = {one.rule.name: str(one.finding.verdict) for one in judgement.interfaces}

    assert verdict == found[name]
    assert verdict == str(judgement.verdict)
