"""The judge itself: worst verdict, unknowns, adapters among the parts, symmetry."""

from __future__ import annotations

import itertools
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from partsbin.fit.judge import Judgement, judge
from partsbin.fit.verdict import Verdict
from partsbin.fit.words import as_data, headline, why
from partsbin.kinds.spec import Spec
from partsbin.standards.seat import POSTS


def judged(*parts: dict[str, Any]) -> Judgement:
    """Return the judgement of parts as a JSON file writes them."""
    return judge(
        [
            Spec.check(part["kind"], {k: v for k, v in part.items() if k != "kind"}).piece
            for part in parts
        ]
    )


def post(**attributes: Any) -> dict[str, Any]:
    """Return a seatpost."""
    return {"kind": "seatpost", **attributes}


def frame(**attributes: Any) -> dict[str, Any]:
    """Return a frame."""
    return {"kind": "frame", **attributes}


# Sizes and verdicts: bike.bikegremlin.com/3114, Seatpost diameter sizes; 16 CFR 1512.15 names no
# size. The sleeve of 1.0 mm wall: mrbike.com tapered post column 2006 with its wall computed.
CASES = {
    "same size": (post(diameter_mm=27.2), frame(seat_tube_bore_mm=27.2), "fits"),
    "reading of 27.18": (post(diameter_mm=27.18), frame(seat_tube_bore_mm=27.2), "fits"),
    "reading between sizes": (post(diameter_mm=27.1), frame(seat_tube_bore_mm=27.2), "measure"),
    "either size is too thick": (post(diameter_mm=27.1), frame(seat_tube_bore_mm=25.0), "clash"),
    "too thick": (post(diameter_mm=27.2), frame(seat_tube_bore_mm=26.8), "clash"),
    "thin": (post(diameter_mm=25.0), frame(seat_tube_bore_mm=27.0), "adapts"),
    "unknown post": (post(), frame(seat_tube_bore_mm=27.2), "measure"),
    "both unknown": (post(), frame(), "measure"),
}


@pytest.mark.parametrize(("one", "other", "verdict"), CASES.values(), ids=CASES)
def test_verdict_in_any_order(one: dict[str, Any], other: dict[str, Any], verdict: str) -> None:
    """The verdict is the table's, and the order of the parts does not matter."""
    assert judged(one, other).verdict == verdict
    assert judged(other, one).verdict == verdict


def test_adapter_among_the_parts_makes_it_fit() -> None:
    """A post that needs a sleeve fits when that sleeve is there, and says so."""
    parts = (
        post(diameter_mm=25.0),
        frame(seat_tube_bore_mm=27.0),
        {"kind": "seatpost_shim", "inner_mm": 25.0, "outer_mm": 27.0},
    )
    for order in itertools.permutations(parts):
        judgement = judged(*order)
        seat = next(j for j in judgement.interfaces if j.rule.name == "seatpost in seat tube")
        assert seat.finding.verdict is Verdict.FITS
        assert "seatpost shim, inner 25 mm, outer 27 mm" in why(seat.finding)


def test_wrong_adapter_does_not_help() -> None:
    """A sleeve of other sizes leaves the need for the right one."""
    judgement = judged(
        post(diameter_mm=25.0),
        frame(seat_tube_bore_mm=27.0),
        {"kind": "seatpost_shim", "inner_mm": 25.4, "outer_mm": 27.2},
    )
    seat = next(j for j in judgement.interfaces if j.rule.name == "seatpost in seat tube")
    assert seat.finding.verdict is Verdict.ADAPTS


def test_unmeasured_adapter_must_be_measured() -> None:
    """A sleeve that may be the right one is to be measured, and the attribute is named."""
    judgement = judged(
        post(diameter_mm=25.0),
        frame(seat_tube_bore_mm=27.0),
        {"kind": "seatpost_shim", "outer_mm": 27.0},
    )
    seat = next(j for j in judgement.interfaces if j.rule.name == "seatpost in seat tube")
    assert seat.finding.verdict is Verdict.MEASURE
    assert [(t.piece.word, t.attribute) for t in seat.finding.open] == [
        ("seatpost_shim", "inner_mm")
    ]


def test_parts_that_do_not_meet_share_no_interface() -> None:
    """Parts without a common interface fit, with an empty list and these words."""
    judgement = judged({"kind": "saddle"}, {"kind": "chain"})
    assert as_data(judgement) == {
        "verdict": "fits",
        "interfaces": [],
        "why": "share no interface",
    }
    assert headline(judgement) == "share no interface"


def test_measure_names_part_attribute_and_way() -> None:
    """A verdict of measure names what to measure, of which part, how, and what each size means."""
    finding = judged(post(), frame(seat_tube_bore_mm=27.2)).interfaces[0].finding
    text = why(finding)
    assert "diameter of the seatpost is not known" in text
    assert "measure diameter_mm: calliper below the insertion mark" in text
    assert "fits if 27.2 mm" in text


def test_clash_names_both_values_and_the_difference() -> None:
    """A clash gives both values and how far they are apart."""
    text = why(judged(post(diameter_mm=27.2), frame(seat_tube_bore_mm=26.8)).interfaces[0].finding)
    assert "27.2 mm" in text
    assert "26.8 mm" in text
    assert "difference 0.4 mm" in text


def test_assumed_value_never_decides() -> None:
    """What is only assumed gives measure, with the likely answer named."""
    assumed = Spec.check("frame", {"seat_tube_bore_mm": 27.2}, assumed=["seat_tube_bore_mm"])
    judgement = judge([Spec.check("seatpost", {"diameter_mm": 27.2}).piece, assumed.piece])
    assert judgement.verdict is Verdict.MEASURE
    text = why(judgement.interfaces[0].finding)
    assert "seat tube bore of the frame is only assumed" in text
    assert "likely fits" in text


sizes = st.sampled_from([size / 1000 for size in POSTS.listed])


@given(post_size=sizes, bore=sizes)
@settings(max_examples=150, deadline=None)
def test_unknown_never_claims_more_than_the_known_value_gives(
    post_size: float, bore: float
) -> None:
    """If a verdict of fits or clash stands although a size is unknown, the known size agrees."""
    known = judged(post(diameter_mm=post_size), frame(seat_tube_bore_mm=bore)).verdict
    for unknown in (
        judged(post(), frame(seat_tube_bore_mm=bore)).verdict,
        judged(post(diameter_mm=post_size), frame()).verdict,
    ):
        assert unknown in (Verdict.MEASURE, known)
