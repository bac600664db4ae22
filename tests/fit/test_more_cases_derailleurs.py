"""Derailleurs beside the printed combinations: cages, front shifting, mounts."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

CAGES = "libstdc.com/us/q/bicycles/7264; bluecollarmtb.com 2007-06-19"
RINGS = "chainset rings=[22,32,42]"
FRONT = "mtbr.com 933644; cyclinguk.org/cycle, page on front shifting"
DERAILLEURS: dict[str, Case] = {
    "42 teeth, long cage of 45": (
        "fits",
        ("rear_derailleur capacity_teeth=45 max_cog=34", "cassette cogs=[12,34]", RINGS),
        CAGES,
    ),
    "42 teeth, medium cage of 33": (
        "clash",
        ("rear_derailleur capacity_teeth=33 max_cog=34", "cassette cogs=[12,34]", RINGS),
        CAGES,
    ),
    "42 teeth, 44/32/24": (
        "fits",
        (
            "rear_derailleur capacity_teeth=42 max_cog=34",
            "cassette cogs=[12,34]",
            "chainset rings=[24,32,44]",
        ),
        CAGES,
    ),
    "29 teeth, short cage": (
        "fits",
        (
            "rear_derailleur capacity_teeth=29 max_cog=27",
            "cassette cogs=[12,25]",
            "chainset rings=[34,50]",
        ),
        CAGES,
    ),
    "30 teeth, short cage of 29": (
        "clash",
        (
            "rear_derailleur capacity_teeth=29 max_cog=27",
            "cassette cogs=[12,26]",
            "chainset rings=[34,50]",
        ),
        CAGES,
    ),
    "single ring, 10 to 52": (
        "fits",
        (
            "rear_derailleur capacity_teeth=42 max_cog=52",
            "cassette cogs=[10,52]",
            "chainset rings=[32]",
        ),
        CAGES,
    ),
    "sprocket at the rating": (
        "fits",
        ("rear_derailleur max_cog=34", "cassette cogs=[11,34]"),
        CAGES,
    ),
    "26-rated cage on 28": (
        "adapts",
        ("rear_derailleur max_cog=26", "cassette cogs=[12,28]"),
        "roadbikereview.com, largest cog",
    ),
    "28-rated cage on 32": (
        "adapts",
        ("rear_derailleur max_cog=28", "cassette cogs=[11,32]"),
        "velonews.com, with a washer at the hanger",
    ),
    "27-rated cage on 36": (
        "clash",
        ("rear_derailleur max_cog=27", "cassette cogs=[11,36]"),
        CAGES,
    ),
    "road shifter, road front derailleur": (
        "fits",
        ("shifter side=front front_pull=road", "front_derailleur front_pull=road"),
        FRONT,
    ),
    "flat-bar shifter, road front derailleur": (
        "clash",
        ("shifter side=front front_pull=flat-bar", "front_derailleur front_pull=road"),
        FRONT,
    ),
    "road shifter, flat-bar front derailleur": (
        "clash",
        ("shifter side=front front_pull=road", "front_derailleur front_pull=flat-bar"),
        FRONT,
    ),
    "friction front shifter": (
        "fits",
        ("shifter side=front friction=yes", "front_derailleur front_pull=flat-bar"),
        FRONT,
    ),
    "combined drop-bar lever, flat-bar front derailleur": (
        "clash",
        (
            "combined_lever side=front front_pull=road bar_mm=23.8",
            "front_derailleur front_pull=flat-bar",
        ),
        FRONT,
    ),
    "pulley of 0.75 in the front cable": (
        "fits",
        (
            "shifter side=front front_pull=flat-bar",
            "front_derailleur front_pull=road",
            "pull_adapter factor=0.75",
        ),
        FRONT,
    ),
    "two positions, three rings": ("clash", ("shifter side=front speeds=2", RINGS), FRONT),
    "three positions, two rings": (
        "fits",
        ("shifter side=front speeds=3", "chainset rings=[34,50]"),
        FRONT,
    ),
    "double derailleur on a triple": ("clash", ("front_derailleur rings=2", RINGS), "brainybiker"),
    "triple derailleur on a double": (
        "fits",
        ("front_derailleur rings=3", "chainset rings=[34,50]"),
        "brainybiker",
    ),
    "46 ring, cage for 50": (
        "fits",
        ("front_derailleur max_ring=50", "chainset rings=[34,46]"),
        FRONT,
    ),
    "50 ring, cage for 50": (
        "fits",
        ("front_derailleur max_ring=50", "chainset rings=[34,50]"),
        FRONT,
    ),
    "52 ring, cage for 48": (
        "clash",
        ("front_derailleur max_ring=48", "chainset rings=[42,52]"),
        FRONT,
    ),
    "band 28.6 on 28.6": (
        "fits",
        ("front_derailleur mount=clamp clamp_mm=28.6", "frame fd_mount=clamp seat_tube_od_mm=28.6"),
        "bike.bikegremlin.com/1297",
    ),
    "band 31.8 on 28.6": (
        "adapts",
        ("front_derailleur mount=clamp clamp_mm=31.8", "frame fd_mount=clamp seat_tube_od_mm=28.6"),
        "shim from memory",
    ),
    "band 34.9 on 31.8": (
        "adapts",
        ("front_derailleur clamp_mm=34.9", "frame seat_tube_od_mm=31.8"),
        "shim from memory",
    ),
    "band 28.6 on 31.8": (
        "clash",
        ("front_derailleur clamp_mm=28.6", "frame seat_tube_od_mm=31.8"),
        "bike.bikegremlin.com/1297",
    ),
    "band 34.9 on 35.0": (
        "fits",
        ("front_derailleur clamp_mm=34.9", "frame seat_tube_od_mm=35.0"),
        "bikeforums.net t-645002",
    ),
    "tab on a plain tube": (
        "adapts",
        ("front_derailleur mount=braze-on", "frame fd_mount=clamp seat_tube_od_mm=28.6"),
        "hulkbike.com/blog/deraillieur",
    ),
    "tab on tab": (
        "fits",
        ("front_derailleur mount=braze-on", "frame fd_mount=braze-on"),
        "hulkbike.com/blog/deraillieur",
    ),
    "two bolts of 42.7 on 22.1": (
        "clash",
        ("front_derailleur mount=direct-42.7", "frame fd_mount=direct-22.1"),
        "hulkbike.com/blog/deraillieur",
    ),
    "no place for it": (
        "clash",
        ("front_derailleur mount=clamp", "frame fd_mount=none"),
        "hulkbike.com/blog/deraillieur",
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), DERAILLEURS.values(), ids=DERAILLEURS)
def test_derailleurs(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Capacity and largest sprocket, front pull and positions, rings and the seat tube."""
    assert judged(*parts).verdict == verdict, source
