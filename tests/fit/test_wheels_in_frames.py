"""Wheels in frames and forks: their size, and the width of their hubs."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.hub_spacing import NO_SPREAD
from tests.fit.brake_parts import certain, verdict
from tests.fit.wheel_parts import fork, frame, front, hub, rear, skewer, wheel

SIZE_FRAME, SIZE_FORK = "wheel size in frame", "wheel size in fork"
WIDTH_FRAME, WIDTH_FORK = "wheel width in frame", "wheel width in fork"
AXLE_FRAME, AXLE_FORK = "wheel axle in frame", "wheel axle in fork"
SKEWER = "skewer in hub"


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
