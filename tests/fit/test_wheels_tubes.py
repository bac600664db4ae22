"""Tubes in tyres, valves in rims, extenders, pump heads, caps and rim tape."""

from __future__ import annotations

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.tube_sizes import INTERCHANGE
from tests.fit.brake_parts import certain, verdict
from tests.fit.wheel_parts import (
    cap,
    extender,
    grommet,
    pump,
    rim,
    tape,
    tube,
    tyre,
    wheel,
)

SIZE = "tube in tyre"
WIDTH = "tube width in tyre"
HOLE = "valve in rim hole"
LENGTH = "valve length for rim depth"
EXTENDER = "valve extender on valve"
PUMP = "pump head on valve"
CAP = "cap on valve"
TAPE = "rim tape on rim"
TAPE_WIDTH = "rim tape width"

SIZES = {
    # bicycle-hangar.com; veloaporter.com tube size
    "27 in in 700C": (630, 622, "fits"),
    "700C in 27 in": (622, 630, "fits"),
    # firehouse-bicycles.shoplightspeed.com 597
    "590 in 597": (590, 597, "fits"),
    "597 in 590": (597, 590, "fits"),
    # tadpolerider2.wordpress.com
    "451 in 406": (451, 406, "clash"),
    # powermanmalaysia.com tube sizes
    "559 in 584": (559, 584, "fits"),
    "584 in 622": (584, 622, "adapts"),
    # By the rule made of them.
    "same": (622, 622, "fits"),
    "584 in 590": (584, 590, "adapts"),
    "571 in 584": (571, 584, "adapts"),
    "559 in 622": (559, 622, "clash"),
    "406 in 451": (406, 451, "clash"),
    "642 in 635": (642, 635, "fits"),
    "571 in 559": (571, 559, "clash"),
    "635 in 622": (635, 622, "clash"),
    "540 in 541": (540, 541, "fits"),
}


@pytest.mark.parametrize(("own", "wanted_size", "wanted"), SIZES.values(), ids=SIZES)
def test_tube_size(own: float, wanted_size: float, wanted: str) -> None:
    """Near sizes interchange, smaller tubes stretch, larger ones fold."""
    parts = tube(bsd_mm=own), tyre(bsd_mm=wanted_size)

    assert wanted == verdict(SIZE, *parts)
    assert wanted == judge(parts).verdict


@pytest.mark.parametrize("pair", INTERCHANGE, ids=[str(sorted(pair)) for pair in INTERCHANGE])
def test_interchange_names_its_source(pair: frozenset[int]) -> None:
    """Each pair that interchanges does so both ways, and the finding names where that is said."""
    one, other = pair
    for own, size in ((one, other), (other, one)):
        judged = certain(SIZE, tube(bsd_mm=own), tyre(bsd_mm=size))
        assert judged.finding.verdict == "fits"
        assert judged.finding.source == INTERCHANGE[pair]


def test_tube_for_an_ambiguous_marking() -> None:
    """Either bead seat of 26x1 3/8 takes a 590 tube, so nothing is to be measured."""
    assert verdict(SIZE, tube(bsd_mm=590), tyre(marking="26x1 3/8")) == "fits"
    assert verdict(SIZE, tube(bsd_mm=559), tyre(marking="700x28C")) == "clash"
    assert verdict(SIZE, tube(bsd_mm=630), tyre(marking="700x28C")) == "fits"
    assert verdict(SIZE, tube(), tyre(bsd_mm=622)) == "measure"


def ranged(low: float | None, high: float | None) -> Kind:
    """Return a tube for a range of widths."""
    return tube(width_min_mm=low, width_max_mm=high)


RANGES = {
    # powermanmalaysia.com: 700x35-43 takes 40
    "40 in 35 to 43": (ranged(35, 43), tyre(width_mm=40), "fits"),
    "28 in 35 to 43": (ranged(35, 43), tyre(width_mm=28), "clash"),
    "low end": (ranged(35, 43), tyre(width_mm=35), "fits"),
    "high end": (ranged(35, 43), tyre(width_mm=43), "fits"),
    # gengrasharley-davidson.com: 1.5 in serves in 1.95 in with a shorter life, in 2.3 in not
    "1.95 in in 1.5": (ranged(35, 38.1), tyre(width_mm=49.5), "adapts"),
    "50 in 38": (ranged(35, 38), tyre(width_mm=50), "adapts"),
    "2.3 in in 1.5": (ranged(35, 38.1), tyre(width_mm=58.4), "clash"),
    # An inch size is only near the metric one.
    "26x1.75 in 47 to 57": (ranged(47, 57), tyre(marking="26x1.75"), "fits"),
    "44.45 mm in 47 to 57": (ranged(47, 57), tyre(width_mm=44.45), "clash"),
    # One end is enough where it decides.
    "least decides": (ranged(35, None), tyre(width_mm=23), "clash"),
    "most decides": (ranged(None, 38), tyre(width_mm=60), "clash"),
    "least is open": (ranged(None, 43), tyre(width_mm=40), "measure"),
    "most is open": (ranged(35, None), tyre(width_mm=40), "measure"),
    "tyre is open": (ranged(35, 43), tyre(), "measure"),
}


