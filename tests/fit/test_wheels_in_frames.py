"""Wheels in frames and forks: size, width, axle, slot; skewers, nuts, loose axles; spoke holes."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.axle_threads import ROWS as THREADS
from partsbin.standards.hub_spacing import NO_SPREAD, ROWS, SLOTTED
from tests.fit.brake_parts import certain, verdict
from tests.fit.wheel_parts import axle, fork, frame, front, hub, nut, rear, rim, skewer, wheel

SIZE_FRAME, SIZE_FORK = "wheel size in frame", "wheel size in fork"
WIDTH_FRAME, WIDTH_FORK = "wheel width in frame", "wheel width in fork"
AXLE_FRAME, AXLE_FORK = "wheel axle in frame", "wheel axle in fork"
SLOT = "axle in dropout slot"
SKEWER = "skewer in hub"
HOLES = "spoke holes of hub and rim"


def steel(spacing: float, **more: Any) -> Kind:
    """Return a steel frame."""
    return frame(rear_spacing_mm=spacing, material="steel", **more)


REAR_WIDTHS = {
    "equal": (rear(spacing_mm=130), frame(rear_spacing_mm=130), "fits"),
    # standardbikes.ca FldHelpId=1378: 9 mm of spacers
    "126 in 135": (rear(spacing_mm=126), frame(rear_spacing_mm=135), "adapts"),
    "120 in 135": (rear(spacing_mm=120), frame(rear_spacing_mm=135), "adapts"),
    "110 in 135": (rear(spacing_mm=110), frame(rear_spacing_mm=135), "clash"),
    # roadbikereview.com 130 to 126; sheldonbrown.com/frame-spacing.html
    "130 in 126 steel": (rear(spacing_mm=130), steel(126), "adapts"),
    "135 in 126 steel": (rear(spacing_mm=135), steel(126), "adapts"),
    "130 in 120 steel": (rear(spacing_mm=130), steel(120), "adapts"),
    "135 in 120 steel": (rear(spacing_mm=135), steel(120), "clash"),
    "130 in 126 of unknown": (rear(spacing_mm=130), frame(rear_spacing_mm=126), "measure"),
    "150 in 126 of unknown": (rear(spacing_mm=150), frame(rear_spacing_mm=126), "clash"),
    # mtbr.com fitting 135 hub into 130 aluminium
    "135 in 130 aluminium": (
        rear(spacing_mm=135),
        frame(rear_spacing_mm=130, material="aluminium"),
        "clash",
    ),
    # rovalcomponents.com: a kit of the maker for one wheel line
    "142 in 148": (rear(spacing_mm=142), frame(rear_spacing_mm=148), "adapts"),
    "142 in 148, caps": (
        rear(spacing_mm=142, axle="thru-12", end_caps="changeable"),
        frame(rear_spacing_mm=148, rear_axle="thru-12"),
        "adapts",
    ),
    "142 in 148, fixed": (
        rear(spacing_mm=142, axle="thru-12", end_caps="fixed"),
        frame(rear_spacing_mm=148, rear_axle="thru-12"),
        "clash",
    ),
    "142 in 148, unknown ends": (
        rear(spacing_mm=142, axle="thru-12"),
        frame(rear_spacing_mm=148, rear_axle="thru-12"),
        "measure",
    ),
    "148 in 142": (rear(spacing_mm=148), steel(142), "clash"),
    # lawrencegeraldacc5.web.app: 142 is 135 by its end caps
    "135 in 142": (rear(spacing_mm=135), frame(rear_spacing_mm=142), "measure"),
    "135 in 142, caps": (
        rear(spacing_mm=135, end_caps="changeable"),
        frame(rear_spacing_mm=142),
        "adapts",
    ),
    "135 in 142, fixed": (
        rear(spacing_mm=135, end_caps="fixed"),
        frame(rear_spacing_mm=142),
        "clash",
    ),
    "142 in 135, caps": (rear(spacing_mm=142, end_caps="changeable"), steel(135), "adapts"),
    "142 in 135, fixed": (rear(spacing_mm=142, end_caps="fixed"), steel(135), "clash"),
    "130 in 142, fixed": (
        rear(spacing_mm=130, end_caps="fixed"),
        frame(rear_spacing_mm=142),
        "clash",
    ),
    "148 in 141, caps": (rear(spacing_mm=148, end_caps="changeable"), steel(141), "adapts"),
    "thru hub too wide for steel": (
        rear(spacing_mm=135, axle="thru-12"),
        steel(130, rear_axle="thru-12"),
        "clash",
    ),
    "front wheel": (front(spacing_mm=100), frame(rear_spacing_mm=130), "none"),
    "side unknown": (wheel(spacing_mm=130), frame(rear_spacing_mm=130), "fits"),
    "loose hub": (hub(side="rear", spacing_mm=130), steel(126), "adapts"),
    "hub unknown": (rear(), frame(rear_spacing_mm=130), "measure"),
    "frame unknown": (rear(spacing_mm=130), frame(), "measure"),
}


@pytest.mark.parametrize(("one", "holder", "wanted"), REAR_WIDTHS.values(), ids=REAR_WIDTHS)
def test_width_in_frame(one: Kind, holder: Kind, wanted: str) -> None:
    """A hub's width is made up by spacers, by steel, by end caps, or not at all."""
    assert wanted == verdict(WIDTH_FRAME, one, holder)


