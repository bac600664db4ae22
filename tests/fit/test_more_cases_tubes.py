"""Tubes and valves beside the printed combinations, from the same sources."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

POWERMAN = "powermanmalaysia.com tube sizes"
HANGAR = "bicycle-hangar.com; veloaporter.com tube size"
GENGRAS = "gengrasharley-davidson.com tube size"
HOLES = "bikefinest.com; healthfully.com valve stem types; en.wikipedia.org Dunlop_valve"
DEPTH = "thebestmagnets.com copy of an article on valve stems: rim and 15 mm"
TIPS = "handwiki.org Presta valve; en.wikipedia.org Dunlop_valve"
TUBES: dict[str, Case] = {
    "630 in 622": ("fits", ("tube bsd_mm=630", "tyre bsd_mm=622"), HANGAR),
    "622 in 630": ("fits", ("tube bsd_mm=622", "tyre bsd_mm=630"), HANGAR),
    "590 in 597": ("fits", ("tube bsd_mm=590", "tyre bsd_mm=597"), "firehouse-bicycles 597"),
    "597 in 590": ("fits", ("tube bsd_mm=597", "tyre bsd_mm=590"), "firehouse-bicycles 597"),
    "559 in 584": ("fits", ("tube bsd_mm=559", "tyre bsd_mm=584"), POWERMAN),
    "584 in 622": ("adapts", ("tube bsd_mm=584", "tyre bsd_mm=622"), POWERMAN),
    "559 in 622": ("clash", ("tube bsd_mm=559", "tyre bsd_mm=622"), "11 percent: " + POWERMAN),
    "451 in 406": ("clash", ("tube bsd_mm=451", "tyre bsd_mm=406"), "tadpolerider2.wordpress.com"),
    "406 in 451": ("clash", ("tube bsd_mm=406", "tyre bsd_mm=451"), "11 percent"),
    "622 in 559": ("clash", ("tube bsd_mm=622", "tyre bsd_mm=559"), "too long"),
    "584 in 559": ("clash", ("tube bsd_mm=584", "tyre bsd_mm=559"), "4.5 percent longer"),
    "35-43 in 40": ("fits", ("tube width_min_mm=35 width_max_mm=43", "tyre width_mm=40"), POWERMAN),
    "35-43 in 28": (
        "clash",
        ("tube width_min_mm=35 width_max_mm=43", "tyre width_mm=28"),
        POWERMAN,
    ),
    "1.5 in 1.95": (
        "adapts",
        ("tube width_min_mm=32 width_max_mm=38.1", "tyre width_mm=49.5"),
        GENGRAS,
    ),
    "1.5 in 2.3": (
        "clash",
        ("tube width_min_mm=32 width_max_mm=38.1", "tyre width_mm=58.4"),
        GENGRAS,
    ),
    "26x1.95-2.125 in 26x2.0": (
        "fits",
        ("tube bsd_mm=559 width_min_mm=49.5 width_max_mm=54", "tyre marking=26x2.0"),
        POWERMAN,
    ),
    "presta in 6.5": ("fits", ("tube valve=presta", "rim valve_hole_mm=6.5"), HOLES),
    "presta in 6.3": ("fits", ("tube valve=presta", "rim valve_hole_mm=6.3"), HOLES),
    "presta in 8.3": ("adapts", ("tube valve=presta", "rim valve_hole_mm=8.3"), HOLES),
    "presta in 8.5 with grommet": (
        "fits",
        ("tube valve=presta", "rim valve_hole_mm=8.5", "valve_grommet"),
        HOLES,
    ),
    "schrader in 6.5": ("clash", ("tube valve=schrader", "rim valve_hole_mm=6.5"), HOLES),
    "schrader in 8.5": ("fits", ("tube valve=schrader", "wheel valve_hole_mm=8.5"), HOLES),
    "dunlop in 6.5": ("clash", ("tube valve=dunlop", "rim valve_hole_mm=6.5"), HOLES),
    "dunlop in 8.5": ("fits", ("tube valve=dunlop", "rim valve_hole_mm=8.5"), HOLES),
    "stem of 8 mm in 6.5": (
        "clash",
        ("tube valve=8", "rim valve_hole_mm=6.5"),
        "schrader or dunlop, both too thick",
    ),
    "stem of 8 mm in 8.5": ("fits", ("tube valve=8", "rim valve_hole_mm=8.5"), "either fits"),
    "hole between": ("measure", ("tube valve=presta", "rim valve_hole_mm=7.5"), "6.5 or 8.5"),
    "40 in 25 deep": ("fits", ("tube valve_length_mm=40", "rim rim_depth_mm=25"), DEPTH),
    "40 in 30 deep": ("adapts", ("tube valve_length_mm=40", "rim rim_depth_mm=30"), DEPTH),
    "60 in 45 deep": ("fits", ("tube valve_length_mm=60", "rim rim_depth_mm=45"), DEPTH),
    "80 in 65 deep": ("fits", ("tube valve_length_mm=80", "rim rim_depth_mm=65"), DEPTH),
    "60 in 50 deep with extender": (
        "fits",
        (
            "tube valve_length_mm=60",
            "rim rim_depth_mm=50",
            "valve_extender length_mm=20 type=on-core",
        ),
        DEPTH,
    ),
    "extender in a fixed core": (
        "clash",
        ("tube removable_core=no", "valve_extender type=in-stem"),
        "slowtwitch.cloud",
    ),
    "extender in a removable core": (
        "fits",
        ("tube removable_core=yes", "valve_extender type=in-stem"),
        "slowtwitch.cloud",
    ),
    "schrader pump, presta": ("adapts", ("pump_head valve=schrader", "tube valve=presta"), TIPS),
    "presta pump, dunlop": ("fits", ("pump_head valve=presta", "tube valve=dunlop"), TIPS),
    "presta pump, schrader": ("clash", ("pump_head valve=presta", "tube valve=schrader"), TIPS),
    "schrader cap, presta": ("clash", ("valve_cap valve=schrader", "tube valve=presta"), TIPS),
    "presta cap, dunlop": ("fits", ("valve_cap valve=presta", "tube valve=dunlop"), TIPS),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), TUBES.values(), ids=TUBES)
def test_tubes_and_valves(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Tubes by size and width, valves by hole, depth and pump."""
    assert judged(*parts).verdict == verdict, source
