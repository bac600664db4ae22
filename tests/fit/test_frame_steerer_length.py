"""Steerer, head tube, stack and stem: long enough, and what fills the rest."""

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


def threaded(tube: float | None, steerer: float | None, stack: float | None) -> tuple[Part, ...]:
    """Return frame, threaded fork and headset of these lengths."""
    return (
        ("frame", {"head_tube_length_mm": tube}),
        ("fork", {"steerer": "threaded", "steerer_length_mm": steerer}),
        ("headset", {"steerer": "threaded", "stack_mm": stack}),
    )


def threadless(steerer: float, height: float | None = 40) -> tuple[Part, ...]:
    """Return a frame of 150, a headset of 28.4, a fork of that length and a stem."""
    return (
        ("frame", {"head_tube_length_mm": 150}),
        ("fork", {"steerer": "threadless", "steerer_mm": 28.6, "steerer_length_mm": steerer}),
        ("headset", {"steerer": "threadless", "stack_mm": 28.4, "steerer_mm": 28.6}),
        ("stem", {"type": "threadless", "steerer_clamp_mm": 28.6, "height_mm": height}),
    )


CASES = {
    # Wikipedia 'Headset'; velo-orange.blogspot.com 2017/08: stack 42
    "8 over": (threaded(180, 230, 42), "adapts", "spacers of 8 mm"),
    "exact": (threaded(180, 222, 42), "fits", "agree"),
    "2 short": (threaded(180, 220, 42), "clash", "difference 2 mm"),
    "a lower headset goes": (threaded(180, 220, 40), "fits", "agree"),
    "stack unknown": (threaded(180, 220, None), "measure", "stack of the headset is not known"),
    "steerer unknown": (threaded(180, None, 42), "measure", "steerer length of the fork"),
    # TBIS ISO 4210-2 reprint p. 19: at most 5 below the stem's top
    "3 below": (threadless(215.4), "fits", "below the stem's top by 3 mm"),
    "5 below": (threadless(213.4), "fits", "at most 5 mm"),
    "6 below": (threadless(212.4), "clash", "dangerous: the steerer is too short for this stem"),
    # parktool.com Fork steering column length and sizing: about 3 below
    "flush": (threadless(218.4), "adapts", "spacers of 3 mm"),
    "20 over": (threadless(238.4), "adapts", "spacers of 23 mm"),
    "stem height unknown": (threadless(218.4, None), "measure", "height of the stem is not known"),
    "no stem yet": (threadless(238.4)[:3], "fits", "left for stem and spacers 60 mm"),
    "no room for any stem": (threadless(190)[:3], "clash", "too little"),
    "shorter than tube and headset": (threadless(170), "clash", "too short for head tube"),
    # by geometry
    "cut for another frame": (
        (
            (
                "frame",
                {"head_tube_length_mm": 180, "head_tube_upper": "EC34", "head_tube_lower": "EC34"},
            ),
            ("fork", {"steerer_mm": 28.6, "steerer_length_mm": 170}),
        ),
        "clash",
        "cut for a shorter head tube",
    ),
    "long enough without a headset": (
        (
            (
                "frame",
                {"head_tube_length_mm": 180, "head_tube_upper": "EC34", "head_tube_lower": "EC34"},
            ),
            ("fork", {"steerer_mm": 28.6, "steerer_length_mm": 230}),
        ),
        "fits",
        "made for",
    ),
    "thread of the fork tells": (
        (
            ("frame", {"head_tube_length_mm": 180}),
            ("fork", {"thread": "24tpi", "steerer_length_mm": 230}),
            ("headset", {"thread": "24tpi", "stack_mm": 42}),
        ),
        "adapts",
        "spacers of 8 mm",
    ),
    "headset tells": (
        (
            ("frame", {"head_tube_length_mm": 180}),
            ("fork", {"steerer_length_mm": 230}),
            ("headset", {"steerer": "threaded", "stack_mm": 42}),
        ),
        "measure",
        "spacers of 8 mm",
    ),
}


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}


def test_quill_stem_tells_a_threaded_steerer() -> None:
    """Where neither fork nor headset says it, a quill stem does; with none of them it is asked."""
    parts: tuple[Part, ...] = (
        ("frame", {"head_tube_length_mm": 180}),
        ("fork", {"steerer_length_mm": 230}),
        ("headset", {"stack_mm": 42}),
    )
    stem: Part = ("stem", {"type": "quill"})

    assert "spacers of 8 mm" in told(judged(*parts, stem))
    assert "spacers of 8 mm" not in told(judged(*parts))
    assert str(judged(*parts).verdict) == "measure"


def test_one_length_alone_asks_nothing() -> None:
    """A frame whose head tube is measured does not make every fork and headset a question."""
    names = [one.rule.name for one in judged(*threaded(180, None, None)).interfaces]

    assert "steerer length" not in names
    assert "headset and steerer build" in names
