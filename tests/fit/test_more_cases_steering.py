"""Headsets, forks and frames beside the printed combinations, from the same sources."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

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
