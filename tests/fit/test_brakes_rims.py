"""Rim brakes: mounts, bolts, tracks, calliper reach and bosses by wheel size."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.rim_brakes import MOUNTS, RIM_MOUNTS
from tests.fit.brake_parts import certain, fork, frame, part, rim_brake, verdict, wheel

MOUNT = "rim brake on frame or fork"
BOLT = "bolt of calliper"
TRACK = "rim brake on rim"
WHEEL = "wheel for the brakes of frame or fork"
REACH = "reach of calliper"
BOSSES = "brake bosses for wheel size"

LINEAR = rim_brake(type="linear-pull")


@pytest.mark.parametrize("mount", sorted(RIM_MOUNTS))
@pytest.mark.parametrize("kind", MOUNTS)
def test_every_type_on_every_mount(kind: str, mount: str) -> None:
    """Each type goes on its own mounts only: bikerhub.net; bikecad.ca/canti_bosses."""
    wanted = "fits" if mount in MOUNTS[kind] else "clash"

    assert wanted == verdict(MOUNT, rim_brake(type=kind), frame(brake_mounts=[mount]))
    assert wanted == judge([rim_brake(type=kind), frame(brake_mounts=[mount])]).verdict


ON_MOUNTS = {
    # bikeforums.net 682238 and bikecad.ca/canti_bosses: its bosses stand above the rim.
    "U-brake on cantilever studs": (
        rim_brake(type="u-brake"),
        frame(brake_mounts=["canti-boss"]),
        "clash",
    ),
    "rim brake on a disc fork": (LINEAR, fork(brake_mounts=["is-51"]), "clash"),
    "no mount at all": (LINEAR, fork(brake_mounts=[]), "clash"),
    "bosses beside a disc mount": (LINEAR, fork(brake_mounts=["canti-boss", "is-51"]), "fits"),
    "mounts unknown": (LINEAR, frame(), "measure"),
    "type unknown": (rim_brake(), frame(brake_mounts=["canti-boss"]), "measure"),
    "type unknown, no rim mount": (rim_brake(), frame(brake_mounts=["post-74"]), "clash"),
    "a reach makes it a calliper": (
        rim_brake(reach_min_mm=39),
        fork(brake_mounts=["canti-boss"]),
        "clash",
    ),
    "a reach on the fork means a hole": (
        rim_brake(type="dual-pivot"),
        fork(brake_reach_mm=45),
        "fits",
    ),
    "rear brake, fork": (rim_brake(type="linear-pull", side="rear"), fork(), "none"),
    "front brake, frame": (
        rim_brake(type="linear-pull", side="front"),
        frame(brake_mounts=["is-51"]),
        "none",
    ),
    "front brake, fork": (
        rim_brake(type="linear-pull", side="front"),
        fork(brake_mounts=["canti-boss"]),
        "fits",
    ),
}


@pytest.mark.parametrize(("brake", "holder", "wanted"), ON_MOUNTS.values(), ids=ON_MOUNTS)
def test_rim_brake_on_frame_or_fork(brake: Kind, holder: Kind, wanted: str) -> None:
    """The type wants its mounts, at its own end of the bike."""
    assert wanted == verdict(MOUNT, brake, holder)


def test_clash_names_what_the_mounts_take() -> None:
    """The remedy lists the types that do go."""
    text = why(certain(MOUNT, LINEAR, frame(brake_mounts=["u-brake-boss"])).finding)

    assert "the frame takes u-brake" in text
    assert "takes no rim brake" in why(certain(MOUNT, LINEAR, fork(brake_mounts=[])).finding)


HOLE, RECESSED = {"brake_mounts": ["calliper-hole"]}, {"brake_mounts": ["calliper-recessed"]}


@pytest.mark.parametrize(
    ("brake", "holder", "wanted"),
    [
        # smontanaro.net/CR/2005/1/778
        ({"type": "dual-pivot", "bolt": "nut"}, RECESSED, "adapts"),
        ({"type": "dual-pivot", "bolt": "nut"}, HOLE, "fits"),
        ({"type": "side-pull", "bolt": "recessed"}, RECESSED, "fits"),
        # From memory: not without drilling the rear of the hole.
        ({"type": "side-pull", "bolt": "recessed"}, HOLE, "clash"),
        ({"bolt": "nut"}, HOLE, "fits"),
        ({"type": "side-pull", "bolt": "nut"}, {}, "measure"),
        ({"type": "linear-pull", "bolt": "nut"}, HOLE, "none"),
        ({"type": "dual-pivot", "bolt": "nut"}, {"brake_mounts": ["is-51"]}, "none"),
        ({"type": "dual-pivot", "bolt": "nut", "side": "rear"}, HOLE, "none"),
    ],
)
def test_bolt_of_calliper(brake: dict[str, Any], holder: dict[str, Any], wanted: str) -> None:
    """Nut on recessed adapts with washers or another bolt; recessed on a plain hole clashes."""
    assert wanted == verdict(BOLT, rim_brake(**brake), fork(**holder))


def test_unknown_bolt_is_not_asked_for() -> None:
    """Where nothing is said of the bolt, the mounts decide and the bolt is named as unchecked."""
    judgement = judge([rim_brake(type="dual-pivot"), fork(**HOLE)])

    assert judgement.verdict == "fits"
    assert BOLT in judgement.unchecked


@pytest.mark.parametrize("kind", ["wheel", "rim"])
@pytest.mark.parametrize(("track", "wanted"), [("yes", "fits"), ("no", "clash"), (None, "measure")])
def test_rim_brake_needs_a_track(kind: str, track: str | None, wanted: str) -> None:
    """A rim without a braking track is dangerous under rim pads: fitro.info wheel and fork fit."""
    judged = certain(TRACK, LINEAR, part(kind, brake_track=track))

    assert judged.finding.verdict == wanted
    assert judged.finding.dangerous == (wanted == "clash")


def test_track_is_asked_of_the_same_end_only() -> None:
    """A front brake says nothing of a rear wheel."""
    front = rim_brake(type="linear-pull", side="front")

    assert verdict(TRACK, front, wheel(side="rear", brake_track="no")) == "none"


@pytest.mark.parametrize(
    ("rolling", "holder", "wanted"),
    [
        # fitro.info and alltoolsforyou.com: rim-only wheel on a disc-only fork.
        ({"brake_track": "yes", "rotor_mount": "none"}, fork(brake_mounts=["post-74"]), "clash"),
        ({"rotor_mount": "six-bolt-44"}, fork(brake_mounts=["post-74"]), "fits"),
        ({"brake_track": "no"}, frame(brake_mounts=["canti-boss"]), "clash"),
        ({"brake_track": "yes"}, frame(brake_mounts=["calliper-hole"]), "fits"),
        ({"brake_track": "no"}, frame(brake_mounts=["canti-boss", "is-51"]), "none"),
        ({"brake_track": "no"}, frame(brake_mounts=[]), "none"),
        ({"rotor_mount": "none"}, frame(brake_mounts=["canti-boss"]), "none"),
        ({"brake_track": "no", "side": "front"}, frame(brake_mounts=["canti-boss"]), "none"),
        ({"brake_track": "no"}, frame(), "none"),
    ],
)
def test_wheel_for_the_mounts(rolling: dict[str, Any], holder: Kind, wanted: str) -> None:
    """The wheel must have what the only possible brake works on."""
    assert wanted == verdict(WHEEL, wheel(**rolling), holder)


CALLIPER = {"type": "dual-pivot"}


@pytest.mark.parametrize(
    ("brake", "holder", "wanted"),
    [
        # bmxworks.com.au how to callipers reach
        ({"reach_min_mm": 39, "reach_max_mm": 49}, {"brake_reach_mm": 45}, "fits"),
        ({"reach_min_mm": 39, "reach_max_mm": 49}, {"brake_reach_mm": 49}, "fits"),
        ({"reach_min_mm": 39, "reach_max_mm": 49}, {"brake_reach_mm": 39}, "fits"),
        ({"reach_min_mm": 39, "reach_max_mm": 49}, {"brake_reach_mm": 50}, "clash"),
        ({"reach_min_mm": 47, "reach_max_mm": 57}, {"brake_reach_mm": 45}, "clash"),
        ({"reach_min_mm": 47}, {"brake_reach_mm": 45}, "clash"),
        ({"reach_max_mm": 49}, {"brake_reach_mm": 50}, "clash"),
        ({"reach_max_mm": 49}, {"brake_reach_mm": 45}, "measure"),
        ({"reach_min_mm": 39}, {"brake_reach_mm": 45}, "measure"),
        ({"reach_min_mm": 39, "reach_max_mm": 49}, {}, "measure"),
        ({}, {"brake_reach_mm": 45}, "measure"),
    ],
)
def test_reach_of_calliper(brake: dict[str, Any], holder: dict[str, Any], wanted: str) -> None:
    """The needed reach lies between the calliper's ends, which belong to it."""
    assert wanted == verdict(REACH, rim_brake(**CALLIPER, **brake), fork(**holder))


