"""Handlebars in stems, bare and in sleeves."""

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


def fit(bar: float | None, clamp: float | None) -> tuple[Part, Part]:
    """Return a bar of that middle and a stem of that clamp."""
    return ("handlebar", {"clamp_mm": bar}), ("stem", {"bar_clamp_mm": clamp})


def sleeve(inner: float | None, outer: float | None) -> Part:
    """Return a sleeve for a bar clamp."""
    return "bar_shim", {"inner_mm": inner, "outer_mm": outer}


CASES = {
    # lovecitycycles.com/?page_id=796, Handlebar and Stem Dimension sheet; velogear.com.au
    "31.7 in 31.8": (fit(31.7, 31.8), "fits", "same size"),
    "25.4 in 26.0": (fit(25.4, 26.0), "adapts", "25.4 to 26 mm (wall 0.3 mm)"),
    "25.8 in 26.0": (fit(25.8, 26.0), "adapts", "may slip"),
    # bikeforums.net 985045; velo-orange.blogspot.com 2008/02: no sleeve helps a thicker bar
    "26.0 in 25.4": (fit(26.0, 25.4), "clash", "no sleeve can help"),
    "25.8 in 25.4": (fit(25.8, 25.4), "clash", "no sleeve can help"),
    "26.4 in 26.0": (fit(26.4, 26.0), "clash", "take a 26.4 mm stem"),
    "31.8 in 25.4": (fit(31.8, 25.4), "clash", "thicker than the clamp"),
    # retrobike.co.uk t=255183: sleeves in two halves
    "26.0 in 31.8": (fit(26.0, 31.8), "adapts", "wall 2.9 mm"),
    "25.4 in 31.8": (fit(25.4, 31.8), "adapts", "wall 3.2 mm"),
    "31.8 in 35.0": (fit(31.8, 35.0), "adapts", "one bolt"),
    # retrobike.co.uk 473510
    "22.2 in 25.4 with its sleeve": (
        (*fit(22.2, 25.4), sleeve(22.2, 25.4)),
        "fits",
        "through the bar shim",
    ),
    "22.2 in 25.4 with another sleeve": (
        (*fit(22.2, 25.4), sleeve(25.4, 31.8)),
        "clash",
        "loose in the sleeve",
    ),
    "sleeve in its clamp": (
        (sleeve(25.4, 31.8), ("stem", {"bar_clamp_mm": 31.8})),
        "fits",
        "same size",
    ),
    "sleeve too thick": (
        (sleeve(25.4, 31.8), ("stem", {"bar_clamp_mm": 26.0})),
        "clash",
        "sleeve is too thick",
    ),
    "sleeve loose in the clamp": (
        (sleeve(22.2, 25.4), ("stem", {"bar_clamp_mm": 26.0})),
        "clash",
        "loose in the clamp",
    ),
    "sleeve's outside unknown": (
        (sleeve(22.2, None), ("stem", {"bar_clamp_mm": 25.4})),
        "measure",
        "outer of the bar shim is not known",
    ),
    "bar in its sleeve": (
        (sleeve(25.4, 31.8), ("handlebar", {"clamp_mm": 25.4})),
        "fits",
        "same size",
    ),
    "bar too thick for the sleeve": (
        (sleeve(25.4, 31.8), ("handlebar", {"clamp_mm": 26.0})),
        "clash",
        "bar is too thick",
    ),
    "sleeve's inside unknown": (
        (sleeve(None, 31.8), ("handlebar", {"clamp_mm": 26.0})),
        "measure",
        "inner of the bar shim is not known",
    ),
    "bar unmeasured": (fit(None, 31.8), "measure", "clamp of the handlebar is not known"),
    "any bar is too thick": (fit(25.9, 25.4), "clash", "thicker than the clamp"),
    # 22.2 is a quill and a grip area too: the name is part of the match
    "quill and grip area of one figure": (
        (("handlebar", {"grip_mm": 22.2}), ("stem", {"quill_mm": 22.2})),
        "measure",
        "bar clamp of the stem is not known",
    ),
}


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}
