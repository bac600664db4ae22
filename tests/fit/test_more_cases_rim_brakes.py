"""Rim brakes beside the printed combinations: reach, bosses, bolts and rims."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

REACH = "file-hippo.netlify.app copy of bicycles.stackexchange 44041; cycledepot.blogspot.com"
BOSSES = "bikebuilding.blogspot.com 2006/12; bikeforums.net 682238"
RIMS = "fitro.info and alltoolsforyou.com wheel-fork fit"
RIM_BRAKES: dict[str, Case] = {
    "needs 45, reaches 39-49": (
        "fits",
        ("rim_brake reach_min_mm=39 reach_max_mm=49", "frame brake_reach_mm=45"),
        REACH,
    ),
    "needs 52, reaches 39-49": (
        "clash",
        ("rim_brake reach_min_mm=39 reach_max_mm=49", "frame brake_reach_mm=52"),
        REACH,
    ),
    "needs 52, reaches 47-57": (
        "fits",
        ("rim_brake reach_min_mm=47 reach_max_mm=57", "fork brake_reach_mm=52"),
        REACH,
    ),
    "needs 45, reaches 55-73": (
        "clash",
        ("rim_brake reach_min_mm=55 reach_max_mm=73", "fork brake_reach_mm=45"),
        REACH,
    ),
    "630 to 622, 52 in 47-57": (
        "fits",
        (
            "rim_brake type=dual-pivot reach_min_mm=47 reach_max_mm=57",
            "frame brake_mounts=[calliper-hole] brake_reach_mm=52 wheel_bsd_mm=630",
            "rim bsd_mm=622",
        ),
        "4 mm down: fixed.org.au 42786",
    ),
    "630 to 622, 47 in 39-49": (
        "clash",
        (
            "rim_brake type=dual-pivot reach_min_mm=39 reach_max_mm=49",
            "frame brake_mounts=[calliper-hole] brake_reach_mm=47 wheel_bsd_mm=630",
            "rim bsd_mm=622",
        ),
        "47 + 4 = 51: fixed.org.au 42786",
    ),
    "622 to 584, 50 in 55-73": (
        "fits",
        (
            "rim_brake reach_min_mm=55 reach_max_mm=73",
            "fork brake_reach_mm=50 wheel_bsd_mm=622",
            "rim bsd_mm=584",
        ),
        "50 + 19 = 69",
    ),
    "bosses for 559, rim 559": (
        "fits",
        (
            "rim_brake type=cantilever",
            "frame brake_mounts=[canti-boss] wheel_bsd_mm=559",
            "rim bsd_mm=559",
        ),
        BOSSES,
    ),
    "bosses for 559, rim 622": (
        "clash",
        (
            "rim_brake type=cantilever",
            "frame brake_mounts=[canti-boss] wheel_bsd_mm=559",
            "rim bsd_mm=622",
        ),
        BOSSES,
    ),
    "bosses for 622, rim 559, disc brake": (
        "fits",
        (
            "disc_calliper mount=is-51 side=front",
            "fork brake_mounts=[canti-boss,is-51] wheel_bsd_mm=622 max_wheel_bsd_mm=622",
            "rim bsd_mm=559",
        ),
        "a disc mount does not mind",
    ),
    "u-brake on cantilever bosses": (
        "clash",
        ("rim_brake type=u-brake", "frame brake_mounts=[canti-boss]"),
        "bikeforums 682238",
    ),
    "cantilever on u-brake bosses": (
        "clash",
        ("rim_brake type=cantilever", "frame brake_mounts=[u-brake-boss]"),
        "bikeforums 682238",
    ),
    "linear-pull on cantilever bosses": (
        "fits",
        ("rim_brake type=linear-pull", "frame brake_mounts=[canti-boss]"),
        BOSSES,
    ),
    "dual-pivot on bosses only": (
        "clash",
        ("rim_brake type=dual-pivot", "frame brake_mounts=[canti-boss]"),
        BOSSES,
    ),
    "nutted on recessed": (
        "adapts",
        ("rim_brake type=dual-pivot bolt=nut", "frame brake_mounts=[calliper-recessed]"),
        "smontanaro.net/CR/2005/1/778",
    ),
    "recessed on a plain hole": (
        "clash",
        ("rim_brake type=dual-pivot bolt=recessed", "frame brake_mounts=[calliper-hole]"),
        "from memory",
    ),
    "recessed on recessed": (
        "fits",
        ("rim_brake type=side-pull bolt=recessed", "fork brake_mounts=[caliper-recessed]"),
        "smontanaro.net/CR/2005/1/778",
    ),
    "rim brake on a rim without track": (
        "clash",
        ("rim_brake type=linear-pull", "wheel brake_track=no"),
        RIMS,
    ),
    "rim-only wheel on a disc fork": (
        "clash",
        ("wheel side=front rotor_mount=none brake_track=yes", "fork brake_mounts=[post-74]"),
        RIMS,
    ),
    "disc-only wheel on a boss fork": (
        "clash",
        ("wheel side=front rotor_mount=six-bolt brake_track=no", "fork brake_mounts=[canti-boss]"),
        RIMS,
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), RIM_BRAKES.values(), ids=RIM_BRAKES)
def test_rim_brakes(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Reach, bosses for a wheel size, bolts, and a rim to brake on."""
    assert judged(*parts).verdict == verdict, source