def test_reach_is_the_callipers_only() -> None:
    """A boss brake has no reach; a rear calliper does not hang on a fork."""
    assert verdict(REACH, LINEAR, fork(brake_reach_mm=45)) == "none"
    rear = rim_brake(type="dual-pivot", side="rear", reach_min_mm=39, reach_max_mm=49)
    assert verdict(REACH, rear, fork(brake_reach_mm=60)) == "none"


LONG_REACH = {"reach_min_mm": 55, "reach_max_mm": 73}
MEDIUM = {"reach_min_mm": 47, "reach_max_mm": 57}
SHORT = {"reach_min_mm": 39, "reach_max_mm": 49}


@pytest.mark.parametrize(
    ("placed_for", "reach", "rolling", "brake", "wanted"),
    [
        # fixed.org.au 42786: 27 in to 700C brings the pads 4 mm down, if the range allows.
        (630, 53, 622, MEDIUM, "fits"),
        (630, 53, 622, LONG_REACH, "fits"),
        (630, 46, 622, SHORT, "clash"),
        (622, 45, 622, SHORT, "fits"),
        # Half of the step: 622 to 584 is 19, 590 to 559 is 15.5.
        (622, 45, 584, LONG_REACH, "fits"),
        (622, 45, 584, MEDIUM, "clash"),
        (590, 57.5, 559, LONG_REACH, "fits"),
        (590, 57.6, 559, LONG_REACH, "clash"),
        # A larger wheel wants less reach.
        (622, 50, 630, SHORT, "fits"),
        (622, 47, 630, MEDIUM, "clash"),
        (None, 45, 622, SHORT, "measure"),
        (None, 52, 622, SHORT, "clash"),
        (622, 45, None, SHORT, "measure"),
    ],
)
def test_reach_with_another_wheel(
    placed_for: int | None, reach: float, rolling: int | None, brake: dict[str, Any], wanted: str
) -> None:
    """The needed reach grows by half of how much smaller the wheel's bead seat is."""
    holder = frame(brake_reach_mm=reach, wheel_bsd_mm=placed_for)
    parts = (rim_brake(**CALLIPER, **brake), holder, wheel(bsd_mm=rolling, brake_track="yes"))

    assert wanted == verdict(REACH, *parts)


