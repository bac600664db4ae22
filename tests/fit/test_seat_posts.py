"""Posts in frames and sleeves, saddles on posts, and how deep a post stands."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from partsbin.fit.judge import Judgement, judge
from partsbin.fit.words import why
from partsbin.kinds.spec import Spec

Part = tuple[str, dict[str, Any]]


def judged(*parts: Part) -> Judgement:
    """Return the judgement of parts, each a kind and its attributes."""
    return judge([Spec.check(kind, attributes).piece for kind, attributes in parts])


def told(judgement: Judgement) -> str:
    """Return all that the judgement says."""
    return " | ".join(why(judged.finding) for judged in judgement.interfaces)


def post(**attributes: Any) -> Part:
    """Return a seatpost."""
    return "seatpost", attributes


def frame(**attributes: Any) -> Part:
    """Return a frame."""
    return "frame", attributes


def sleeve(inner: float, outer: float) -> Part:
    """Return a seatpost sleeve."""
    return "seatpost_shim", {"inner_mm": inner, "outer_mm": outer}


def rails(saddle: str, clamp: str) -> tuple[Part, Part]:
    """Return a saddle and a post of these rails."""
    return ("saddle", {"rails": saddle}), ("seatpost", {"rails": clamp})


SIZES = {
    # bike.bikegremlin.com/3114, Seatpost diameter sizes
    "27.18 measured is 27.2": (
        (post(diameter_mm=27.18), frame(seat_tube_bore_mm=27.2)),
        "fits",
        "same size",
    ),
    "too thick jams": (
        (post(diameter_mm=27.2), frame(seat_tube_bore_mm=27.0)),
        "clash",
        "jams",
    ),
    # centerlinerule.blogspot.com 2017-06: marked 27.0, measured 27.16 and more, did not go in
    "marked 27.0 but 27.16": (
        (post(diameter_mm=27.16), frame(seat_tube_bore_mm=27.0)),
        "clash",
        "too thick",
    ),
    # mrbike.com tapered post column 2006; wall computed
    "25.0 in 27.0": (
        (post(diameter_mm=25.0), frame(seat_tube_bore_mm=27.0)),
        "adapts",
        "sleeve 25 to 27 mm (wall 1 mm)",
    ),
    "26.8 in 27.0 is a sheet of 0.1": (
        (post(diameter_mm=26.8), frame(seat_tube_bore_mm=27.0)),
        "adapts",
        "wall 0.1 mm",
    ),
    # newsbreak.com 3474006712765: neither neighbour goes bare in 25.2
    "25.4 in 25.2": (
        (post(diameter_mm=25.4), frame(seat_tube_bore_mm=25.2)),
        "clash",
        "take a 25.2 mm post",
    ),
    "25.0 in 25.2": (
        (post(diameter_mm=25.0), frame(seat_tube_bore_mm=25.2)),
        "adapts",
        "sleeve 25 to 25.2 mm (wall 0.1 mm)",
    ),
    # bikepartsquick.blogspot.com/2012/07: bare it slips
    "26.8 in 27.2": (
        (post(diameter_mm=26.8), frame(seat_tube_bore_mm=27.2)),
        "adapts",
        "would slip",
    ),
    "30.9 in 31.6": (
        (post(diameter_mm=30.9), frame(seat_tube_bore_mm=31.6)),
        "adapts",
        "wall 0.35 mm",
    ),
    "22.2 in 25.4": (
        (post(diameter_mm=22.2), frame(seat_tube_bore_mm=25.4)),
        "adapts",
        "wall 1.6 mm",
    ),
    # by geometry: the tube outside is wider than its bore
    "as thick as the tube outside": (
        (post(diameter_mm=31.6), frame(seat_tube_od_mm=28.6)),
        "clash",
        "as thick as the seat tube is outside",
    ),
    # bike.bikegremlin.com/3114: the wall is not known from the outside
    "outside does not give the bore": (
        (post(diameter_mm=27.2), frame(seat_tube_od_mm=28.6)),
        "measure",
        "seat tube bore of the frame is not known",
    ),
    "27.1 lies between": (
        (post(diameter_mm=27.1), frame(seat_tube_bore_mm=27.2)),
        "measure",
        "read as 27.1 mm",
    ),
    # carbon-bike-service.eu seatpost clamping; mrbike.com tapered post column 2006
    "carbon post in a sleeve": (
        (post(diameter_mm=27.2, material="carbon"), frame(seat_tube_bore_mm=31.6)),
        "adapts",
        "no more than 0.2 mm of play",
    ),
    "carbon frame": (
        (post(diameter_mm=27.0), frame(seat_tube_bore_mm=27.2, material="carbon")),
        "adapts",
        "plastic sleeve",
    ),
    # the name is part of the match: a post and a steel tube's outside may both be 28.6
    "a quill is no post": (
        (post(diameter_mm=22.2), ("stem", {"type": "quill", "quill_mm": 22.2})),
        "fits",
        "",
    ),
}
SLEEVES = {
    "sleeve among the parts": (
        (post(diameter_mm=27.2), frame(seat_tube_bore_mm=31.6), sleeve(27.2, 31.6)),
        "fits",
        "through the seatpost shim",
    ),
    "sleeve too narrow for the tube": (
        (frame(seat_tube_bore_mm=31.6), sleeve(27.2, 30.9)),
        "clash",
        "loose in the tube",
    ),
    "sleeve too thick for the tube": (
        (frame(seat_tube_bore_mm=30.9), sleeve(27.2, 31.6)),
        "clash",
        "sleeve is too thick",
    ),
    "sleeve fits the tube": (
        (frame(seat_tube_bore_mm=31.6), sleeve(27.2, 31.6)),
        "fits",
        "same size",
    ),
    "post fits the sleeve": ((post(diameter_mm=27.2), sleeve(27.2, 31.6)), "fits", "same size"),
    "post loose in the sleeve": (
        (post(diameter_mm=26.8), sleeve(27.2, 31.6)),
        "clash",
        "loose in the sleeve",
    ),
    "post too thick for the sleeve": (
        (post(diameter_mm=27.2), sleeve(25.4, 31.6)),
        "clash",
        "post is too thick",
    ),
    "sleeve unmeasured": (
        (frame(seat_tube_bore_mm=31.6), ("seatpost_shim", {"inner_mm": 27.2})),
        "measure",
        "outer of the seatpost shim is not known",
    ),
    "sleeve's inside unmeasured": (
        (post(diameter_mm=27.2), ("seatpost_shim", {"outer_mm": 31.6})),
        "measure",
        "inner of the seatpost shim is not known",
    ),
}
# 16 CFR 1512.15(b): the mark stands two diameters above the lower end
DEPTHS = {
    "mark at two diameters": (
        (post(diameter_mm=27.2, insertion_mark_mm=54.4), frame(seat_tube_bore_mm=27.2)),
        "fits",
        "mark keeps enough",
    ),
    "mark too low": (
        (post(diameter_mm=31.6, insertion_mark_mm=60), frame(seat_tube_bore_mm=31.6)),
        "adapts",
        "keep 63.2 mm in the frame",
    ),
    "post too short": (
        (post(diameter_mm=34.9, length_mm=69), frame(seat_tube_bore_mm=34.9)),
        "clash",
        "too short to be clamped",
    ),
    "long post of unknown mark": (
        (post(diameter_mm=27.2, length_mm=350), frame(seat_tube_bore_mm=27.2)),
        "fits",
        "same size",
    ),
    "thickness unknown, only that is asked": (
        (post(insertion_mark_mm=80), frame(seat_tube_bore_mm=27.2)),
        "measure",
        "diameter of the seatpost is not known, which decides",
    ),
}
# xjd.com saddle rail pages; Wikipedia 'Bicycle seatpost'; clamp shapes from memory
RAILS = {
    "round on round": (rails("round-7", "round-7"), "fits", "one shape"),
    "oval on oval": (rails("oval-7x9", "oval-7x9"), "fits", "one shape"),
    "saddle with its clamp on a pillar": (rails("plain-22.2", "plain-22.2"), "fits", "one shape"),
    "oval on round": (rails("oval-7x9", "round-7"), "clash", "top-and-bottom clamp"),
    "round on oval": (rails("round-7", "oval-7x9"), "clash", "loose in oval"),
    "oval on a pillar": (rails("oval-7x9", "plain-22.2"), "clash", "oval rails"),
    "round on a pillar": (rails("round-7", "plain-22.2"), "adapts", "22.2 mm pillar"),
    "saddle with its clamp on a clamp": (
        rails("plain-22.2", "round-7"),
        "adapts",
        "take the saddle's own clamp off",
    ),
    "rails unknown": (
        (("saddle", {"rails": "oval-7x9"}), post(diameter_mm=27.2)),
        "measure",
        "rails of the seatpost are not known",
    ),
}
CASES = SIZES | SLEEVES | DEPTHS | RAILS


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}
