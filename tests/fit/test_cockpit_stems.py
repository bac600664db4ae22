"""Stems in and on forks, and shifters on stems."""

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


def quill(size: float | None, **attributes: Any) -> Part:
    """Return a quill stem."""
    return "stem", {"type": "quill", "quill_mm": size, **attributes}


def clamped(size: float | None) -> Part:
    """Return a threadless stem."""
    return "stem", {"type": "threadless", "steerer_clamp_mm": size}


def threaded(**attributes: Any) -> Part:
    """Return a threaded fork."""
    return "fork", {"steerer": "threaded", **attributes}


def threadless(size: float | None) -> Part:
    """Return a threadless fork."""
    return "fork", {"steerer": "threadless", "steerer_mm": size}


CASES = {
    # motorbicycling.com p=105482; bicycle-forum.net quill measurements 2007
    "22.2 in a 1 in fork": ((quill(22.2), threaded(steerer_mm=25.4)), "fits", "made for"),
    "25.4 in a 1 1/8 fork": ((quill(25.4), threaded(steerer_mm=28.6)), "fits", "made for"),
    "28.6 in a 1 1/4 fork": ((quill(28.6), threaded(steerer_mm=31.8)), "fits", "made for"),
    "22.0 in a French fork": ((quill(22.0), threaded(steerer_mm=25.0)), "fits", "made for"),
    "22.0 by the French thread": ((quill(22.0), threaded(thread="m25x1")), "fits", "fork thread"),
    "as measured 22.16": ((quill(22.16), threaded(steerer_bore_mm=22.225)), "fits", "made for"),
    "22.12 may be French": (
        (quill(22.12), threaded(steerer_bore_mm=22.225)),
        "measure",
        "fits if 22.2 mm, adapts if 22 mm",
    ),
    "25.4 in a 1 in fork": (
        (quill(25.4), threaded(steerer_mm=25.4)),
        "clash",
        "take a stem with a 22.2 mm quill",
    ),
    # velo-orange.blogspot.com 2008/02
    "22.2 in a French bore": (
        (quill(22.2), threaded(steerer_bore_mm=22.0)),
        "adapts",
        "sand the stem",
    ),
    "21.1 needs its own bore": (
        (quill(21.15), threaded(steerer_mm=25.4)),
        "measure",
        "steerer bore of the fork is not known",
    ),
    "21.1 in its bore": ((quill(21.15), threaded(steerer_bore_mm=21.1)), "fits", "made for"),
    "22.2 in a 21.1 bore": ((quill(22.2), threaded(steerer_bore_mm=21.15)), "clash", "too thick"),
    # forum.cyclinguk.org 152655
    "22.2 in a 1 1/8 fork": (
        (quill(22.2), threaded(steerer_mm=28.6)),
        "adapts",
        "quill sleeve 22.2 to 25.4 mm (wall 1.6 mm)",
    ),
    # motorbicycling.com p=105482: the next larger size is filled
    "22.0 in 22.2": ((quill(22.0), threaded(steerer_bore_mm=22.2)), "adapts", "wall 0.1 mm"),
    "21.1 in 22.2": ((quill(21.1), threaded(steerer_bore_mm=22.2)), "clash", "would slip"),
    "25.4 in 28.6": ((quill(25.4), threaded(steerer_mm=31.8)), "adapts", "wall 1.6 mm"),
    "21.1 in 25.4": (
        (quill(21.1), threaded(steerer_mm=28.6)),
        "clash",
        "dangerous: the quill is much too thin",
    ),
    "bore of a thick steerer is not listed": (
        (quill(22.2), threaded(steerer_mm=38.1)),
        "measure",
        "steerer bore of the fork is not known",
    ),
    "quill told by its size": (
        (("stem", {"quill_mm": 22.2}), ("fork", {"steerer_bore_mm": 22.2})),
        "fits",
        "made for",
    ),
    "fork may be of either build": (
        (quill(22.2), ("fork", {"steerer_mm": 25.4})),
        "measure",
        "steerer of the fork is not known",
    ),
    "bore read between sizes": (
        (quill(22.2), threaded(steerer_mm=25.4, steerer_bore_mm=22.1)),
        "measure",
        "read as 22.1 mm",
    ),
    # Wikipedia 'Stem (bicycle part)'
    "quill in a threadless fork": (
        (quill(22.2), threadless(25.4)),
        "clash",
        "take a threadless stem",
    ),
    # cyclopunk.blogspot.com 2012-01
    "28.6 stem on a 1 in threaded fork": (
        (clamped(28.6), threaded(steerer_mm=25.4)),
        "adapts",
        "quill 22.2 mm, top 28.6 mm",
    ),
    "25.4 stem on a 1 1/8 threaded fork": (
        (clamped(25.4), threaded(steerer_mm=28.6)),
        "adapts",
        "quill 25.4 mm, top 25.4 mm",
    ),
    "31.8 stem on a threaded fork": (
        (clamped(31.8), threaded(steerer_mm=25.4)),
        "adapts",
        "and a sleeve 28.6 to 31.8 mm",
    ),
    "stem clamp unmeasured": (
        (clamped(None), threaded(steerer_bore_mm=22.2)),
        "adapts",
        "quill adapter",
    ),
    "nothing but the build known": ((clamped(28.6), threaded()), "adapts", "steerer's bore"),
    "no adapter for a 21.1 bore": (
        (clamped(28.6), threaded(steerer_bore_mm=21.1)),
        "clash",
        "no adapter is made",
    ),
    # federalprism.com steerer
    "28.6 on 28.6": ((clamped(28.6), threadless(28.6)), "fits", "same size"),
    "told by the clamp": (
        (("stem", {"steerer_clamp_mm": 28.6}), threadless(28.6)),
        "fits",
        "same size",
    ),
    "25.4 stem on 28.6": ((clamped(25.4), threadless(28.6)), "clash", "does not go over"),
    # thebiketube.com stem; bikeforums.net 20076552
    "28.6 stem on 25.4": (
        (clamped(28.6), threadless(25.4)),
        "adapts",
        "top cap must press on the stem",
    ),
    # from memory
    "31.8 stem on 28.6": ((clamped(31.8), threadless(28.6)), "adapts", "28.6 to 31.8 mm"),
    "38.1 stem on 28.6": ((clamped(38.1), threadless(28.6)), "adapts", "28.6 to 38.1 mm"),
    "38.1 stem on 31.8": ((clamped(38.1), threadless(31.8)), "adapts", "31.8 to 38.1 mm"),
    "38.1 stem on 25.4": ((clamped(38.1), threadless(25.4)), "clash", "no sleeve of that size"),
    "steerer unmeasured": (
        (clamped(28.6), threadless(None)),
        "measure",
        "steerer diameter of the fork is not known",
    ),
    # common practice, no source
    "stem shifter on its quill": (
        (("shifter", {"mount": "stem", "bar_mm": 22.2}), quill(22.2)),
        "fits",
        "band and quill",
    ),
    "stem shifter on a thinner quill": (
        (("shifter", {"mount": "stem", "bar_mm": 25.4}), quill(22.2)),
        "adapts",
        "sleeve 22.2 to 25.4 mm",
    ),
    "stem shifter on a thicker quill": (
        (("shifter", {"mount": "stem", "bar_mm": 22.2}), quill(25.4)),
        "clash",
        "does not close",
    ),
    "stem shifter on a threadless stem": (
        (("shifter", {"mount": "stem", "bar_mm": 22.2}), clamped(28.6)),
        "clash",
        "no shaft",
    ),
    "stem shifter's band unknown": (
        (("shifter", {"mount": "stem"}), quill(22.2)),
        "measure",
        "bar of the shifter is not known",
    ),
    "bar shifter and stem share nothing": (
        (("shifter", {"mount": "bar-clamp", "bar_mm": 22.2}), quill(22.2)),
        "fits",
        "",
    ),
}


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}