FRONT_WIDTHS = {
    "equal": (front(spacing_mm=100), fork(spacing_mm=100), "fits"),
    # fixed.org.au 42786: 2 mm a side
    "100 in 96 steel": (front(spacing_mm=100), fork(spacing_mm=96, material="steel"), "adapts"),
    "100 in 96 with a steel steerer": (
        front(spacing_mm=100),
        fork(spacing_mm=96, steerer_material="steel"),
        "adapts",
    ),
    "100 in 96 with a carbon steerer": (
        front(spacing_mm=100),
        fork(spacing_mm=96, steerer_material="carbon"),
        "clash",
    ),
    "carbon blades on steel": (
        front(spacing_mm=100),
        fork(spacing_mm=96, steerer_material="steel", material="carbon"),
        "clash",
    ),
    "sprung fork": (
        front(spacing_mm=100),
        fork(spacing_mm=96, steerer_material="steel", travel_mm=80),
        "clash",
    ),
    "100 in 96 of unknown": (front(spacing_mm=100), fork(spacing_mm=96), "measure"),
    "100 in 90": (front(spacing_mm=100), fork(spacing_mm=90, material="steel"), "adapts"),
    "100 in 74": (front(spacing_mm=100), fork(spacing_mm=74), "clash"),
    "92 in 90": (front(spacing_mm=92), fork(spacing_mm=90), "fits"),
    "96 in 100": (front(spacing_mm=96), fork(spacing_mm=100), "adapts"),
    "110 thru in 100 thru": (
        front(spacing_mm=110, axle="thru-15"),
        fork(spacing_mm=100, axle="thru-15", material="steel"),
        "clash",
    ),
    "100 thru in 110 thru": (
        front(spacing_mm=100, axle="thru-15", end_caps="changeable"),
        fork(spacing_mm=110, axle="thru-15"),
        "adapts",
    ),
    "rear wheel": (rear(spacing_mm=130), fork(spacing_mm=100), "none"),
}


@pytest.mark.parametrize(("one", "holder", "wanted"), FRONT_WIDTHS.values(), ids=FRONT_WIDTHS)
def test_width_in_fork(one: Kind, holder: Kind, wanted: str) -> None:
    """A steel fork springs a little; the steerer's metal stands for blades that are not known."""
    assert wanted == verdict(WIDTH_FORK, one, holder)


def test_minimal_widths_ask_for_nothing_else() -> None:
    """Widths and material are enough for a verdict on the whole pair."""
    assert judge([rear(spacing_mm=130), steel(126)]).verdict == "adapts"
    assert judge([rear(spacing_mm=126), frame(rear_spacing_mm=135)]).verdict == "adapts"
    assert judge([front(spacing_mm=100), fork(spacing_mm=100)]).verdict == "fits"
    assert judge([rear(bsd_mm=622, spacing_mm=130), frame(rear_spacing_mm=130)]).verdict == "fits"


@pytest.mark.parametrize("material", NO_SPREAD)
def test_only_plain_steel_is_spread(material: str) -> None:
    """No other material takes a wider hub, by however little, and the source is named."""
    holder = frame(rear_spacing_mm=126, material=material)
    finding = certain(WIDTH_FRAME, rear(spacing_mm=130), holder).finding

    assert finding.verdict == "clash"
    assert finding.source == NO_SPREAD[material][1]


def test_spacers_and_cold_setting_are_sized() -> None:
    """The width of the spacers, and how far each side is bent, are named."""
    spaced = why(certain(WIDTH_FRAME, rear(spacing_mm=126), frame(rear_spacing_mm=135)).finding)
    sprung = why(certain(WIDTH_FRAME, rear(spacing_mm=130), steel(126)).finding)
    bent = why(certain(WIDTH_FRAME, rear(spacing_mm=135), steel(126)).finding)

    assert "axle spacers of 9 mm together" in spaced
    assert "spring the dropouts apart by hand, 2 mm a side" in sprung
    assert "cold-set the steel by 4.5 mm a side" in bent


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.end} {row.width}" for row in ROWS])
def test_every_width_tells_its_axle_if_it_can(row: Any) -> None:
    """A width that is met with one kind of axle tells it; with more, the axle is asked for."""
    if row.end == "rear":
        one, other = rear(spacing_mm=row.width, axle="qr"), frame(rear_spacing_mm=row.width)
        name = AXLE_FRAME
    else:
        one, other = front(spacing_mm=row.width, axle="qr"), fork(spacing_mm=row.width)
        name = AXLE_FORK
    if row.axles and row.axles <= SLOTTED:
        wanted = "fits"
    elif row.axles and not row.axles & SLOTTED:
        wanted = "measure"  # its end caps decide
    else:
        wanted = "measure"  # its dropouts decide

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


