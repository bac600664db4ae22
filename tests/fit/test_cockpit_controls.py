"""Levers, shifters, grips and plugs on bars."""

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


def bar(**attributes: Any) -> Part:
    """Return a handlebar."""
    return "handlebar", attributes


def lever(band: float | None, **attributes: Any) -> Part:
    """Return a brake lever."""
    return "brake_lever", {"bar_mm": band, **attributes}


def shifter(**attributes: Any) -> Part:
    """Return a shifter."""
    return "shifter", attributes


BANDS = {
    # bikeforums.net t-645002
    "24.0 on 23.8": ((lever(24.0), bar(grip_mm=23.8)), "fits", "same size"),
    # urbanvelo.org issue 12 p. 70; cyclescribe.blogspot.com 2011-03
    "flat-bar lever on a flat bar": ((lever(22.2), bar(grip_mm=22.2)), "fits", "same size"),
    "flat-bar shifter on a flat bar": (
        (shifter(bar_mm=22.2, mount="bar-clamp"), bar(grip_mm=22.2)),
        "fits",
        "same size",
    ),
    "combined lever on a drop bar": (
        (("combined_lever", {"bar_mm": 24.0}), bar(grip_mm=23.8, style="drop")),
        "fits",
        "same size",
    ),
    # velo-orange.blogspot.com 2008/02
    "22.2 on 23.8": ((lever(22.2), bar(grip_mm=23.8)), "clash", "take a 23.8 mm control"),
    "22.2 on the old 23.5": ((lever(22.2), bar(grip_mm=23.5)), "clash", "does not close"),
    # the sleeve from memory
    "23.8 on 22.2": ((lever(23.8), bar(grip_mm=22.2)), "adapts", "22.2 to 23.8 mm (wall 0.8 mm)"),
    "23.8 on a flat bar": (
        (lever(23.8), bar(grip_mm=22.2, style="flat")),
        "adapts",
        "stands badly on a straight one",
    ),
    "wide shifter on a grip area": (
        (shifter(bar_mm=25.4), bar(grip_mm=22.2)),
        "adapts",
        "22.2 to 25.4 mm",
    ),
    # brainybiker.com bullhorn
    "combined drop lever on a bullhorn": (
        (("combined_lever", {"bar_mm": 23.8}), bar(grip_mm=23.8, style="bullhorn")),
        "adapts",
        "blade may meet the bar",
    ),
    "brake lever alone on a bullhorn": (
        (lever(23.8), bar(grip_mm=23.8, style="bullhorn")),
        "fits",
        "same size",
    ),
    # smontanaro.net/CR/2007/3/78: below the brake mounts a 31.8 mm drop bar is 23.8
    "drop lever on a 31.8 drop bar": (
        (lever(23.8), bar(clamp_mm=31.8, style="drop")),
        "fits",
        "style drop",
    ),
    "old steel drop bar is 22.2": (
        (lever(22.2), bar(clamp_mm=25.4, style="drop", material="steel")),
        "fits",
        "same size",
    ),
    # velogear.com.au: straight bars are all 22.2 where the hands hold
    "any flat bar": ((lever(22.2), bar(style="flat")), "fits", "same size"),
    # the grip area does not follow from the clamp
    "clamp alone does not tell": (
        (lever(22.2), bar(clamp_mm=25.4)),
        "measure",
        "grip of the handlebar is not known",
    ),
    "drop bar may be steel": (
        (lever(23.8), bar(clamp_mm=25.4, style="drop")),
        "measure",
        "grip of the handlebar is not known",
    ),
    "grip area read between sizes": (
        (lever(22.2), bar(style="flat", grip_mm=22.85)),
        "measure",
        "read as 22.85 mm",
    ),
    "band unknown": ((lever(None), bar(grip_mm=22.2)), "measure", "bar of the brake lever"),
    "clamp is no grip area": ((lever(25.4), bar(clamp_mm=25.4)), "fits", "handlebar clamp"),
}
# bikeforums.net t-645002: second levers are made in 24.0, 26.0 and 31.8
SECOND = {
    "31.8 on the middle": ((lever(31.8, mount="tops"), bar(clamp_mm=31.8)), "fits", "clamp 31.8"),
    "26.0 told by its size": ((lever(26.0), bar(clamp_mm=26.0, grip_mm=23.8)), "fits", "clamp 26"),
    "24.0 beside the middle": (
        (lever(24.0, mount="tops"), bar(clamp_mm=31.8, grip_mm=23.8)),
        "fits",
        "grip 23.8",
    ),
    "31.8 on 24.0": (
        (lever(31.8, mount="tops"), bar(grip_mm=24.0)),
        "adapts",
        "sleeve 23.8 to 31.8 mm",
    ),
    "26.0 on a thin bar": (
        (lever(26.0, mount="tops"), bar(grip_mm=24.0)),
        "adapts",
        "sleeve 23.8 to 26 mm",
    ),
    "24.0 on a bar of unknown grip area": (
        (lever(24.0, mount="tops"), bar(clamp_mm=31.8)),
        "measure",
        "grip of the handlebar is not known",
    ),
    "too narrow everywhere": (
        (lever(22.2, mount="tops"), bar(clamp_mm=31.8, grip_mm=23.8)),
        "clash",
        "does not close",
    ),
    "middle unknown": (
        (lever(31.8, mount="tops"), bar(width_mm=420)),
        "measure",
        "clamp of the handlebar is not known",
    ),
}
# parktool.com Bar end shifter service: 19 to 21 mm inside
BAR_END = {
    "bore 20": ((shifter(mount="bar-end"), bar(bore_mm=20)), "fits", "spreads"),
    "bore 19": ((shifter(mount="bar-end"), bar(bore_mm=19)), "fits", "spreads"),
    "bore 21": ((shifter(mount="bar-end"), bar(bore_mm=21)), "fits", "spreads"),
    "flat bar of 17": ((shifter(mount="bar-end"), bar(bore_mm=17)), "clash", "too narrow"),
    "too wide": ((shifter(mount="bar-end"), bar(bore_mm=21.5)), "clash", "too wide"),
    "outside does not tell": (
        (shifter(mount="bar-end"), bar(grip_mm=23.8)),
        "measure",
        "bore of the handlebar is not known",
    ),
    "down-tube lever and bar share nothing": (
        (shifter(mount="downtube"), bar(grip_mm=22.2)),
        "fits",
        "",
    ),
}
GRIPS = {
    # velogear.com.au: flat, riser and BMX bars are 22.2
    "mountain grips on a 22.2 bar": (
        (("grips", {"inner_mm": 22.2}), bar(clamp_mm=22.2, grip_mm=22.2)),
        "fits",
        "same size",
    ),
    "grips on a drop bar": (
        (("grips", {"inner_mm": 22.2}), bar(style="drop", clamp_mm=26.0)),
        "clash",
        "take tape",
    ),
    "loose grips": (
        (("grips", {"inner_mm": 23.8}), bar(grip_mm=22.2)),
        "clash",
        "dangerous: the grips are loose",
    ),
    "grip area unknown": (
        (("grips", {"inner_mm": 22.2}), bar(clamp_mm=31.8)),
        "measure",
        "grip of the handlebar is not known",
    ),
    # common practice, no source
    "plug of the bore": ((("bar_plug", {"inner_mm": 18}), bar(bore_mm=18.5)), "fits", "holds"),
    "plug too thick": ((("bar_plug", {"inner_mm": 20}), bar(bore_mm=17)), "clash", "does not go"),
    "plug too thin": ((("bar_plug", {"inner_mm": 17}), bar(bore_mm=20)), "clash", "falls out"),
    "bore unknown": (
        (("bar_plug", {"inner_mm": 17}), bar(grip_mm=22.2)),
        "measure",
        "bore of the handlebar is not known",
    ),
}
CASES = BANDS | SECOND | BAR_END | GRIPS


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}
