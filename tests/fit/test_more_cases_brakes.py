"""Brake combinations beside the printed ones, from the same tables and sources."""

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


MOUNTS = "bikeman.com 1638 disc mounting; forum.bikeradar.com t=1590919"
HUB = "brainybiker.com 6-bolt rotors and splined hubs"
REACH = "file-hippo.netlify.app copy of bicycles.stackexchange 44041; cycledepot.blogspot.com"
BOSSES = "bikebuilding.blogspot.com 2006/12; bikeforums.net 682238"
HOUSING = "bike.bikegremlin.com/8548; velo-orange.blogspot.com 2017/02"
HEADS = "bikeman.com 1641 cables and housing"
RIMS = "fitro.info and alltoolsforyou.com wheel-fork fit"
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


@pytest.mark.parametrize(("verdict", "parts", "source"), DISCS.values(), ids=DISCS)
def test_brakes_on_mounts(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Mounts, rotors, reach, bosses, bolts, housing and cable heads."""
    assert judged(*parts).verdict == verdict, source