SIZES = {
    "same": (rear(bsd_mm=622), frame(wheel_bsd_mm=622), "fits"),
    # fixed.org.au 42786: 27 to 700C, pads go 4 mm down
    "622 in 630": (rear(bsd_mm=622), frame(wheel_bsd_mm=630), "fits"),
    "630 in 622": (rear(bsd_mm=630), frame(wheel_bsd_mm=622), "adapts"),
    "584 in 559": (rear(bsd_mm=584), frame(wheel_bsd_mm=559), "adapts"),
    "622 in 559": (rear(bsd_mm=622), frame(wheel_bsd_mm=559), "clash"),
    "622 in 559 with discs": (
        rear(bsd_mm=622),
        frame(wheel_bsd_mm=559, brake_mounts=["is-51"]),
        "clash",
    ),
    "584 in 622 with discs": (
        rear(bsd_mm=584),
        frame(wheel_bsd_mm=622, brake_mounts=["post-74"]),
        "adapts",
    ),
    "559 in 622 with discs": (
        rear(bsd_mm=559),
        frame(wheel_bsd_mm=622, brake_mounts=["post-74"]),
        "adapts",
    ),
    "406 in 622 with discs": (
        rear(bsd_mm=406),
        frame(wheel_bsd_mm=622, brake_mounts=["post-74"]),
        "clash",
    ),
    "559 in 622 with bosses": (
        rear(bsd_mm=559),
        frame(wheel_bsd_mm=622, brake_mounts=["canti-boss"]),
        "clash",
    ),
    "584 in 622 with a calliper": (
        rear(bsd_mm=584),
        frame(wheel_bsd_mm=622, brake_mounts=["calliper-hole"]),
        "adapts",
    ),
    "559 in 622 without a brake": (
        rear(bsd_mm=559),
        frame(wheel_bsd_mm=622, brake_mounts=[]),
        "adapts",
    ),
    "559 in 622 of unknown mounts": (rear(bsd_mm=559), frame(wheel_bsd_mm=622), "measure"),
    "disc-only wheel": (rear(bsd_mm=559, brake_track="no"), frame(wheel_bsd_mm=622), "adapts"),
    "front wheel": (front(bsd_mm=622), frame(wheel_bsd_mm=622), "none"),
    "wheel unknown": (rear(), frame(wheel_bsd_mm=622), "measure"),
}


@pytest.mark.parametrize(("one", "holder", "wanted"), SIZES.values(), ids=SIZES)
def test_size_in_frame(one: Kind, holder: Kind, wanted: str) -> None:
    """A wheel is of the frame's size; a smaller one sits lower, a larger one hardly turns."""
    assert wanted == verdict(SIZE_FRAME, one, holder)


FORK_SIZES = {
    "same": (front(bsd_mm=559), fork(wheel_bsd_mm=559), "fits"),
    # bikerhub.net purchasing fork: bosses fix the rim
    "700C in a 26 in boss fork": (
        front(bsd_mm=622),
        fork(wheel_bsd_mm=559, brake_mounts=["canti-boss"]),
        "clash",
    ),
    "over the largest": (front(bsd_mm=622), fork(max_wheel_bsd_mm=584), "clash"),
    "the largest": (front(bsd_mm=622), fork(max_wheel_bsd_mm=622), "fits"),
    "under the largest": (front(bsd_mm=584), fork(max_wheel_bsd_mm=622), "fits"),
    "larger than its own but it turns": (
        front(bsd_mm=622),
        fork(wheel_bsd_mm=559, max_wheel_bsd_mm=622),
        "adapts",
    ),
    "larger than both": (
        front(bsd_mm=622),
        fork(wheel_bsd_mm=559, max_wheel_bsd_mm=584),
        "clash",
    ),
    "rear wheel": (rear(bsd_mm=622), fork(wheel_bsd_mm=622), "none"),
}


@pytest.mark.parametrize(("one", "holder", "wanted"), FORK_SIZES.values(), ids=FORK_SIZES)
def test_size_in_fork(one: Kind, holder: Kind, wanted: str) -> None:
    """A fork also has a largest wheel that turns under its crown."""
    assert wanted == verdict(SIZE_FORK, one, holder)


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


def test_two_wheels_meet_their_own_ends() -> None:
    """On a whole bike each wheel meets its own end, and each interface is listed once."""
    judgement = judge(
        [
            frame(rear_spacing_mm=135, rear_axle="qr", wheel_bsd_mm=622),
            fork(spacing_mm=100, axle="qr", wheel_bsd_mm=622),
            front(spacing_mm=100, axle="qr", bsd_mm=622),
            rear(spacing_mm=135, axle="qr", bsd_mm=622),
            skewer(side="front", spacing_mm=100),
            skewer(side="rear", spacing_mm=135),
        ]
    )
    listed = [judged.rule.name for judged in judgement.interfaces]
    verdicts = {judged.rule.name: judged.finding.verdict for judged in judgement.interfaces}

    assert len(listed) == len(set(listed))
    for name in (SIZE_FRAME, SIZE_FORK, WIDTH_FRAME, WIDTH_FORK, AXLE_FRAME, AXLE_FORK, SKEWER):
        assert verdicts[name] == "fits"
