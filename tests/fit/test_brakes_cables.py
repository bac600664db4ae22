"""Cables, housing and pads of brakes and shifters."""

from __future__ import annotations

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from tests.fit.brake_parts import (
    brake_cable,
    calliper,
    certain,
    combined,
    housing,
    lever,
    pads,
    part,
    rim_brake,
    shift_cable,
    shifter,
    verdict,
)

HEAD = "brake cable in lever"
SHIFT_HEAD = "shift cable in shifter"
BRAKE_WIRE = "brake wire"
SHIFT_WIRE = "shift wire"
ON_BRAKE = "housing on brake"
ON_GEARS = "housing on gears"
PADS = "pads in brake"
LINING = "thickness of pads"


def barrel(**more: object) -> Kind:
    """Return a brake cable with a barrel head."""
    return brake_cable(brake_cable_head="barrel", **more)


@pytest.mark.parametrize(
    ("cable", "one", "wanted"),
    [
        # merlincycles.com road brake and gear cables; bikeman.com 1641
        (brake_cable(brake_cable_head="pear"), lever(brake_cable_head="barrel"), "clash"),
        (barrel(), lever(brake_cable_head="pear"), "clash"),
        (barrel(), lever(brake_cable_head="barrel"), "fits"),
        (brake_cable(brake_cable_head="pear"), combined(brake_cable_head="pear"), "fits"),
        (brake_cable(), lever(brake_cable_head="pear"), "measure"),
        (barrel(), lever(brake_pull="long"), "measure"),
        (barrel(), lever(brake_pull="hydraulic"), "none"),
        (barrel(), lever(fluid="mineral"), "none"),
    ],
)
def test_brake_cable_head(cable: Kind, one: Kind, wanted: str) -> None:
    """The head must be the pocket's; a hydraulic lever has no pocket."""
    assert wanted == verdict(HEAD, cable, one)


@pytest.mark.parametrize(
    ("cable", "one", "wanted"),
    [
        # bikeman.com 1641; bike.bikegremlin.com/8548
        ("large", shifter(shift_cable_head="small"), "clash"),
        ("large", shifter(shift_cable_head="large"), "fits"),
        ("small", combined(shift_cable_head="small"), "fits"),
        # From memory.
        ("small", shifter(shift_cable_head="large"), "adapts"),
        (None, shifter(shift_cable_head="small"), "measure"),
        ("large", shifter(side="rear"), "measure"),
    ],
)
def test_shift_cable_head(cable: str | None, one: Kind, wanted: str) -> None:
    """The large head does not enter the small pocket; the small one sits loosely in the large."""
    assert wanted == verdict(SHIFT_HEAD, shift_cable(shift_cable_head=cable), one)


# bikeman.com 1641 and bike.bikegremlin.com/8548: brake wire 1.5 to 1.6, shift wire 1.1 to 1.3.
@pytest.mark.parametrize(
    ("size", "wanted"),
    [
        (1.5, "fits"),
        (1.6, "fits"),
        (1.46, "fits"),
        (1.2, "clash"),
        (1.4, "clash"),
        (2.0, "clash"),
        (None, "none"),
    ],
)
def test_brake_wire(size: float | None, wanted: str) -> None:
    """Gear wire on a brake is too weak and dangerous; thicker wire does not go in."""
    cable, one = brake_cable(diameter_mm=size), lever(brake_pull="long")

    assert wanted == verdict(BRAKE_WIRE, cable, one)
    if size is not None and size < 1.45:
        assert "dangerous" in why(certain(BRAKE_WIRE, cable, one).finding)
    assert verdict(BRAKE_WIRE, cable, lever(fluid="dot")) == "none"


@pytest.mark.parametrize(
    ("size", "wanted"),
    [(1.1, "fits"), (1.2, "fits"), (1.3, "fits"), (1.5, "clash"), (1.0, "clash"), (None, "none")],
)
def test_shift_wire(size: float | None, wanted: str) -> None:
    """Wire for shifting is thin; too thin or thick is wrong but not dangerous."""
    cable, one = shift_cable(diameter_mm=size), shifter(side="rear")

    assert wanted == verdict(SHIFT_WIRE, cable, one)
    if wanted == "clash":
        assert not certain(SHIFT_WIRE, cable, one).finding.dangerous


FOR_SHIFT, FOR_BRAKE = housing(use="shift"), housing(use="brake")
BRAKE_PARTS = {
    "lever": lever(brake_pull="long"),
    "rim brake": rim_brake(type="linear-pull"),
    "cable calliper": calliper(brake_pull="short"),
    "cable": brake_cable(),
}


