"""Handlebars, stems and controls beside the printed combinations, from the same sources."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

SHEET = "lovecitycycles.com/?page_id=796, Handlebar and Stem Dimension sheet"
GRIPS = "velogear.com.au, which grip fits; urbanvelo.org issue 12 p. 70"
QUILLS = "motorbicycling.com p=105482; bicycle-forum.net quill measurements 2007"
THREADLESS = "federalprism.com steerer; brainybiker.com tapered forks"


def _bar(bar: float, clamp: float, *more: str) -> tuple[str, ...]:
    return (f"handlebar clamp_mm={bar}", f"stem bar_clamp_mm={clamp}", *more)


BARS: dict[str, Case] = {
    "25.4 in 25.4": ("fits", _bar(25.4, 25.4), SHEET),
    "31.7 in 31.8": ("fits", _bar(31.7, 31.8), SHEET),
    "31.8 in 31.7": ("fits", _bar(31.8, 31.7), SHEET),
    "25.4 in 26.0": ("adapts", _bar(25.4, 26.0), "wall 0.3: velo-orange.blogspot.com 2008/02"),
    "26.0 in 25.4": ("clash", _bar(26.0, 25.4), "bikeforums.net 985045"),
    "25.8 in 26.0": ("adapts", _bar(25.8, 26.0), "meant to, may slip: " + SHEET),
    "26.0 in 25.8": ("clash", _bar(26.0, 25.8), SHEET),
    "26.0 in 26.4": ("adapts", _bar(26.0, 26.4), SHEET),
    "26.4 in 26.0": ("clash", _bar(26.4, 26.0), SHEET),
    "25.4 in 31.8": ("adapts", _bar(25.4, 31.8), "wall 3.2: retrobike forum t=255183"),
    "26.0 in 31.8": ("adapts", _bar(26.0, 31.8), "retrobike forum t=255183"),
    "22.2 in 25.4": ("adapts", _bar(22.2, 25.4), "wall 1.6: retrobike.co.uk 473510"),
    "31.8 in 35.0": ("adapts", _bar(31.8, 35.0), "from memory"),
    "35.0 in 31.8": ("clash", _bar(35.0, 31.8), "bikeforums.net 985045"),
    "31.8 in 26.0": ("clash", _bar(31.8, 26.0), "bikeforums.net 985045"),
    "25.4 in 31.8 with sleeve": (
        "fits",
        _bar(25.4, 31.8, "bar_shim inner_mm=25.4 outer_mm=31.8"),
        "retrobike t=255183",
    ),
    "25.4 in 31.8 with another sleeve": (
        "clash",
        _bar(25.4, 31.8, "bar_shim inner_mm=26.0 outer_mm=31.8"),
        "retrobike t=255183",
    ),
    "lever 22.2 on 22.2": ("fits", ("brake_lever bar_mm=22.2", "handlebar grip_mm=22.2"), GRIPS),
    "lever 22.2 on 23.8": ("clash", ("brake_lever bar_mm=22.2", "handlebar grip_mm=23.8"), GRIPS),
    "lever 23.8 on 22.2": ("adapts", ("brake_lever bar_mm=23.8", "handlebar grip_mm=22.2"), GRIPS),
    "lever 24.0 on 23.8": ("fits", ("brake_lever bar_mm=24.0", "handlebar grip_mm=23.8"), GRIPS),
    "lever 23.8 on 24.0": ("fits", ("combined_lever bar_mm=23.8", "handlebar grip_mm=24.0"), GRIPS),
    "lever 31.8 on the middle": (
        "fits",
        ("brake_lever bar_mm=31.8 mount=tops", "handlebar clamp_mm=31.8"),
        "t-645002",
    ),
    "lever 26.0 on the thin part": (
        "adapts",
        ("brake_lever bar_mm=26.0 mount=tops", "handlebar clamp_mm=31.8 grip_mm=23.8 style=drop"),
        "bikeforums.net t-645002",
    ),
    "shifter 22.2 on a drop bar": (
        "clash",
        ("shifter mount=bar-clamp bar_mm=22.2", "handlebar style=drop grip_mm=23.8"),
        GRIPS,
    ),
    "shifter 22.2 on a flat bar": (
        "fits",
        ("shifter mount=bar-clamp bar_mm=22.2", "handlebar style=flat grip_mm=22.2"),
        GRIPS,
    ),
    "bar-end shifter in 20": (
        "fits",
        ("shifter mount=bar-end", "handlebar bore_mm=20"),
        "parktool.com Bar end shifter",
    ),
    "bar-end shifter in 17": (
        "clash",
        ("shifter mount=bar-end", "handlebar bore_mm=17"),
        "parktool.com Bar end shifter",
    ),
    "bar-end shifter in 22": (
        "clash",
        ("shifter mount=bar-end", "handlebar bore_mm=22"),
        "parktool.com Bar end shifter",
    ),
    "grips 22.2 on 22.2": ("fits", ("grips inner_mm=22.2", "handlebar grip_mm=22.2"), GRIPS),
    "grips 22.2 on 23.8": ("clash", ("grips inner_mm=22.2", "handlebar grip_mm=23.8"), GRIPS),
    "grips 22.2 on a riser": ("fits", ("grips inner_mm=22.2", "handlebar style=riser"), GRIPS),
    "grips 7/8 on 22.23": ("fits", ("grips inner_mm=22.225", "handlebar grip_mm=22.23"), GRIPS),
    "quill 22.2 in 1 inch": (
        "fits",
        ("stem type=quill quill_mm=22.2", "fork steerer=threaded steerer_mm=25.4"),
        QUILLS,
    ),
    "quill 25.4 in 1 1/8": (
        "fits",
        ("stem type=quill quill_mm=25.4", "fork steerer=threaded steerer_mm=28.6"),
        QUILLS,
    ),
    "quill 28.6 in 1 1/4": (
        "fits",
        ("stem type=quill quill_mm=28.6", "fork steerer=threaded steerer_mm=31.8"),
        QUILLS,
    ),
    "quill 22.2 in 1 1/8": (
        "adapts",
        ("stem quill_mm=22.2", "fork steerer=threaded steerer_mm=28.6"),
        "sleeve 22.2 to 25.4, from memory",
    ),
    "quill 25.4 in 1 inch": (
        "clash",
        ("stem quill_mm=25.4", "fork steerer=threaded steerer_mm=25.4"),
        QUILLS,
    ),
    "quill 22.2 in a French fork": (
        "adapts",
        ("stem quill_mm=22.2", "fork steerer=threaded steerer_mm=25.0"),
        "sand the stem: velo-orange.blogspot.com 2008/02",
    ),
    "quill 22.0 in a French fork": ("fits", ("stem quill_mm=22.0", "fork thread=m25x1"), QUILLS),
    "quill in a threadless fork": (
        "clash",
        ("stem type=quill", "fork steerer=threadless"),
        "Wikipedia 'Stem'",
    ),
    "threadless stem on a threaded inch": (
        "adapts",
        ("stem type=threadless steerer_clamp_mm=28.6", "fork steerer=threaded steerer_mm=25.4"),
        "cyclopunk.blogspot.com 2012-01",
    ),
    "threadless 28.6 on 28.6": (
        "fits",
        ("stem type=threadless steerer_clamp_mm=28.6", "fork steerer=threadless steerer_mm=28.6"),
        THREADLESS,
    ),
    "threadless 28.6 on 25.4": (
        "adapts",
        ("stem type=threadless steerer_clamp_mm=28.6", "fork steerer=threadless steerer_mm=25.4"),
        "thebiketube.com; bikeforums.net 20076552",
    ),
    "threadless 25.4 on 28.6": (
        "clash",
        ("stem type=threadless steerer_clamp_mm=25.4", "fork steerer=threadless steerer_mm=28.6"),
        THREADLESS,
    ),
    "stem in inches": (
        "fits",
        (
            "stem type=threadless steerer_clamp_mm=28.575",
            "fork steerer=threadless steerer_mm=28.575",
        ),
        "1 1/8 in is 28.575 mm",
    ),
    "downtube lever on curved bosses": (
        "fits",
        ("shifter mount=down-tube", "frame downtube_bosses=curved down_tube_od_mm=28.6"),
        "blackmtncycles.com/details",
    ),
    "downtube lever on curved bosses of 31.8": (
        "adapts",
        ("shifter mount=downtube", "frame downtube_bosses=curved down_tube_od_mm=31.8"),
        "filed: blackmtncycles.com/details",
    ),
    "downtube lever on flat bosses": (
        "clash",
        ("shifter mount=downtube", "frame downtube_bosses=flat"),
        "bikeforums t-231963",
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), BARS.values(), ids=BARS)
def test_cockpit(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Bars, sleeves, levers, grips, quills and stems, each by its own named size."""
    assert judged(*parts).verdict == verdict, source
