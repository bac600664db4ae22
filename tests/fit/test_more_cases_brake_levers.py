"""Brake levers, fluids and cables beside the printed combinations, from the same sources."""

from __future__ import annotations

import itertools

import pytest

from partsbin.fit.words import why
from tests.fit.written_parts import Case, judged

PULL = "bike.bikegremlin.com/1402"
TYPES = {
    "linear-pull": "long",
    "mini-linear-pull": "short",
    "cantilever": "short",
    "side-pull": "short",
    "dual-pivot": "short",
    "centre-pull": "short",
    "u-brake": "short",
}
PULLS: dict[str, Case] = {}
for _lever, (_type, _wants) in itertools.product(("long", "short", "hydraulic"), TYPES.items()):
    PULLS[f"{_lever} on {_type}"] = (
        "fits" if _lever == _wants else "clash",
        (f"brake_lever brake_pull={_lever}", f"rim_brake type={_type}"),
        PULL,
    )
for _lever, _brake in itertools.product(("long", "short", "hydraulic"), repeat=2):
    PULLS[f"{_lever} on disc {_brake}"] = (
        "measure" if _lever == _brake == "hydraulic" else "fits" if _lever == _brake else "clash",
        (f"combined_lever brake_pull={_lever}", f"disc_calliper brake_pull={_brake}"),
        PULL,
    )