@pytest.mark.parametrize("braking", BRAKE_PARTS.values(), ids=BRAKE_PARTS)
def test_shift_housing_on_a_brake_is_dangerous(braking: Kind) -> None:
    """Shift housing splits under a brake's force: bike.bikegremlin.com/8548."""
    judged = certain(ON_BRAKE, FOR_SHIFT, braking)

    assert judged.finding.verdict == "clash"
    assert why(judged.finding).startswith("dangerous: ")
    assert verdict(ON_BRAKE, FOR_BRAKE, braking) == "fits"
    assert verdict(ON_BRAKE, housing(outer_mm=5), braking) == "measure"


@pytest.mark.parametrize(
    "one",
    [
        lever(brake_pull="hydraulic"),
        calliper(fluid="dot"),
        combined(brake_pull="short", index_family="ratio-1.7"),
    ],
)
def test_housing_says_nothing_of_these(one: Kind) -> None:
    """Hydraulic brakes have no housing, and a combined lever takes both kinds."""
    for outer in (FOR_SHIFT, FOR_BRAKE):
        assert verdict(ON_BRAKE, outer, one) == "none"
        assert verdict(ON_GEARS, outer, one) == "none"


@pytest.mark.parametrize(
    ("one", "wanted"),
    [
        # bike.bikegremlin.com/8548: poor on indexed, works on friction.
        (shifter(friction="no"), "clash"),
        (shifter(index_family="ratio-1.7", speeds=8), "clash"),
        (shifter(pull_per_click_mm=2.8), "clash"),
        (shifter(friction="yes"), "adapts"),
        (shifter(friction="yes", index_family="ratio-1.7"), "adapts"),
        (shifter(side="front"), "measure"),
    ],
)
def test_brake_housing_on_shifters(one: Kind, wanted: str) -> None:
    """Indexed shifting misses its places in brake housing; friction shifting is usable."""
    assert wanted == verdict(ON_GEARS, FOR_BRAKE, one)
    assert verdict(ON_GEARS, FOR_SHIFT, one) == "fits"


@pytest.mark.parametrize("kind", ["rear_derailleur", "front_derailleur", "shift_cable"])
def test_brake_housing_on_derailleurs(kind: str) -> None:
    """Without its shifter a derailleur may be used in friction, for which brake housing serves."""
    assert verdict(ON_GEARS, FOR_BRAKE, part(kind)) == "adapts"
    assert verdict(ON_GEARS, FOR_SHIFT, part(kind)) == "fits"
    assert verdict(ON_GEARS, FOR_BRAKE, part(kind), shifter(friction="no")) == "clash"


def test_a_bike_with_both_housings_fits() -> None:
    """Each housing serves its own half: neither spoils the other."""
    parts = [
        FOR_SHIFT,
        FOR_BRAKE,
        lever(brake_pull="long", brake_cable_head="barrel"),
        rim_brake(type="linear-pull"),
        shifter(index_family="ratio-1.7", speeds=8, friction="no"),
        barrel(diameter_mm=1.6),
    ]
    judgement = judge(parts)

    assert judgement.verdict == "fits"
    assert {ON_BRAKE, ON_GEARS} <= {j.rule.name for j in judgement.interfaces}


@pytest.mark.parametrize(
    ("pair", "brake", "wanted"),
    [
        (pads(for_brake="rim"), rim_brake(), "fits"),
        (pads(for_brake="disc"), calliper(), "fits"),
        (pads(for_brake="disc"), rim_brake(), "clash"),
        (pads(for_brake="rim"), calliper(), "clash"),
        (pads(shape="a"), calliper(), "measure"),
    ],
)
def test_pads_in_brake(pair: Kind, brake: Kind, wanted: str) -> None:
    """Pads are for one sort of brake."""
    assert wanted == verdict(PADS, pair, brake)


@pytest.mark.parametrize(
    ("size", "brake", "wanted"),
    [
        # whafi.com disc pads (0.5); bikeforums.net 20722528-post26 (1.2)
        (0.5, calliper(), "clash"),
        (0.4, calliper(), "clash"),
        (1.0, calliper(), "adapts"),
        (1.2, calliper(), "adapts"),
        (2.5, calliper(), "fits"),
        # single-speed.co.uk safety check; 1 mm from memory
        (1.0, rim_brake(), "clash"),
        (4.0, rim_brake(), "fits"),
        (None, rim_brake(), "none"),
    ],
)
def test_thickness_of_pads(size: float | None, brake: Kind, wanted: str) -> None:
    """Worn linings are dangerous, thin ones usable for a while, unmeasured ones no case."""
    pair = pads(thickness_mm=size)

    assert wanted == verdict(LINING, pair, brake)
    if wanted == "clash":
        assert certain(LINING, pair, brake).finding.dangerous
