"""Hubs: axles in dropouts, slots, skewers, nuts, loose axles and spoke holes."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.axle_threads import ROWS as THREADS
from partsbin.standards.hub_spacing import ROWS, SLOTTED
from tests.fit.brake_parts import certain, verdict
from tests.fit.wheel_parts import axle, fork, frame, front, hub, nut, rear, rim, skewer

WIDTH_FRAME, WIDTH_FORK = "wheel width in frame", "wheel width in fork"
AXLE_FRAME, AXLE_FORK = "wheel axle in frame", "wheel axle in fork"
SLOT = "axle in dropout slot"
SKEWER = "skewer in hub"
HOLES = "spoke holes of hub and rim"


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.end} {row.width}" for row in ROWS])
def test_every_width_tells_its_axle_if_it_can(row: Any) -> None:
    """A width that is met with one kind of axle tells it; with more, the axle is asked for."""
    if row.end == "rear":
        one, other = rear(spacing_mm=row.width, axle="qr"), frame(rear_spacing_mm=row.width)
        name = AXLE_FRAME
    else:
        one, other = front(spacing_mm=row.width, axle="qr"), fork(spacing_mm=row.width)
        name = AXLE_FORK
    # Otherwise the hub's end caps decide, or the dropouts.
    wanted = "fits" if row.axles and row.axles <= SLOTTED else "measure"

    assert wanted == verdict(name, one, other)
    assert verdict(WIDTH_FRAME if row.end == "rear" else WIDTH_FORK, one, other) == "fits"


AXLES = {
    "qr in qr": (front(axle="qr"), fork(axle="qr"), "fits"),
    "nutted in qr": (front(axle="nutted"), fork(axle="qr"), "fits"),
    "qr in nutted": (front(axle="qr"), fork(axle="nutted"), "fits"),
    "thru-15 in thru-15": (front(axle="thru-15"), fork(axle="thru-15"), "fits"),
    # raceface.com how to fit a wheelset; blog.flocycling.com QR and thru axle
    "qr in thru-15, caps": (
        front(axle="qr", end_caps="changeable"),
        fork(axle="thru-15"),
        "adapts",
    ),
    "qr in thru-15, fixed": (front(axle="qr", end_caps="fixed"), fork(axle="thru-15"), "clash"),
    "qr in thru-15": (front(axle="qr"), fork(axle="thru-15"), "measure"),
    "thru in qr, caps": (front(axle="thru-15", end_caps="changeable"), fork(axle="qr"), "adapts"),
    "thru in qr, fixed": (front(axle="thru-15", end_caps="fixed"), fork(axle="qr"), "clash"),
    "thru-12 in thru-15, caps": (
        front(axle="thru-12", end_caps="changeable"),
        fork(axle="thru-15"),
        "adapts",
    ),
    "nutted in thru": (front(axle="nutted"), fork(axle="thru-15"), "clash"),
    # rovalcomponents.com; mountainbike-magazin.de Lexikon: two different 110s
    "20 x 110 in 15 x 110": (
        front(axle="thru-20", spacing_mm=110, end_caps="changeable"),
        fork(axle="thru-15", spacing_mm=110),
        "clash",
    ),
    "20 x 100 in 15 x 100": (
        front(axle="thru-20", spacing_mm=100, end_caps="changeable"),
        fork(axle="thru-15", spacing_mm=100),
        "adapts",
    ),
    "9 mm hub in 15 x 100, caps unknown": (
        front(axle="qr", axle_mm=9, spacing_mm=100),
        fork(axle="thru-15", spacing_mm=100),
        "measure",
    ),
    "rear wheel": (rear(axle="qr"), fork(axle="qr"), "none"),
    "hub unknown": (front(), fork(axle="qr"), "measure"),
    "fork unknown": (front(axle="qr"), fork(), "measure"),
}


@pytest.mark.parametrize(("one", "holder", "wanted"), AXLES.values(), ids=AXLES)
def test_axle_in_fork(one: Kind, holder: Kind, wanted: str) -> None:
    """Slots take hollow and solid axles, holes their own thru axle, others by end caps only."""
    assert wanted == verdict(AXLE_FORK, one, holder)


@pytest.mark.parametrize(
    ("one", "holder", "wanted"),
    [
        (rear(axle="qr"), frame(rear_axle="qr"), "fits"),
        (rear(axle="nutted"), frame(rear_axle="qr"), "fits"),
        (rear(axle="thru-12"), frame(rear_axle="thru-12"), "fits"),
        (rear(axle="qr", end_caps="fixed"), frame(rear_axle="thru-12"), "clash"),
        (rear(axle="thru-12", end_caps="changeable"), frame(rear_axle="qr"), "adapts"),
        (rear(axle="qr"), frame(rear_axle="thru-12"), "measure"),
        (rear(spacing_mm=148), frame(rear_axle="thru-12"), "fits"),
        (rear(spacing_mm=130), frame(rear_axle="qr"), "fits"),
        (front(axle="qr"), frame(rear_axle="qr"), "none"),
    ],
    ids=range(9),
)
def test_axle_in_frame(one: Kind, holder: Kind, wanted: str) -> None:
    """The same at the rear, where thru axles are 12 mm; a width may tell the kind."""
    assert wanted == verdict(AXLE_FRAME, one, holder)


SLOTS = {
    # smontanaro.net/CR/2007/6/1373: 5/16 in goes into 7.6 mm, 8.2 mm does not
    "5/16 in 7.6": (7.94, 7.6, "fits"),
    "8.2 in 7.6": (8.2, 7.6, "clash"),
    "9 in 7.6": (9, 7.6, "clash"),
    "9 in 9": (9, 9, "fits"),
    "10 in 10": (10, 10, "fits"),
    "10 in 9": (10, 9, "clash"),
    "3/8 in 10": (9.52, 10, "fits"),
    "9 in 10": (9, 10, "adapts"),
    "10 in 14": (10, 14, "adapts"),
    "14 in 10": (14, 10, "clash"),
    "unknown in 10": (None, 10, "measure"),
}


@pytest.mark.parametrize(("thick", "slot", "wanted"), SLOTS.values(), ids=SLOTS)
def test_axle_in_slot(thick: float | None, slot: float, wanted: str) -> None:
    """An axle enters a slot of its own width; a thin one is centred by washers."""
    assert wanted == verdict(SLOT, rear(axle_mm=thick), frame(dropout_slot_mm=slot))
    assert wanted == verdict(SLOT, front(axle_mm=thick), fork(dropout_slot_mm=slot))


def test_thru_axle_has_no_slot() -> None:
    """Thru axles and closed dropouts have nothing to do with slots."""
    thru = front(axle="thru-15", axle_mm=15)

    assert verdict(SLOT, thru, fork(dropout_slot_mm=9)) == "none"
    assert verdict(SLOT, front(axle_mm=9), fork(axle="thru-15", dropout_slot_mm=15)) == "none"
    assert verdict(SLOT, front(axle_mm=9), frame(dropout_slot_mm=9)) == "none"


SKEWERS = {
    "same": (skewer(spacing_mm=100), front(spacing_mm=100), "fits"),
    "135 in 130": (skewer(spacing_mm=135), rear(spacing_mm=130), "fits"),
    "135 in 126": (skewer(spacing_mm=135), rear(spacing_mm=126), "adapts"),
    "145 in 126": (skewer(spacing_mm=145), rear(spacing_mm=126), "clash"),
    "130 in 135": (skewer(spacing_mm=130), rear(spacing_mm=135), "clash"),
    "nutted hub": (skewer(spacing_mm=100), front(spacing_mm=100, axle="nutted"), "clash"),
    "thru hub": (skewer(), front(axle="thru-15"), "clash"),
    "other end": (skewer(side="front", spacing_mm=100), rear(spacing_mm=135), "none"),
    "unknown": (skewer(), rear(spacing_mm=135), "measure"),
}


@pytest.mark.parametrize(("one", "holder", "wanted"), SKEWERS.values(), ids=SKEWERS)
def test_skewer(one: Kind, holder: Kind, wanted: str) -> None:
    """A skewer is as long as its hub asks for, or a little longer: common practice."""
    assert wanted == verdict(SKEWER, one, holder)


@pytest.mark.parametrize("one", THREADS)
@pytest.mark.parametrize("other", THREADS)
def test_threads_pair_by_pair(one: str, other: str) -> None:
    """Only equal threads go together: wrenchfu.com axle-nut."""
    wanted = "fits" if one == other else "clash"

    assert wanted == verdict("nut on wheel axle", nut(thread=one), front(axle_thread=other))
    assert wanted == verdict("nut on axle", nut(thread=one), axle(thread=other))
    assert wanted == verdict("axle in hub", axle(thread=one), hub(axle_thread=other))


def test_near_threads_are_dangerous() -> None:
    """A 10x1 nut on a 3/8x26 axle starts and then strips; spelling makes no difference."""
    near = certain("nut on wheel axle", nut(thread="10x1"), rear(axle_thread="3/8x26")).finding
    far = certain("nut on wheel axle", nut(thread="10x1"), rear(axle_thread="m15x1.5")).finding

    assert near.dangerous
    assert "thread gauge" in why(near)
    assert not far.dangerous
    assert verdict("nut on wheel axle", nut(thread="m10x1.0"), rear(axle_thread="10x1")) == "fits"


def test_diameter_alone_does_not_settle_a_thread() -> None:
    """A calliper reading of a nut leaves its thread to be measured: wrenchfu.com axle-nut."""
    assert verdict("nut on wheel axle", nut(diameter_mm=10), rear(axle_thread="3/8x26")) == (
        "measure"
    )


@pytest.mark.parametrize(
    ("one", "other", "wanted"),
    [
        (32, 32, "fits"),
        (36, 36, "fits"),
        (32, 36, "clash"),
        (36, 32, "clash"),
        (None, 36, "measure"),
    ],
)
def test_spoke_holes(one: int | None, other: int, wanted: str) -> None:
    """Hub and rim have the same number of holes: filtersweep.blogspot.com 2007/07."""
    assert wanted == verdict(HOLES, hub(spokes=one), rim(spokes=other))