PULLS |= {
    "15 mm on 15": ("fits", ("brake_lever brake_pull=15", "rim_brake brake_pull=15"), PULL),
    "7 mm on 8": ("fits", ("brake_lever brake_pull=7", "disc_calliper brake_pull=8"), PULL),
    "8 mm on cantilever": ("fits", ("brake_lever brake_pull=8", "rim_brake type=cantilever"), PULL),
    "11 mm on cantilever": (
        "measure",
        ("brake_lever brake_pull=11", "rim_brake type=cantilever"),
        "between families",
    ),
    "brake not known": ("measure", ("brake_lever brake_pull=long", "rim_brake"), PULL),
    "lever not known": ("measure", ("brake_lever", "rim_brake type=linear-pull"), PULL),
    "neither known": ("measure", ("brake_lever", "rim_brake"), "a wrong pair is dangerous"),
    "drop-bar body, linear-pull": (
        "clash",
        ("combined_lever bar_mm=23.8 front_pull=road", "rim_brake type=linear-pull"),
        PULL,
    ),
    "pulley of 2 for linear-pull": (
        "fits",
        ("brake_lever brake_pull=short", "rim_brake type=linear-pull", "pull_adapter factor=2"),
        "sheldonbrown.com/drivetrain-mixing.shtml",
    ),
    "pulley of 0.5 for cantilever": (
        "fits",
        ("brake_lever brake_pull=long", "rim_brake type=cantilever", "pull_adapter factor=0.5"),
        "derived: 15 x 0.5 = 7.5",
    ),
    "pulley of 1.1 for linear-pull": (
        "clash",
        ("brake_lever brake_pull=short", "rim_brake type=linear-pull", "pull_adapter factor=1.1"),
        "derived: 8 x 1.1 = 8.8",
    ),
    "pulley the wrong way round": (
        "clash",
        ("brake_lever brake_pull=short", "rim_brake type=linear-pull", "pull_adapter factor=0.5"),
        "derived: 8 x 0.5 = 4",
    ),
    "pulley that is not wanted": (
        "clash",
        ("brake_lever brake_pull=short", "rim_brake type=cantilever", "pull_adapter factor=2"),
        "derived: 7 x 2 = 14 on 7",
    ),
    "pulley not measured": (
        "measure",
        ("brake_lever brake_pull=short", "rim_brake type=linear-pull", "pull_adapter"),
        "derived",
    ),
    "spelled as the trade does": (
        "fits",
        ("Brake-Lever brake_pull=LONG", "rim brake".replace(" ", "_") + " type=V-Brake"),
        PULL,
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), PULLS.values(), ids=PULLS)
def test_pull(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Long with long, short with short; the other way round is dangerous where a cable joins."""
    judgement = judged(*parts)
    assert judgement.verdict == verdict, source
    text = why(judgement.interfaces[0].finding)
    if verdict == "clash" and "hydraulic" not in " ".join(parts):
        assert "dangerous" in text


FLUIDS = "trustysources.com DOT/mineral; vtt-xc-blog.com brake fluid"
FLUID: dict[str, Case] = {
    "mineral and mineral": (
        "fits",
        (
            "brake_lever brake_pull=hydraulic fluid=mineral",
            "disc_calliper brake_pull=hydraulic fluid=mineral",
        ),
        FLUIDS,
    ),
    "mineral and dot": (
        "clash",
        (
            "brake_lever brake_pull=hydraulic fluid=mineral",
            "disc_calliper brake_pull=hydraulic fluid=dot",
        ),
        FLUIDS,
    ),
    "mineral in dot": ("clash", ("brake_fluid fluid=mineral", "disc_calliper fluid=dot"), FLUIDS),
    "dot 4 in mineral": ("clash", ("brake_fluid fluid=dot-4", "brake_lever fluid=mineral"), FLUIDS),
    "dot 4 in dot": ("fits", ("brake_fluid fluid=dot-4", "disc_calliper fluid=dot"), FLUIDS),
    "dot 5.1 in dot": ("fits", ("brake_fluid fluid=DOT-5.1", "disc_calliper fluid=dot"), FLUIDS),
    "silicone in dot": (
        "clash",
        ("brake_fluid fluid=dot-5-silicone", "disc_calliper fluid=dot"),
        FLUIDS,
    ),
    "silicone in anything": (
        "clash",
        ("brake_fluid fluid=dot-5-silicone", "disc_calliper"),
        FLUIDS,
    ),
    "mineral in what is not known": (
        "measure",
        ("brake_fluid fluid=mineral", "disc_calliper"),
        FLUIDS,
    ),
    "bottle not known": ("measure", ("brake_fluid", "disc_calliper fluid=dot"), FLUIDS),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), FLUID.values(), ids=FLUID)
def test_fluid(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """A wrong or a mixed fluid is dangerous."""
    judgement = judged(*parts)
    assert judgement.verdict == verdict, source
    if verdict == "clash":
        assert "dangerous" in why(judgement.interfaces[0].finding)


HOUSING = "bike.bikegremlin.com/8548; velo-orange.blogspot.com 2017/02"
HEADS = "bikeman.com 1641 cables and housing"
CABLES: dict[str, Case] = {
    "shift housing on a brake": ("clash", ("housing use=shift", "rim_brake"), HOUSING),
    "shift housing on a brake lever": ("clash", ("housing use=shift", "brake_lever"), HOUSING),
    "brake housing on a brake": ("fits", ("housing use=brake", "brake_lever"), HOUSING),
    "brake housing on indexed": (
        "clash",
        ("housing use=brake", "shifter friction=no index_family=ratio-1.7"),
        HOUSING,
    ),
    "brake housing on friction": ("adapts", ("housing use=brake", "shifter friction=yes"), HOUSING),
    "shift housing on indexed": ("fits", ("housing use=shift", "shifter friction=no"), HOUSING),
    "pear in a flat-bar lever": (
        "clash",
        ("brake_cable brake_cable_head=pear", "brake_lever brake_cable_head=barrel"),
        HEADS,
    ),
    "barrel in barrel": (
        "fits",
        ("brake_cable brake_cable_head=barrel", "brake_lever brake_cable_head=barrel"),
        HEADS,
    ),
    "large in small": (
        "clash",
        ("shift_cable shift_cable_head=large", "shifter shift_cable_head=small"),
        HEADS,
    ),
    "small in large": (
        "adapts",
        ("shift_cable shift_cable_head=small", "shifter shift_cable_head=large"),
        "from memory",
    ),
    "gear wire on a brake": (
        "clash",
        ("brake_cable diameter_mm=1.2", "brake_lever brake_pull=short"),
        HEADS,
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), CABLES.values(), ids=CABLES)
def test_cables(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Housing and wire by their use, heads by their pockets."""
    assert judged(*parts).verdict == verdict, source
