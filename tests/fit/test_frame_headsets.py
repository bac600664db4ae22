"""Headset halves in head tubes, headsets on steerers, races on crowns."""

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


def halves(half: str | None, end: str | None) -> tuple[Part, Part]:
    """Return a headset and a frame, both ends of one code each."""
    return (
        ("headset", {"upper": half, "lower": half}),
        ("frame", {"head_tube_upper": end, "head_tube_lower": end}),
    )


def races(race: float | None, seat: float | None, **fork: Any) -> tuple[Part, Part]:
    """Return a headset of that race and a fork of that crown seat."""
    return ("headset", {"crown_race_mm": race}), ("fork", {"crown_race_mm": seat, **fork})


def both(name: str, headset: object, fork: object) -> tuple[Part, Part]:
    """Return a headset and a fork that differ in one attribute."""
    return ("headset", {name: headset}), ("fork", {name: fork})


HALVES = {
    # canecreek.com headset-fit-finder
    "same code": (halves("EC34", "EC34"), "fits", "one size and build"),
    "steerer behind the slash": (halves("EC34/28.6", "EC34"), "fits", "one size and build"),
    "1.5 cup by its figure": (halves("EC49.6", "EC49"), "fits", "one size and build"),
    "too large": (halves("EC44", "EC34"), "clash", "too large"),
    "too small": (halves("EC34", "EC44"), "clash", "take a headset for a 44 mm bore"),
    "bore of no table": (halves("ZS55", "ZS56"), "clash", "loose"),
    # bike-advisor.com headsets explained: no cup, seat machined in the frame
    "bearing on its seat": (halves("IS42", "IS42"), "fits", "one size and build"),
    "bearing on another seat": (halves("IS41", "IS42"), "clash", "loose"),
    "bearing without a seat": (halves("IS42", "ZS44"), "clash", "needs its own seat"),
    "cup on a bearing seat": (halves("ZS44", "IS42"), "clash", "pressed cup"),
    # highlandmist.blogspot.com 2016-10: outside cup in a 44 bore, 12 deep in a recess of 9
    "outside cup in an inside tube": (halves("EC44/40", "ZS44"), "fits", "recess is too shallow"),
    # one inch: bores doczz.net/doc/5531034; cups overwheel.net; cracked lugs rennrad-news.de
    "ISO in ISO": (halves("EC30.2-iso", "EC30.2-iso"), "fits", "one size"),
    "JIS in JIS": (halves("EC30.0-jis", "EC30.0-jis"), "fits", "one size"),
    "ISO by its bore": (halves("EC30.2", "EC30.2-iso"), "fits", "one size"),
    "ISO cup in a JIS frame": (
        halves("EC30.2-iso", "EC30.0-jis"),
        "clash",
        "dangerous: the cup is far too thick for the tube and cracks it",
    ),
    "JIS cup in an ISO frame": (
        halves("EC30.0-jis", "EC30.2-iso"),
        "clash",
        "play up to 0.1 mm",
    ),
    "plain 30 may be either": (halves("EC30", "EC30.2-iso"), "measure", "read as EC30"),
    "plain 30 of the frame": (halves("EC30.2-iso", "EC30"), "measure", "read as EC30"),
    "plain 30 is no 34": (halves("EC30", "EC34"), "clash", "loose"),
    "half unknown": (halves(None, "EC34"), "measure", "upper of the headset is not known"),
    "only the upper ends are known": (
        (("headset", {"upper": "ZS44"}), ("frame", {"head_tube_upper": "ZS44"})),
        "fits",
        "one size and build",
    ),
}
BUILDS = {
    # Wikipedia 'Headset'
    "threaded both": (both("steerer", "threaded", "threaded"), "fits", "one build"),
    "locknut on a plain steerer": (
        both("steerer", "threaded", "threadless"),
        "clash",
        "no thread to hold on",
    ),
    "threadless on a thread": (
        both("steerer", "threadless", "threaded"),
        "clash",
        "take a threaded headset",
    ),
    "build unknown": (both("steerer", None, "threaded"), "measure", "steerer of the headset"),
    "thread tells the build": (
        (("headset", {"thread": "24tpi"}), ("fork", {"steerer": "threaded", "thread": "24tpi"})),
        "fits",
        "one build",
    ),
    "28.6 on 28.6": (both("steerer_mm", 28.6, 28.6), "fits", "same size"),
    "1 in headset on a 1 1/8 fork": (both("steerer_mm", 25.4, 28.6), "clash", "does not go"),
    "1 1/8 headset on a 1 in fork": (both("steerer_mm", 28.6, 25.4), "clash", "too thin"),
    "size behind the slash": (
        (("headset", {"upper": "ZS44/28.6"}), ("fork", {"steerer_mm": 28.6})),
        "fits",
        "same size",
    ),
    "size unknown": (both("steerer_mm", None, 28.6), "measure", "steerer diameter of the headset"),
    # rennrad-news.de thread 92675: Italian 25.4 x 24 tpi is the English thread
    "24 on 24": (both("thread", "24tpi", "24tpi"), "fits", "one thread"),
    "24 on French": (both("thread", "24tpi", "m25x1"), "clash", "dangerous: the threads differ"),
    "24 on 26": (both("thread", "24tpi", "26tpi"), "clash", "take a headset with 26tpi"),
    "thread unknown": (both("thread", None, "24tpi"), "measure", "thread of the headset"),
    "no thread to compare": (
        (("headset", {"steerer": "threadless"}), ("fork", {"steerer": "threadless"})),
        "fits",
        "one build",
    ),
    "steerer thicker than the lower half": (
        (("headset", {"lower": "ZS44"}), ("fork", {"steerer_lower_mm": 38.1})),
        "clash",
        "does not go through the lower half",
    ),
    "half of no table": (
        (("headset", {"upper": "ZS55", "steerer_mm": 28.6}), ("fork", {"steerer_mm": 28.6})),
        "fits",
        "same size",
    ),
    "outside half carries it": (
        (
            ("headset", {"lower": "EC44", "crown_race_mm": 40}),
            ("fork", {"steerer_lower_mm": 38.1}),
        ),
        "fits",
        "halves have room",
    ),
}
RACES = {
    # overwheel.net column 2022-10-02
    "JIS race on an ISO seat": (races(27.0, 26.4), "clash", "difference 0.6 mm"),
    # milling: Wikipedia 'Headset'; forums.pelicanparts.com post 12020038
    "ISO race on a JIS seat": (races(26.4, 27.0), "adapts", "milled from 27 to 26.4 mm"),
    "carbon is not milled": (
        races(26.4, 27.0, steerer_material="carbon"),
        "clash",
        "does not go on the crown",
    ),
    "same": (races(26.4, 26.4), "fits", "same size"),
    "code 40 is 39.8": (races(40, 39.8), "fits", "same size"),
    # highlandmist.blogspot.com 2016-10; forum.bikeradar.com 12956029
    "straight fork in a 1.5 headset": (races(39.8, 30), "adapts", "reducer race 30 to 39.8 mm"),
    "1 1/4 in a 1.5 headset": (races(39.8, 33), "adapts", "reducer race 33 to 39.8 mm"),
    "straight fork in a 1 1/4 headset": (races(33, 30), "adapts", "reducer race 30 to 33 mm"),
    "1.5 fork in a straight headset": (races(30, 39.8), "clash", "does not go on the crown"),
    "1 in fork in a 1 1/8 headset": (races(30, 26.4), "clash", "loose on the crown"),
    # transwikia.com copy of Bicycles Stack Exchange 'straight 1 1/8'
    "straight 1 1/8 has a 30.0 seat": (
        races(30, None, steerer="threaded", steerer_mm=28.6, thread="26tpi"),
        "measure",
        "fork steerer diameter 28.6 mm",
    ),
    "taper told by its lower end": (
        races(40, None, steerer_lower_mm=38.1),
        "fits",
        "fork steerer lower 38.1 mm",
    ),
    "race behind the slash": (
        (("headset", {"lower": "EC44/40"}), ("fork", {"crown_race_mm": 39.8})),
        "fits",
        "headset lower EC44/40",
    ),
    "seat unknown": (races(26.4, None), "measure", "crown race of the fork is not known"),
    "one-inch seat may be either": (
        races(26.4, None, steerer="threaded", steerer_mm=25.4),
        "measure",
        "crown race of the fork is not known",
    ),
    "seat read between sizes": (
        races(26.4, 26.7, steerer_lower_mm=28.6),
        "measure",
        "read as 26.7 mm",
    ),
    "race unknown": (races(None, 26.4), "measure", "crown race of the headset is not known"),
}
CASES = HALVES | BUILDS | RACES


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}