@pytest.mark.parametrize(("own", "one", "wanted"), RANGES.values(), ids=RANGES)
def test_tube_width(own: Kind, one: Kind, wanted: str) -> None:
    """The tyre's width lies in the tube's range, or a little over it with a shorter life."""
    assert wanted == verdict(WIDTH, own, one)


HOLES = {
    # brainybiker.com; bikefinest.com; fitro.info; en.wikipedia.org Dunlop_valve
    "presta in 6.5": ("presta", 6.5, "fits"),
    "presta in 6.4": ("presta", 6.4, "fits"),
    "presta in 8.5": ("presta", 8.5, "adapts"),
    "presta in 8.3": ("presta", 8.3, "adapts"),
    "schrader in 8.5": ("schrader", 8.5, "fits"),
    "schrader in 6.5": ("schrader", 6.5, "clash"),
    "dunlop in 8.5": ("dunlop", 8.5, "fits"),
    "dunlop in 6.5": ("dunlop", 6.5, "clash"),
    "8 mm stem in 6.5": (8, 6.5, "clash"),
    "8 mm stem in 8.5": (8, 8.5, "fits"),
    "presta in unknown": ("presta", None, "measure"),
    "schrader in unknown": ("schrader", None, "measure"),
    "unknown in 8.5": (None, 8.5, "measure"),
}


@pytest.mark.parametrize(("valve", "hole", "wanted"), HOLES.values(), ids=HOLES)
def test_valve_in_hole(valve: str | float | None, hole: float | None, wanted: str) -> None:
    """Each valve has its hole; a thin one in a wide hole takes a grommet."""
    assert wanted == verdict(HOLE, tube(valve=valve), wheel(valve_hole_mm=hole))
    assert wanted == verdict(HOLE, tube(valve=valve), rim(valve_hole_mm=hole))


def test_grommet_among_the_parts() -> None:
    """A grommet makes a presta valve fit a schrader hole, and is named."""
    parts = tube(valve="presta"), rim(valve_hole_mm=8.5), grommet()

    assert verdict(HOLE, *parts) == "fits"
    assert "valve grommet" in why(certain(HOLE, *parts).finding)
    assert verdict(HOLE, tube(valve="schrader"), rim(valve_hole_mm=6.5), grommet()) == "clash"


@pytest.mark.parametrize(
    ("material", "told"),
    [
        ("aluminium", "flat-bottomed aluminium rim may be drilled"),
        (None, "flat-bottomed aluminium rim may be drilled"),
        ("carbon", "never drill a carbon rim"),
        ("steel", "take a tube with a presta valve"),
    ],
    ids=str,
)
def test_drilling_is_told_where_it_is_allowed(material: str | None, told: str) -> None:
    """Only wide flat aluminium rims may be drilled: urbanusmagnus.blogspot.com 2012/05."""
    finding = certain(HOLE, tube(valve="schrader"), rim(valve_hole_mm=6.5, rim_material=material))

    assert told in why(finding.finding)


LENGTHS = {
    # Copy of a CyclingTips article on valve stems: 25 takes 40, 35 to 45 takes 60, over 50 takes 80
    "40 in 25": (40, 25, "fits"),
    "60 in 45": (60, 45, "fits"),
    "60 in 35": (60, 35, "fits"),
    "80 in 65": (80, 65, "fits"),
    "40 in 35": (40, 35, "adapts"),
    "60 in 50": (60, 50, "adapts"),
    "44 in 30": (44, 30, "adapts"),
    "45 in 30": (45, 30, "fits"),
    "unknown in 30": (None, 30, "measure"),
    "40 in unknown": (40, None, "measure"),
}


