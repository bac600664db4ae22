"""Rear derailleurs by their ratings and hangers; front derailleurs, their shifters and rings."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.derailleur_capacity import total_capacity
from partsbin.fit.judge import judge
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from tests.fit.brake_parts import certain, combined, part, verdict
from tests.fit.drivetrain_parts import (
    cassette,
    chainset,
    derailleur,
    frame,
    front_derailleur,
    front_shifter,
    pulley,
    rear_shifter,
)

LARGEST = "largest sprocket"
CAPACITY = "derailleur capacity"
HANGER = "derailleur on frame"
FRONT = "front shifter and derailleur"
RING_POSITIONS = "shifter positions for rings"
BIG_RING = "front derailleur and big ring"
RING_COUNT = "front derailleur and number of rings"
FRONT_CAPACITY = "front derailleur capacity"
MOUNT = "front derailleur on frame"


@pytest.mark.parametrize(
    ("rings", "cogs", "teeth"),
    [
        # bluecollarmtb.com; defietssite.nl; jitetan.com total_capacity; bikelabstudio.com
        ((22, 32, 42), (12, 34), 42),
        ((24, 32, 44), (12, 34), 42),
        ((34, 50), (12, 25), 29),
        ((32,), (10, 52), 42),
    ],
)
def test_total_capacity(rings: tuple[int, ...], cogs: tuple[int, ...], teeth: int) -> None:
    """Capacity is the rings' difference and the sprockets' together."""
    assert total_capacity(rings, cogs) == teeth


COGS = {
    # libstdc.com 7264; bluecollarmtb.com; roadbikereview.com; velonews.com (washer)
    "within": ({"max_cog": 34}, [11, 34], "fits"),
    "a racing one rated 26 with 28": ({"max_cog": 26}, [12, 28], "adapts"),
    "short cage rated 28 with 32": ({"max_cog": 28}, [11, 32], "adapts"),
    "far beyond": ({"max_cog": 28}, [11, 34], "clash"),
    "unknown rating": ({"speeds": 9}, [11, 32], "measure"),
    "unknown rating, small sprockets": ({"speeds": 9}, [11, 25], "fits"),
    "long cage of unknown rating": ({"capacity_teeth": 45}, [12, 34], "fits"),
    "long cage, more than such have": ({"capacity_teeth": 45}, [11, 40], "measure"),
    "medium cage of unknown rating": ({"capacity_teeth": 33}, [11, 32], "measure"),
    "unknown sprockets": ({"max_cog": 34}, None, "measure"),
    "nothing known": ({"speeds": 9}, None, "none"),
}


@pytest.mark.parametrize(("rated", "cogs", "wanted"), COGS.values(), ids=COGS)
def test_largest_sprocket(rated: dict[str, Any], cogs: list[int] | None, wanted: str) -> None:
    """The largest sprocket must be within the rating, or just past it with a change."""
    assert wanted == verdict(LARGEST, derailleur(**rated), cassette(cogs=cogs, speeds=9))


CAGES = {
    # bluecollarmtb.com 2007-06-19; libstdc.com 7264
    "medium 33": ({"capacity_teeth": 33}, [22, 32, 42], [12, 34], "clash"),
    "long 45": ({"capacity_teeth": 45}, [22, 32, 42], [12, 34], "fits"),
    "short 29": ({"capacity_teeth": 29}, [34, 50], [12, 25], "fits"),
    "one tooth more": ({"capacity_teeth": 28}, [34, 50], [12, 25], "clash"),
    "sprockets alone too many": ({"capacity_teeth": 29}, None, [11, 42], "clash"),
    "rings alone too many": ({"capacity_teeth": 16}, [22, 42], None, "clash"),
    "sprockets alone": ({"capacity_teeth": 29}, None, [11, 34], "none"),
    "unknown, but every cage has it": ({"max_cog": 28}, [39, 53], [12, 25], "none"),
    "unknown, and it decides": ({"max_cog": 34}, [22, 42], [12, 34], "measure"),
}


@pytest.mark.parametrize(("rated", "rings", "cogs", "wanted"), CAGES.values(), ids=CAGES)
def test_capacity(
    rated: dict[str, Any], rings: list[int] | None, cogs: list[int] | None, wanted: str
) -> None:
    """The cage must take up rings and sprockets together; each alone can only be too much."""
    rest = [chainset(rings=rings)] if rings else []
    rest += [cassette(cogs=cogs)] if cogs else []

    assert wanted == verdict(CAPACITY, derailleur(**rated), *rest)


def test_two_that_fit_alone_clash_in_the_train() -> None:
    """Sprockets and rings that each go with a derailleur may be too much for it together."""
    rear, rings = derailleur(max_cog=34, capacity_teeth=33), chainset(rings=[22, 32, 42])
    sprockets = cassette(cogs=[12, 34])

    assert judge([rear, rings]).verdict == "fits"
    assert judge([rear, sprockets]).verdict == "fits"
    assert judge([rear, sprockets, rings]).verdict == "clash"


HANGERS = {
    ("hanger", "integral"): "fits",
    ("hanger", "replaceable"): "fits",
    ("hanger", "none"): "adapts",
    ("claw", "none"): "fits",
    ("claw", "integral"): "adapts",
    ("direct", "replaceable"): "adapts",
    ("direct", "integral"): "adapts",
    ("direct", "none"): "clash",
}


@pytest.mark.parametrize(("mount", "hanger"), HANGERS, ids=lambda value: value)
def test_hanger(mount: str, hanger: str) -> None:
    """A bolt wants an eye, a plate wants an open dropout. Common practice."""
    parts = derailleur(mount=mount), frame(hanger=hanger)

    assert HANGERS[mount, hanger] == verdict(HANGER, *parts)


def test_no_plate_in_closed_dropouts() -> None:
    """Where a closed axle holds the wheel, a plate has no place."""
    closed = frame(hanger="none", rear_axle="thru-12")

    assert verdict(HANGER, derailleur(mount="claw"), closed) == "clash"
    assert verdict(HANGER, derailleur(mount="hanger"), closed) == "clash"
    assert verdict(HANGER, derailleur(mount="hanger"), frame()) == "measure"


PULLS = {
    # mtbr.com 933644; cyclinguk.org/cycle; onespeedbiker.blogspot.com/2012
    "road on road": (front_shifter(front_pull="road"), "road", "fits"),
    "flat on flat": (front_shifter(front_pull="flat-bar"), "flat-bar", "fits"),
    "flat on road": (front_shifter(front_pull="flat-bar"), "road", "clash"),
    "road on flat": (front_shifter(front_pull="road"), "flat-bar", "clash"),
    "friction": (front_shifter(friction="yes"), "road", "fits"),
    "drop-bar lever": (combined(side="front", bar_mm=23.8, speeds=2), "road", "fits"),
    "flat-bar lever": (combined(side="front", bar_mm=22.2), "road", "clash"),
    "lever on another bar": (combined(side="front", bar_mm=26.0), "road", "measure"),
    "unknown shifter": (front_shifter(speeds=3), "road", "measure"),
    "unknown derailleur": (front_shifter(front_pull="road"), None, "measure"),
    "rear shifter": (rear_shifter(speeds=8), "road", "none"),
    "side unknown, three positions": (
        part("shifter", speeds=3, front_pull="road"),
        "flat-bar",
        "clash",
    ),
    "side unknown, eight positions": (part("shifter", speeds=8), "flat-bar", "none"),
    "side unknown, indexed family": (part("shifter", index_family="ratio-1.7"), "road", "none"),
}


@pytest.mark.parametrize(("shifter", "pull", "wanted"), PULLS.values(), ids=PULLS)
def test_front_pull(shifter: Kind, pull: str | None, wanted: str) -> None:
    """Road and flat-bar front pull do not mix, other than at the rear."""
    assert wanted == verdict(FRONT, shifter, front_derailleur(front_pull=pull))


def test_front_pulley() -> None:
    """A pulley of 0.746 lets a flat-bar shifter move a road derailleur (mtbr.com 933644)."""
    parts = front_shifter(front_pull="flat-bar"), front_derailleur(front_pull="road")

    assert "factor 0.75" in why(certain(FRONT, *parts).finding)
    assert verdict(FRONT, *parts, pulley(factor=0.75)) == "fits"
    assert verdict(FRONT, *parts, pulley(factor=1.34)) == "clash"


@pytest.mark.parametrize(
    ("shifter", "rings", "wanted"),
    [
        (front_shifter(speeds=2), [34, 50], "fits"),
        (front_shifter(speeds=3), [34, 50], "fits"),
        (front_shifter(speeds=2), [22, 32, 42], "clash"),
        (front_shifter(friction="yes", speeds=2), [22, 32, 42], "none"),
        (front_shifter(speeds=3), None, "none"),
        (rear_shifter(speeds=8), [34, 50], "none"),
    ],
)
def test_positions_for_rings(shifter: Kind, rings: list[int] | None, wanted: str) -> None:
    """There must be a position for each ring (radreise-forum.de/posts/1500566)."""
    assert wanted == verdict(RING_POSITIONS, shifter, chainset(rings=rings))


CAGE_CASES = {
    # cyclinguk.org/cycle; brainybiker 10-speed front derailleur; defietssite.nl capacity
    "46 with a cage for 50": (BIG_RING, {"max_ring": 50}, [34, 46], "fits"),
    "the cage's own": (BIG_RING, {"max_ring": 50}, [34, 50], "fits"),
    "44 with a cage for 50": (BIG_RING, {"max_ring": 50}, [32, 44], "adapts"),
    "36 with a cage for 53": (BIG_RING, {"max_ring": 53}, [24, 36], "clash"),
    "53 with a cage for 50": (BIG_RING, {"max_ring": 50}, [39, 53], "clash"),
    "big ring, unknown cage": (BIG_RING, {"mount": "clamp"}, [39, 53], "measure"),
    "unknown cage, but something is said": (BIG_RING, {"rings": 2}, [39, 53], "none"),
    "single ring": (BIG_RING, {"max_ring": 50}, [42], "none"),
    "double on triple": (RING_COUNT, {"rings": 2}, [30, 42, 52], "clash"),
    "triple on double": (RING_COUNT, {"rings": 3}, [34, 50], "fits"),
    "count not told": (RING_COUNT, {"max_ring": 50}, [34, 50], "none"),
    "one ring": (RING_COUNT, {"rings": 2}, [42], "none"),
    "14 with 14": (FRONT_CAPACITY, {"capacity_teeth": 14}, [39, 53], "fits"),
    "16 with 14": (FRONT_CAPACITY, {"capacity_teeth": 14}, [34, 50], "clash"),
    "22 of a triple": (FRONT_CAPACITY, {"max_ring": 52}, [30, 42, 52], "none"),
    "20 of a double": (FRONT_CAPACITY, {"mount": "clamp"}, [30, 50], "none"),
    "no rings told": (FRONT_CAPACITY, {"capacity_teeth": 14}, None, "none"),
}


@pytest.mark.parametrize(
    ("interface", "cage", "rings", "wanted"), CAGE_CASES.values(), ids=CAGE_CASES
)
def test_front_cage(
    interface: str, cage: dict[str, Any], rings: list[int] | None, wanted: str
) -> None:
    """The cage must suit the big ring, the number of rings and their difference."""
    assert wanted == verdict(interface, front_derailleur(**cage), chainset(rings=rings))


def test_unknown_front_capacity_is_named_as_unchecked() -> None:
    """A double's difference of 20 teeth is more than is usual, and the open question is named."""
    judgement = judge([front_derailleur(max_ring=50), chainset(rings=[30, 50])])

    assert judgement.verdict == "fits"
    assert FRONT_CAPACITY in judgement.unchecked


