"""Collars by the outside of the seat tube, never by the post."""

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


def collar(size: float | None) -> Part:
    """Return a collar."""
    return "seat_clamp", {"diameter_mm": size}


def frame(**attributes: Any) -> Part:
    """Return a frame."""
    return "frame", attributes


CASES = {
    # bikeforums.net t-645002: 34.9 and 35.0 are one size
    "34.9 on 35.0": ((collar(34.9), frame(seat_tube_od_mm=35.0)), "fits", "same size"),
    # compulsioncycles.com clamps: the same post needs either collar, the tube decides
    "27.2 frame of 28.6": (
        (collar(28.6), frame(seat_tube_bore_mm=27.2, seat_tube_od_mm=28.6)),
        "fits",
        "same size",
    ),
    "27.2 frame of 31.8": (
        (collar(31.8), frame(seat_tube_bore_mm=27.2, seat_tube_od_mm=32.0)),
        "fits",
        "same size",
    ),
    "25.4 frame with the collar of a 27.2 one": (
        (collar(31.8), frame(seat_tube_bore_mm=25.4, seat_tube_od_mm=28.6)),
        "clash",
        "take a 28.6 mm collar",
    ),
    "collar too narrow": (
        (collar(28.6), frame(seat_tube_od_mm=31.8)),
        "clash",
        "does not go over the tube",
    ),
    "bore alone does not tell": (
        (collar(31.8), frame(seat_tube_bore_mm=27.2)),
        "measure",
        "seat tube od of the frame is not known",
    ),
    # by geometry
    "no wider than the bore": (
        (collar(25.4), frame(seat_tube_bore_mm=27.2)),
        "clash",
        "no wider than the seat tube is inside",
    ),
    "no wider than the post": (
        (collar(31.8), ("seatpost", {"diameter_mm": 31.8})),
        "clash",
        "no room for a seat tube",
    ),
    "wider than the post says nothing": (
        (collar(31.8), ("seatpost", {"diameter_mm": 25.4})),
        "fits",
        "",
    ),
    "unmeasured collar and post share nothing": (
        (collar(None), ("seatpost", {"diameter_mm": 25.4})),
        "fits",
        "",
    ),
}


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}
