"""Disc brakes beside the printed combinations: mounts, rotors and pads."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

MOUNTS = "bikeman.com 1638 disc mounting; forum.bikeradar.com t=1590919"
HUB = "brainybiker.com 6-bolt rotors and splined hubs"
DISCS: dict[str, Case] = {
    "post on post": (
        "fits",
        ("disc_calliper mount=post-74", "fork brake_mounts=[post-74]"),
        MOUNTS,
    ),
    "post on two tabs": (
        "adapts",
        ("disc_calliper mount=post-74", "fork brake_mounts=[is-51]"),
        MOUNTS,
    ),
    "post on two tabs with bracket": (
        "fits",
        (
            "disc_calliper mount=post-74",
            "fork brake_mounts=[is-51]",
            "brake_adapter from_mount=is-51 to_mount=post-74",
        ),
        MOUNTS,
    ),
    "post of 74 on early 68": (
        "clash",
        ("disc_calliper mount=post-74", "fork brake_mounts=[post-68]"),
        MOUNTS,
    ),
    "mount measured as 74.2": (
        "fits",
        ("disc_calliper mount=74.2", "frame brake_mounts=[post-74]"),
        MOUNTS,
    ),
    "flat on post": (
        "clash",
        ("disc_calliper mount=flat-34", "frame brake_mounts=[post-74]"),
        "from memory",
    ),
    "flat on flat": (
        "fits",
        ("disc_calliper mount=flat-34", "frame brake_mounts=[flat-34]"),
        "from memory",
    ),
    "disc on bosses": (
        "clash",
        ("disc_calliper mount=is-51", "frame brake_mounts=[canti-boss]"),
        MOUNTS,
    ),
    "160 on native 160": (
        "fits",
        ("rotor diameter_mm=160", "fork brake_mounts=[post-74] native_rotor_mm=160"),
        MOUNTS,
    ),
    "180 on native 160": (
        "adapts",
        ("rotor diameter_mm=180", "fork brake_mounts=[post-74] native_rotor_mm=160"),
        MOUNTS,
    ),
    "160 on native 203": (
        "clash",
        ("rotor diameter_mm=160", "fork brake_mounts=[post-74] native_rotor_mm=203"),
        MOUNTS,
    ),
    "203 on native 203": (
        "fits",
        ("rotor diameter_mm=203", "fork brake_mounts=[post-74] native_rotor_mm=203"),
        MOUNTS,
    ),
    "200 on native 203": (
        "clash",
        ("rotor diameter_mm=200", "fork brake_mounts=[post-74] native_rotor_mm=203"),
        "not the same; below the mount's own size",
    ),
    "140 in front on two tabs": (
        "clash",
        ("rotor diameter_mm=140", "fork brake_mounts=[is-51]"),
        "ja.bicycles.asklobster.com/posts/44161",
    ),
    "140 at the rear on two tabs": (
        "fits",
        ("rotor diameter_mm=140", "frame brake_mounts=[is-51]"),
        "ja.bicycles.asklobster.com/posts/44161",
    ),
    "six bolts on splines": (
        "adapts",
        ("rotor rotor_mount=six-bolt-44", "hub rotor_mount=splined-lockring"),
        HUB,
    ),
    "splines on six bolts": (
        "clash",
        ("rotor rotor_mount=splined-lockring", "hub rotor_mount=six-bolt-44"),
        HUB,
    ),
    "rotor on a hub without": (
        "clash",
        ("rotor rotor_mount=six-bolt-44", "wheel rotor_mount=none"),
        HUB,
    ),
    "rotor 1.49, mark 1.5": (
        "clash",
        ("rotor thickness_mm=1.49 min_thickness_mm=1.5", "disc_calliper"),
        "feedbacksports",
    ),
    "rotor 1.6, mark 1.5": (
        "fits",
        ("rotor thickness_mm=1.6 min_thickness_mm=1.5", "disc_calliper"),
        "feedbacksports",
    ),
    "disc pad 0.5": (
        "clash",
        ("brake_pads for_brake=disc thickness_mm=0.5", "disc_calliper"),
        "whafi.com",
    ),
    "rim pads in a disc brake": (
        "clash",
        ("brake_pads for_brake=rim", "disc_calliper"),
        "common practice, no source",
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), DISCS.values(), ids=DISCS)
def test_discs(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Callipers and rotors by their mounts, worn rotors and pads by their marks."""
    assert judged(*parts).verdict == verdict, source