Mounted = tuple[dict[str, Any], dict[str, Any], str]
MOUNTS: dict[str, Mounted] = {
    # bike.bikegremlin.com/1297; hulkbike.com/blog/deraillieur; shims from memory
    "same size": ({"mount": "clamp", "clamp_mm": 31.8}, {"seat_tube_od_mm": 31.8}, "fits"),
    "band alone": ({"clamp_mm": 28.6}, {"seat_tube_od_mm": 28.6}, "fits"),
    "shim of one step": ({"clamp_mm": 31.8}, {"seat_tube_od_mm": 28.6}, "adapts"),
    "shim of two steps": ({"clamp_mm": 34.9}, {"seat_tube_od_mm": 28.6}, "adapts"),
    "no shim so thick": ({"clamp_mm": 34.9}, {"seat_tube_od_mm": 25.4}, "clash"),
    "band too narrow": ({"clamp_mm": 28.6}, {"seat_tube_od_mm": 31.8}, "clash"),
    "band of unknown size": ({"mount": "clamp"}, {"seat_tube_od_mm": 31.8}, "measure"),
    "tube of unknown size": ({"clamp_mm": 31.8}, {"fd_mount": "clamp"}, "measure"),
    "largest band, tube of unknown size": ({"clamp_mm": 28.6}, {"fd_mount": "clamp"}, "measure"),
    "tab on tab": ({"mount": "braze-on"}, {"fd_mount": "braze-on"}, "fits"),
    "tab on tube": (
        {"mount": "braze-on"},
        {"fd_mount": "clamp", "seat_tube_od_mm": 28.6},
        "adapts",
    ),
    "tab on thick tube": (
        {"mount": "braze-on"},
        {"fd_mount": "clamp", "seat_tube_od_mm": 40.0},
        "clash",
    ),
    "tab, tube unknown": ({"mount": "braze-on"}, {"fd_mount": "clamp"}, "adapts"),
    "tab, mount of the frame unknown": (
        {"mount": "braze-on"},
        {"seat_tube_od_mm": 28.6},
        "measure",
    ),
    "band on tab": ({"mount": "clamp", "clamp_mm": 31.8}, {"fd_mount": "braze-on"}, "clash"),
    "bolts 42.7": ({"mount": "direct-42.7"}, {"fd_mount": "direct-42.7"}, "fits"),
    "bolts 22.1": ({"mount": 22.1}, {"fd_mount": "direct-22.1"}, "fits"),
    "bolts of other kinds": ({"mount": "direct-22.1"}, {"fd_mount": "direct-42.7"}, "clash"),
    "bolts on tube": ({"mount": "direct-22.1"}, {"fd_mount": "clamp"}, "clash"),
    "no place": ({"mount": "clamp", "clamp_mm": 31.8}, {"fd_mount": "none"}, "clash"),
    "unknown mount": ({"rings": 2}, {"fd_mount": "braze-on"}, "measure"),
}


@pytest.mark.parametrize(("ours", "theirs", "wanted"), MOUNTS.values(), ids=MOUNTS)
def test_mount(ours: dict[str, Any], theirs: dict[str, Any], wanted: str) -> None:
    """A band goes round its tube or a thinner one, a tab on a tab or an adapter clamp."""
    assert wanted == verdict(MOUNT, front_derailleur(**ours), frame(**theirs))


def test_shim_and_clamp_are_named_with_their_sizes() -> None:
    """Adapters carry their dimensions."""
    shim = front_derailleur(clamp_mm=34.9), frame(seat_tube_od_mm=31.8)
    assert "shim 31.8 to 34.9 mm (wall 1.55 mm)" in why(certain(MOUNT, *shim).finding)
    clamp = front_derailleur(mount="braze-on"), frame(fd_mount="clamp", seat_tube_od_mm=31.8)
    assert "adapter clamp of 31.8 mm" in why(certain(MOUNT, *clamp).finding)