def test_the_other_ends_wheel_changes_no_reach() -> None:
    """A rear wheel is nothing to the front calliper, which stays too short for its fork."""
    front = rim_brake(**CALLIPER, **SHORT)
    rear_wheel = wheel(side="rear", bsd_mm=559, brake_track="yes")

    assert verdict(REACH, front, fork(brake_reach_mm=52), rear_wheel) == "clash"
    assert verdict(REACH, front, fork(brake_reach_mm=45), rear_wheel) == "none"


def test_reach_says_what_is_needed_and_which_class() -> None:
    """The computed reach is shown with the limit that it misses, and the class that has it."""
    parts = (
        rim_brake(**CALLIPER, **SHORT),
        frame(brake_reach_mm=46, wheel_bsd_mm=630),
        wheel(bsd_mm=622, brake_track="yes"),
    )
    text = why(certain(REACH, *parts).finding)

    assert "reaches down to 49 mm, needed reach 50 mm, difference 1 mm" in text
    assert "medium (47 to 57 mm)" in text
    far = (rim_brake(**CALLIPER, **SHORT), frame(brake_reach_mm=90))
    assert "take a calliper that reaches 90 mm" in why(certain(REACH, *far).finding)


def test_reach_is_no_question_where_nobody_speaks_of_it() -> None:
    """A calliper, its hole and a wheel raise no question of a reach that nobody recorded."""
    parts = (rim_brake(**CALLIPER), fork(**HOLE), wheel(bsd_mm=622, brake_track="yes"))

    assert verdict(REACH, *parts) == "none"


