"""Frame, steering and seat combinations beside the printed ones, from the same sources."""

from __future__ import annotations

import pytest

from partsbin.fit.words import why
from tests.fit.written_parts import Case, judged

POSTS = "bike.bikegremlin.com/3114, Seatpost diameter sizes"
COLLARS = "compulsioncycles.com clamps; bikeforums.net t-645002"
RAILS = "xjd.com saddle rail pages; Wikipedia 'Bicycle seatpost'"


def _post(post: float, bore: float, *more: str) -> tuple[str, ...]:
    return (f"seatpost diameter_mm={post}", f"frame seat_tube_bore_mm={bore}", *more)


SEATS: dict[str, Case] = {
    "27.2 in 27.2": ("fits", _post(27.2, 27.2), POSTS),
    "27.2 in 27.0": ("clash", _post(27.2, 27.0), POSTS),
    "27.0 in 27.2": ("adapts", _post(27.0, 27.2), "wall 0.1: " + POSTS),
    "26.8 in 27.2": ("adapts", _post(26.8, 27.2), "wall 0.2: " + POSTS),
    "25.4 in 27.2": ("adapts", _post(25.4, 27.2), "wall 0.9: " + POSTS),
    "25.4 in 25.2": ("clash", _post(25.4, 25.2), POSTS),
    "25.0 in 25.2": ("adapts", _post(25.0, 25.2), POSTS),
    "27.2 in 31.6": ("adapts", _post(27.2, 31.6), "wall 2.2: " + POSTS),
    "30.9 in 31.6": ("adapts", _post(30.9, 31.6), "wall 0.35: " + POSTS),
    "31.6 in 30.9": ("clash", _post(31.6, 30.9), POSTS),
    "31.6 in 34.9": ("adapts", _post(31.6, 34.9), "wall 1.65: " + POSTS),
    "30.8 in 30.9": ("adapts", _post(30.8, 30.9), "two sizes: " + POSTS),
    "30.9 in 30.8": ("clash", _post(30.9, 30.8), "two sizes: " + POSTS),
    "22.2 in 25.4": ("adapts", _post(22.2, 25.4), "wall 1.6: " + POSTS),
    "27.18 in 27.2": ("fits", _post(27.18, 27.2), POSTS),
    "27.24 in 27.2": ("fits", _post(27.24, 27.2), "nearest listed size"),
    "27.26 in 27.2": ("measure", _post(27.26, 27.2), "within 0.05 of the middle"),
    "27.2 in 27.12": ("measure", _post(27.2, 27.12), "within 0.05 of the middle"),
    "26.98 in 26.98": ("fits", _post(26.98, 26.98), "both snap to 27.0"),
    "30.85 in 30.9": ("measure", _post(30.85, 30.9), "between 30.8 and 30.9"),
    "31.9 in 31.6": ("clash", _post(31.9, 31.6), "31.8 or 32.0, both too thick"),
    "with its sleeve": (
        "fits",
        _post(25.0, 27.0, "seatpost_shim inner_mm=25.0 outer_mm=27.0"),
        POSTS,
    ),
    "with a sleeve too thick outside": (
        "clash",
        _post(25.0, 27.0, "seatpost_shim inner_mm=25.0 outer_mm=27.2"),
        POSTS,
    ),
    "too thick, sleeve or not": (
        "clash",
        _post(27.2, 26.8, "seatpost_shim inner_mm=27.2 outer_mm=31.6"),
        POSTS,
    ),
    "tube outside only": (
        "measure",
        ("seatpost diameter_mm=27.2", "frame seat_tube_od_mm=28.6"),
        "the wall decides",
    ),
    "post as thick as the tube outside": (
        "clash",
        ("seatpost diameter_mm=28.6", "frame seat_tube_od_mm=28.6"),
        POSTS,
    ),
    "collar 28.6 on 28.6": (
        "fits",
        ("seat_clamp diameter_mm=28.6", "frame seat_tube_od_mm=28.6"),
        COLLARS,
    ),
    "collar 31.8 on 28.6": (
        "clash",
        ("seat_clamp diameter_mm=31.8", "frame seat_tube_od_mm=28.6"),
        COLLARS,
    ),
    "collar 28.6 on 31.8": (
        "clash",
        ("seat_clamp diameter_mm=28.6", "frame seat_tube_od_mm=31.8"),
        COLLARS,
    ),
    "collar 32 on 31.8": (
        "fits",
        ("seat_clamp diameter_mm=32", "frame seat_tube_od_mm=31.8"),
        COLLARS,
    ),
    "collar 34.9 on 35": (
        "fits",
        ("seat_clamp diameter_mm=34.9", "frame seat_tube_od_mm=35.0"),
        COLLARS,
    ),
    "collar by the post alone": (
        "fits",
        ("seat_clamp diameter_mm=31.8", "seatpost diameter_mm=27.2"),
        "the post does not fix the collar: they share no interface",
    ),
    "rails round on round": ("fits", ("saddle rails=round-7", "seatpost rails=round-7"), RAILS),
    "rails measured 7 on round": ("fits", ("saddle rails=7", "seatpost rails=round-7"), RAILS),
    "rails oval on round": ("clash", ("saddle rails=oval-7x9", "seatpost rails=round-7"), RAILS),
    "rails round on a plain pillar": (
        "adapts",
        ("saddle rails=round-7", "seatpost rails=plain-22.2"),
        RAILS,
    ),
    "rails not known": ("measure", ("saddle", "seatpost rails=round-7"), RAILS),
    "mark 54.4 for 27.2": (
        "fits",
        ("seatpost diameter_mm=27.2 insertion_mark_mm=54.4", "frame seat_tube_bore_mm=27.2"),
        "16 CFR 1512.15",
    ),
    "mark 60 for 31.6": (
        "adapts",
        ("seatpost diameter_mm=31.6 insertion_mark_mm=60", "frame seat_tube_bore_mm=31.6"),
        "63.2: 16 CFR 1512.15",
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), SEATS.values(), ids=SEATS)
def test_seat(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Posts, sleeves, collars and rails, with readings that snap or lie between sizes."""
    assert judged(*parts).verdict == verdict, source


@pytest.mark.parametrize(
    ("post", "bore", "wall"),
    [
        (27.0, 27.2, "0.1"),
        (26.8, 27.2, "0.2"),
        (25.0, 27.0, "1"),
        (30.9, 31.6, "0.35"),
        (27.2, 28.6, "0.7"),
        (27.2, 30.9, "1.85"),
        (30.9, 34.9, "2"),
    ],
)
def test_sleeve_wall(post: float, bore: float, wall: str) -> None:
    """The sleeve's wall is half the difference of the diameters, by geometry."""
    first = judged(*_post(post, bore)).interfaces[0]
    assert f"wall {wall} mm" in why(first.finding)


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


FINDER = "canecreek.com headset-fit-finder"
INCH = "overwheel.net column 2022-10-02; rennrad-news.de thread 92675"
STACK = "Wikipedia 'Headset'; velo-orange.blogspot.com 2017/08"
STEERING: dict[str, Case] = {
    "EC34 in EC34": ("fits", ("headset upper=EC34/28.6", "frame head_tube_upper=EC34"), FINDER),
    "EC34 in ZS44": ("clash", ("headset upper=EC34", "frame head_tube_upper=ZS44"), FINDER),
    "ZS44 in EC34": ("clash", ("headset lower=ZS44", "frame head_tube_lower=EC34"), FINDER),
    "ZS44 in ZS44": ("fits", ("headset upper=zs44", "frame head_tube_upper=ZS44"), FINDER),
    "EC44 below in ZS44": ("fits", ("headset lower=EC44/40", "frame head_tube_lower=ZS44"), FINDER),
    "IS42 in IS42": ("fits", ("headset upper=IS42", "frame head_tube_upper=IS42"), FINDER),
    "IS41 in IS42": ("clash", ("headset upper=IS41", "frame head_tube_upper=IS42"), FINDER),
    "IS42 in ZS44": ("clash", ("headset upper=IS42", "frame head_tube_upper=ZS44"), FINDER),
    "ISO inch in JIS": (
        "clash",
        ("headset upper=EC30.2-iso", "frame head_tube_upper=EC30.0-jis"),
        INCH,
    ),
    "JIS inch in ISO": (
        "clash",
        ("headset upper=EC30.0-jis", "frame head_tube_upper=EC30.2-iso"),
        INCH,
    ),
    "ISO inch in ISO": (
        "fits",
        ("headset upper=EC30.2-iso", "frame head_tube_upper=EC30.2-iso"),
        INCH,
    ),
    "race 27.0 on 26.4": ("clash", ("headset crown_race_mm=27.0", "fork crown_race_mm=26.4"), INCH),
    "race 26.4 on 27.0": (
        "adapts",
        ("headset crown_race_mm=26.4", "fork crown_race_mm=27.0"),
        "milled: Wikipedia",
    ),
    "race 26.4 on 26.4": ("fits", ("headset crown_race_mm=26.4", "fork crown_race_mm=26.4"), INCH),
    "race 30 on 30": ("fits", ("headset crown_race_mm=30", "fork crown_race_mm=30.0"), FINDER),
    "race 40 on 39.8": ("fits", ("headset crown_race_mm=40", "fork crown_race_mm=39.8"), FINDER),
    "race 30 on 39.8": ("clash", ("headset crown_race_mm=30", "fork crown_race_mm=39.8"), FINDER),
    "threaded on threadless": (
        "clash",
        ("headset steerer=threaded", "fork steerer=threadless"),
        "Wikipedia 'Headset'",
    ),
    "threadless on threaded": (
        "clash",
        ("headset steerer=threadless", "fork steerer=threaded"),
        "Wikipedia 'Headset'",
    ),
    "28.6 headset on 25.4": ("clash", ("headset steerer_mm=28.6", "fork steerer_mm=25.4"), FINDER),
    "25.4 headset on 28.6": ("clash", ("headset steerer_mm=25.4", "fork steerer_mm=28.6"), FINDER),
    "24 on 26 to the inch": ("clash", ("headset thread=24tpi", "fork thread=26tpi"), INCH),
    "French on 24": ("clash", ("headset thread=m25x1", "fork thread=24tpi"), INCH),
    "24 on 24": ("fits", ("headset thread=24tpi", "fork thread=24tpi"), INCH),
    "tapered in 34": (
        "clash",
        (
            "fork steerer_mm=28.6 steerer_lower_mm=38.1",
            "frame head_tube_upper=EC34 head_tube_lower=EC34",
        ),
        "mtbr.com 'What is a tapered fork'",
    ),
    "tapered in 44 and 44": (
        "adapts",
        (
            "fork steerer_mm=28.6 steerer_lower_mm=38.1",
            "frame head_tube_upper=ZS44 head_tube_lower=ZS44",
        ),
        "EC44/40 below: highlandmist.blogspot.com 2016-10",
    ),
    "tapered in 44 and 56": (
        "fits",
        (
            "fork steerer_mm=28.6 steerer_lower_mm=38.1",
            "frame head_tube_upper=ZS44 head_tube_lower=ZS56",
        ),
        FINDER,
    ),
    "tapered to 31.8 in 44 and 56": (
        "adapts",
        (
            "fork steerer_mm=28.6 steerer_lower_mm=31.8",
            "frame head_tube_upper=ZS44 head_tube_lower=ZS56",
        ),
        "no bare: brainybiker.com tapered forks",
    ),
    "straight 28.6 in 44 and 44": (
        "fits",
        (
            "fork steerer_mm=28.6 steerer_lower_mm=28.6",
            "frame head_tube_upper=ZS44 head_tube_lower=ZS44",
        ),
        FINDER,
    ),
    "inch fork in 34": (
        "adapts",
        (
            "fork steerer=threaded steerer_mm=25.4",
            "frame head_tube_upper=EC34 head_tube_lower=EC34",
        ),
        "reducing halves: velo.outsideonline.com",
    ),
    "1.5 fork in 34": (
        "clash",
        ("fork steerer_mm=38.1", "frame head_tube_upper=EC34 head_tube_lower=EC34"),
        FINDER,
    ),
    "1 1/8 fork in an inch tube": (
        "clash",
        ("fork steerer_mm=28.6", "frame head_tube_upper=EC30.2-iso head_tube_lower=EC30.2-iso"),
        FINDER,
    ),
    "threaded 222, tube 180, stack 42": (
        "fits",
        (
            "fork steerer=threaded steerer_length_mm=222",
            "frame head_tube_length_mm=180",
            "headset steerer=threaded stack_mm=42",
        ),
        STACK,
    ),
    "threaded 230, tube 180, stack 42": (
        "adapts",
        (
            "fork steerer=threaded steerer_length_mm=230",
            "frame head_tube_length_mm=180",
            "headset steerer=threaded stack_mm=42",
        ),
        "8 of spacers: " + STACK,
    ),
    "threaded 220, tube 180, stack 42": (
        "clash",
        (
            "fork steerer=threaded steerer_length_mm=220",
            "frame head_tube_length_mm=180",
            "headset steerer=threaded stack_mm=42",
        ),
        STACK,
    ),
    "threadless 215, tube 150, stack 28, stem 40": (
        "fits",
        (
            "fork steerer=threadless steerer_mm=28.6 steerer_length_mm=215",
            "frame head_tube_length_mm=150",
            "headset steerer=threadless steerer_mm=28.6 stack_mm=28",
            "stem type=threadless height_mm=40 steerer_clamp_mm=28.6",
        ),
        "3 below the top: parktool.com",
    ),
    "threadless 205, tube 150, stack 28, stem 40": (
        "clash",
        (
            "fork steerer=threadless steerer_mm=28.6 steerer_length_mm=205",
            "frame head_tube_length_mm=150",
            "headset steerer=threadless steerer_mm=28.6 stack_mm=28",
            "stem type=threadless height_mm=40 steerer_clamp_mm=28.6",
        ),
        "13 below the top, more than 5",
    ),
    "threadless 240, tube 150, stack 28, stem 40": (
        "adapts",
        (
            "fork steerer=threadless steerer_mm=28.6 steerer_length_mm=240",
            "frame head_tube_length_mm=150",
            "headset steerer=threadless steerer_mm=28.6 stack_mm=28",
            "stem type=threadless height_mm=40 steerer_clamp_mm=28.6",
        ),
        "spacers fill the rest: parktool.com",
    ),
    "sprung fork of 525 and 120 for 495": (
        "fits",
        ("fork axle_to_crown_mm=525 travel_mm=120", "frame fork_axle_to_crown_mm=495"),
        "carboncycles.cc viewtopic 4551",
    ),
    "700C wheel in a 26 boss fork": (
        "clash",
        (
            "wheel side=front bsd_mm=622",
            "fork brake_mounts=[canti-boss] wheel_bsd_mm=559",
            "rim_brake type=cantilever",
        ),
        "bikerhub.net purchasing fork",
    ),
    "26 wheel in a 29 disc fork": (
        "adapts",
        (
            "wheel side=front bsd_mm=559 rotor_mount=six-bolt",
            "fork brake_mounts=[post-74] wheel_bsd_mm=622",
        ),
        "a disc mount does not mind; raceface.com",
    ),
    "29 wheel in a fork for 27.5 at most": (
        "clash",
        ("wheel side=front bsd_mm=622", "fork max_wheel_bsd_mm=584"),
        "raceface.com",
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), STEERING.values(), ids=STEERING)
def test_steering(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Headset codes, one-inch traps, crown races, threads, tapers and stack arithmetic."""
    assert judged(*parts).verdict == verdict, source