@pytest.mark.parametrize(("length", "depth", "wanted"), LENGTHS.values(), ids=LENGTHS)
def test_valve_length(length: float | None, depth: float | None, wanted: str) -> None:
    """A valve is 15 mm longer than the rim is deep, or takes an extender."""
    assert wanted == verdict(LENGTH, tube(valve_length_mm=length), rim(rim_depth_mm=depth))


@pytest.mark.parametrize(
    ("one", "core", "length", "on_valve"),
    [
        (extender(length_mm=30, type="on-core"), "no", "fits", "fits"),
        (extender(length_mm=30, type="on-core"), None, "fits", "fits"),
        (extender(length_mm=30, type="in-stem"), "yes", "fits", "fits"),
        (extender(length_mm=30, type="in-stem"), "no", "fits", "clash"),
        (extender(length_mm=30, type="in-stem"), None, "fits", "measure"),
        (extender(length_mm=30), "yes", "fits", "fits"),
        (extender(length_mm=10, type="on-core"), "no", "adapts", "fits"),
        (extender(type="on-core"), "no", "measure", "fits"),
    ],
    ids=range(8),
)
def test_extender(one: Kind, core: str | None, length: str, on_valve: str) -> None:
    """An extender must make up what is missing; one in the stem needs a removable core."""
    parts = (
        one,
        tube(valve="presta", valve_length_mm=40, removable_core=core),
        rim(rim_depth_mm=50),
    )

    assert length == verdict(LENGTH, *parts)
    assert on_valve == verdict(EXTENDER, *parts)


HEADS = {
    # en.wikipedia.org Dunlop_valve; wikipedia-on-ipfs Presta_valve
    "schrader on schrader": ("schrader", "schrader", "fits"),
    "presta on presta": ("presta", "presta", "fits"),
    "presta on dunlop": ("presta", "dunlop", "fits"),
    "dunlop on presta": ("dunlop", "presta", "fits"),
    "schrader on presta": ("schrader", "presta", "adapts"),
    "schrader on dunlop": ("schrader", "dunlop", "adapts"),
    "presta on schrader": ("presta", "schrader", "clash"),
    "unknown on presta": (None, "presta", "measure"),
}


@pytest.mark.parametrize(("head", "valve", "wanted"), HEADS.values(), ids=HEADS)
def test_pump_head(head: str | None, valve: str, wanted: str) -> None:
    """A presta head serves dunlop, a schrader head needs a screwed adapter for both."""
    assert wanted == verdict(PUMP, pump(valve=head), tube(valve=valve))


def test_pump_adapter_among_the_parts() -> None:
    """The screwed adapter is a pump head itself."""
    assert verdict(PUMP, pump(valve="schrader"), tube(valve="presta"), pump(valve="presta")) == (
        "fits"
    )


@pytest.mark.parametrize(
    ("own", "valve", "wanted"),
    [
        ("schrader", "schrader", "fits"),
        ("presta", "dunlop", "fits"),
        ("schrader", "presta", "clash"),
        ("presta", "schrader", "clash"),
        (None, "presta", "measure"),
    ],
)
def test_cap(own: str | None, valve: str, wanted: str) -> None:
    """Caps of presta and dunlop share a thread, schrader has its own: handwiki.org Presta valve."""
    assert wanted == verdict(CAP, cap(valve=own), tube(valve=valve))


@pytest.mark.parametrize(
    ("own", "size", "wanted"),
    [
        (622, 622, "fits"),
        (622, 630, "adapts"),
        (630, 622, "clash"),
        (559, 622, "clash"),
        (None, 622, "measure"),
    ],
)
def test_rim_tape_size(own: float | None, size: float, wanted: str) -> None:
    """A tape is of the rim's size or stretches a little: common practice."""
    assert wanted == verdict(TAPE, tape(bsd_mm=own), rim(bsd_mm=size))


@pytest.mark.parametrize(
    ("width", "inner", "wanted"),
    [
        (18, 19, "fits"),
        (19, 19, "fits"),
        (15, 19, "fits"),
        (21, 19, "adapts"),
        (12, 19, "adapts"),
        (25, 19, "clash"),
        (10, 25, "clash"),
        (None, 19, "measure"),
    ],
)
def test_rim_tape_width(width: float | None, inner: float, wanted: str) -> None:
    """A tape covers the bed without lifting the beads: common practice."""
    assert wanted == verdict(TAPE_WIDTH, tape(width_mm=width), rim(rim_inner_mm=inner))