# 622, 584 and 559 are 19, 12.5 and 31.5 mm apart at the pads: fixed.org.au 42786, bikeforums.net
# 682238 for 31.5; what a slot gives is from memory.
BOSS_CASES = {
    "622 on bosses for 559": (559, 622, "clash"),
    "559 on bosses for 622": (622, 559, "clash"),
    "584 on bosses for 622": (622, 584, "clash"),
    "559 on bosses for 584": (584, 559, "adapts"),
    "584 on bosses for 559": (559, 584, "adapts"),
    "559 on bosses for 590": (590, 559, "clash"),
    "622 on bosses for 630": (630, 622, "adapts"),
    "622 on bosses for 635": (635, 622, "adapts"),
    "584 on bosses for 590": (590, 584, "adapts"),
    "same": (559, 559, "fits"),
    "540 on bosses for 541": (541, 540, "fits"),
    "wheel unknown": (559, None, "measure"),
    "bosses unknown": (None, 559, "measure"),
}


@pytest.mark.parametrize("holder", [frame, fork])
@pytest.mark.parametrize(("placed_for", "rolling", "wanted"), BOSS_CASES.values(), ids=BOSS_CASES)
def test_bosses_for_wheel(
    holder: Any, placed_for: int | None, rolling: int | None, wanted: str
) -> None:
    """Bosses serve the wheel that they were placed for, and one within the slot of the pads."""
    carrying = holder(brake_mounts=["canti-boss"], wheel_bsd_mm=placed_for)
    parts = (carrying, wheel(bsd_mm=rolling, brake_track="yes"), LINEAR)

    assert wanted == verdict(BOSSES, *parts)


@pytest.mark.parametrize(
    ("mounts", "brake", "wanted"),
    [
        (["canti-boss"], None, "clash"),
        (["u-brake-boss"], None, "clash"),
        (["u-brake-boss"], rim_brake(type="u-brake"), "clash"),
        # A disc brake does not mind the wheel's size, a calliper has its own reach.
        (["canti-boss", "post-74"], None, "none"),
        (["post-74"], None, "none"),
        (["calliper-hole"], None, "none"),
        ([], None, "none"),
        (None, None, "none"),
        (["calliper-hole"], rim_brake(type="side-pull"), "none"),
        (None, rim_brake(type="cantilever"), "clash"),
        (["canti-boss"], rim_brake(), "clash"),
        # The other end's brake changes nothing, nor does a brake that does not go there.
        (["canti-boss"], rim_brake(type="linear-pull", side="rear"), "clash"),
        (["canti-boss"], rim_brake(type="side-pull"), "clash"),
        (["canti-boss", "post-74"], LINEAR, "clash"),
    ],
)
def test_bosses_matter_where_a_brake_can_only_stand_on_them(
    mounts: list[str] | None, brake: Kind | None, wanted: str
) -> None:
    """A 622 wheel on a fork placed for 559 clashes if only bosses can carry its brake."""
    parts = [fork(brake_mounts=mounts, wheel_bsd_mm=559), wheel(bsd_mm=622, brake_track="yes")]

    assert wanted == verdict(BOSSES, *parts, *([brake] if brake else []))


def test_bosses_ask_nothing_without_a_brake() -> None:
    """Frame and wheel alone raise no question of where bosses stand."""
    parts = (frame(brake_mounts=["canti-boss"]), wheel(bsd_mm=559))

    assert verdict(BOSSES, *parts) == "none"


@pytest.mark.parametrize(
    ("placed_for", "rolling", "words"),
    [
        (630, 622, "pads 4 mm lower, within any brake's slot"),
        (622, 635, "pads 6.5 mm higher, near the end of a usual slot"),
        (584, 559, "brake with long pad slots, or boss plates: pads 12.5 mm lower"),
        (559, 622, "pads must move 31.5 mm, most that a long slot gives 12.5 mm"),
    ],
)
def test_shift_of_the_pads_is_told(placed_for: int, rolling: int, words: str) -> None:
    """The reason says how far and which way the pads go."""
    parts = (
        fork(brake_mounts=["canti-boss"], wheel_bsd_mm=placed_for),
        wheel(bsd_mm=rolling, brake_track="yes"),
        LINEAR,
    )

    assert words in why(certain(BOSSES, *parts).finding)
