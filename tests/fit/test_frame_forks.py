"""Steerers through head tubes, tapers, and the length of the fork."""

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


def frame(upper: str | None, lower: str | None = None, **attributes: Any) -> Part:
    """Return a frame with these head tube ends, the lower as the upper if it is not given."""
    return "frame", {"head_tube_upper": upper, "head_tube_lower": lower or upper, **attributes}


def fork(upper: float | None, lower: float | None = None, **attributes: Any) -> Part:
    """Return a fork with these steerer ends."""
    return "fork", {"steerer_mm": upper, "steerer_lower_mm": lower, **attributes}


def lengths(drawn_for: float | None, length: float | None, travel: float | None = None) -> Any:
    """Return a frame and a fork of these lengths, and the head tube that takes the fork."""
    return (
        ("frame", {"fork_axle_to_crown_mm": drawn_for, **ENDS}),
        ("fork", {"axle_to_crown_mm": length, "travel_mm": travel, "steerer_mm": 28.6}),
    )


ENDS = {"head_tube_upper": "EC34", "head_tube_lower": "EC34"}
HEADSET = (
    "headset",
    {"steerer_mm": 28.6, "upper": "ZS44", "lower": "EC44/40", "steerer": "threadless"},
)

ROOM = {
    # mtbr.com 'What is a tapered fork'
    "taper in a 34 bore": ((fork(28.6, 38.1), frame("EC34")), "clash", "no bearing has room"),
    # highlandmist.blogspot.com 2016-10
    "taper in 44 both ends": (
        (fork(28.6, 38.1), frame("ZS44")),
        "adapts",
        "outside lower headset half EC44/40",
    ),
    "the same with that headset": (
        (fork(28.6, 38.1, steerer="threadless"), frame("ZS44"), HEADSET),
        "fits",
        "through the headset",
    ),
    "taper in 34 whatever the headset": (
        (fork(28.6, 38.1, steerer="threadless"), frame("EC34"), HEADSET),
        "clash",
        "no bearing has room",
    ),
    # with a headset among the parts its own rules ask, and only the room is told here
    "headset, frame unmeasured": (
        (fork(28.6, 38.1, steerer="threadless"), frame(None), HEADSET),
        "measure",
        "head tube lower of the frame is not known",
    ),
    "headset, fork unmeasured": (
        (fork(None, steerer="threadless"), frame("ZS44"), HEADSET),
        "measure",
        "steerer diameter of the fork is not known",
    ),
    "headset, straight or tapered": (
        (fork(28.6, steerer="threadless"), frame("ZS44", "ZS56"), HEADSET),
        "clash",
        "through the headset",
    ),
    # canecreek.com headset-fit-finder
    "taper in its tube": ((fork(28.6, 38.1), frame("ZS44", "ZS56")), "fits", "made for"),
    "taper told by the crown seat": (
        (fork(28.6, crown_race_mm=40), frame("ZS44", "EC49")),
        "fits",
        "fork crown race 40 mm",
    ),
    "taper in an outside 44": ((fork(28.6, 38.1), frame("ZS44", "EC44")), "fits", "made for"),
    "taper on bearing seats": ((fork(28.6, 38.1), frame("IS42", "IS52")), "fits", "made for"),
    "newest lower end": ((fork(28.6, 38.1), frame("ZS44", "ZS62")), "fits", "made for"),
    "1.5 both ends": ((fork(38.1, 38.1), frame("EC49")), "fits", "made for"),
    "thick at the top": ((fork(38.1, 38.1), frame("ZS44", "ZS56")), "clash", "head tube upper"),
    "straight 1 1/8": ((fork(28.6), frame("EC34")), "fits", "made for"),
    "1 1/8 on bearing seats": ((fork(28.6), frame("IS41")), "fits", "made for"),
    "one inch": ((fork(25.4), frame("EC30.2-iso")), "fits", "made for"),
    "one inch JIS": ((fork(25.4), frame("EC30.0-jis")), "fits", "made for"),
    "one inch, norm not known": ((fork(25.4), frame("EC30")), "fits", "made for"),
    "1 1/8 in any one-inch frame": ((fork(28.6), frame("EC30")), "clash", "no bearing has room"),
    "French steerer, norm not known": ((fork(25.0), frame("EC30")), "measure", "read as EC30"),
    "one-piece crank frame": ((fork(25.4), frame("EC32.7")), "fits", "made for"),
    "1 1/4": ((fork(31.8), frame("EC37")), "fits", "made for"),
    # rec.bicycles.tech via narkive 1 vs 1 1/8
    "1 1/8 fork in a 1 in frame": (
        (fork(28.6), frame("EC30.2-iso")),
        "clash",
        "steerer 28.6 mm, at most 25.4 mm",
    ),
    # forum.bikeradar.com 12956029: a reducing half
    "straight fork in a taper's tube": (
        (fork(28.6, 28.6), frame("ZS44", "ZS56")),
        "adapts",
        "reducing lower headset half ZS56/30",
    ),
    # brainybiker.com tapered forks: not the same taper
    "1 1/4 taper in a 1.5 tube": (
        (fork(28.6, 31.8), frame("ZS44", "ZS56")),
        "adapts",
        "reducing lower headset half ZS56/33",
    ),
    "1 in fork in a 1 1/8 frame": (
        (fork(25.4), frame("EC34")),
        "adapts",
        "reducing upper headset half EC34/25.4",
    ),
    "threaded is straight": (
        (fork(25.4, steerer="threaded"), frame("EC34")),
        "adapts",
        "reducing lower headset half EC34/26.4",
    ),
    "straight or tapered decides": (
        (fork(28.6), frame("ZS44", "ZS56")),
        "measure",
        "steerer lower of the fork is not known",
    ),
    "1.5 head tube reduced at both ends": (
        (fork(28.6), frame("EC49")),
        "adapts",
        "reducing upper headset half EC49/28.6",
    ),
    "1.5 head tube, upper end unknown": (
        (fork(28.6), ("frame", {"head_tube_lower": "EC49"})),
        "measure",
        "head tube upper of the frame is not known",
    ),
    "French steerer in its bore": (
        (fork(25.0, steerer="threaded"), frame("EC30.2-iso")),
        "fits",
        "made for",
    ),
    "French steerer elsewhere": (
        (fork(25.0, steerer="threaded"), frame("EC34")),
        "clash",
        "no headset for this steerer",
    ),
    "lower end unknown": (
        (fork(28.6, 38.1), ("frame", {"head_tube_upper": "ZS44"})),
        "measure",
        "head tube lower of the frame is not known",
    ),
    "bore of no table": ((fork(28.6, 28.6), frame("ZS55")), "measure", "read as ZS55"),
}
# brainybiker.com tapered forks: about 86 mm
TAPERS = {
    "long head tube": (
        (fork(28.6, 38.1), frame("ZS44", "ZS56", head_tube_length_mm=120)),
        "fits",
        "longer than a usual taper",
    ),
    "short head tube": (
        (fork(28.6, 38.1), frame("ZS44", "ZS56", head_tube_length_mm=80)),
        "adapts",
        "must be under 80 mm",
    ),
    "straight in a short head tube": (
        (fork(28.6, 28.6), frame("EC34", head_tube_length_mm=80)),
        "fits",
        "made for",
    ),
}
# carboncycles.cc viewtopic 4551: 525 less a quarter of 120 is 495, sold at 490; limits from memory
LENGTHS = {
    "rigid as drawn": (lengths(395, 397), "fits", "as long as"),
    "sprung fork for its rigid length": (lengths(495, 525, 120), "fits", "as long as"),
    "sold 5 shorter": (lengths(490, 525, 120), "fits", "as long as"),
    "sprung fork for its own length": (lengths(525, 525, 120), "fits", "as long as"),
    "a little longer": (lengths(395, 410, 0), "adapts", "longer by 15 mm"),
    "a little shorter": (lengths(440, 410), "adapts", "shorter by 30 mm"),
    "far too long": (lengths(395, 440, 0), "clash", "strains the head tube"),
    "far too short": (lengths(440, 375), "clash", "pedals come low"),
    "length unknown asks nothing": (lengths(395, None), "fits", "made for"),
}
CASES = ROOM | TAPERS | LENGTHS


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}
