"""Chains beside the printed combinations: width, wear and length, from the same sources."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

SIZES = "bike.bikegremlin.com/1220"
CHAINS: dict[str, Case] = {
    "6 on 6": ("fits", ("chain speeds=6", "freewheel speeds=6"), SIZES),
    "6 on 7": ("fits", ("chain speeds=6", "cassette speeds=7"), "gap 0.17: " + SIZES),
    "6 on 8": ("clash", ("chain speeds=6", "cassette speeds=8"), "gap 0.00: " + SIZES),
    "7 on 8": ("fits", ("chain speeds=7", "cassette speeds=8"), "gap 0.25: " + SIZES),
    "7 on 9": ("clash", ("chain speeds=7", "cassette speeds=9"), SIZES),
    "8 on 7": ("fits", ("chain speeds=8", "cassette speeds=7"), SIZES),
    "8 on 8 italian": ("fits", ("chain speeds=8", "cassette speeds=8 spacing=italian"), SIZES),
    "8 on 10": ("clash", ("chain speeds=8", "cassette speeds=10"), SIZES),
    "9 on 7": ("fits", ("chain speeds=9", "cassette speeds=7"), "gap 0.78: " + SIZES),
    "9 on 8": ("fits", ("chain speeds=9", "cassette speeds=8"), "gap 0.60: " + SIZES),
    "9 on 9": ("fits", ("chain speeds=9", "cassette speeds=9"), "gap 0.15: " + SIZES),
    "9 on 9 italian": ("fits", ("chain speeds=9", "cassette speeds=9 spacing=italian"), SIZES),
    "9 on thick teeth": (
        "clash",
        ("chain speeds=9", "cassette speeds=7 cog_thickness_mm=2.35"),
        "inner 2.18 mm on teeth of 2.35: jitetan.com/cassette.html table 1",
    ),
    "7 on thick teeth": (
        "adapts",
        ("chain speeds=7", "cassette speeds=7 cog_thickness_mm=2.35"),
        "tight inside: jitetan.com/cassette.html table 1",
    ),
    "10 on 9": ("fits", ("chain speeds=10", "cassette speeds=9"), "gap 0.50: " + SIZES),
    "10 on 10": ("fits", ("chain speeds=10", "cassette speeds=10"), SIZES),
    "10 on 10 italian": ("fits", ("chain speeds=10", "cassette speeds=10 spacing=italian"), SIZES),
    "10 on 11": ("clash", ("chain speeds=10", "cassette speeds=11"), "gap -0.01: " + SIZES),
    "11 on 10": ("fits", ("chain speeds=11", "cassette speeds=10"), "gap 0.35: " + SIZES),
    "11 on 11": ("fits", ("chain speeds=11", "cassette speeds=11"), "gap 0.14: " + SIZES),
    "8 on 11": ("clash", ("chain speeds=8", "cassette speeds=11"), SIZES),
    "12 on 12": ("fits", ("chain speeds=12", "cassette speeds=12"), SIZES),
    "11 on 12": ("clash", ("chain speeds=11", "cassette speeds=12"), SIZES),
    "measured 7.3 on 8": ("fits", ("chain outer_mm=7.3", "cassette speeds=8"), SIZES),
    "measured 6.6 on 10": ("clash", ("chain outer_mm=6.6", "cassette speeds=10"), SIZES),
    "1/8 on derailleur sprockets": (
        "clash",
        ("chain inner_mm=3.175", "cassette speeds=8"),
        "velogear.com.au Chains",
    ),
    "1/8 on 1/8": ("fits", ("chain inner_mm=3.175", "sprocket width_in=1/8"), SIZES),
    "1/8 on 3/32": ("fits", ("chain inner_mm=3.175", "sprocket width_in=3/32"), SIZES),
    "3/32 on 3/32": ("fits", ("chain inner_mm=2.38", "sprocket width_in=3/32"), SIZES),
    "3/32 on 1/8": ("clash", ("chain inner_mm=2.38", "sprocket width_in=1/8"), SIZES),
    "single-speed chain on 1/8": ("fits", ("chain speeds=1", "sprocket width_in=1/8"), SIZES),
    "8-speed chain on 1/8": ("clash", ("chain speeds=8", "sprocket width_in=1/8"), SIZES),
    "8-speed chain on 3/32": ("fits", ("chain speeds=8", "sprocket width_in=3/32"), SIZES),
    "chain for 9 on rings for 10": (
        "fits",
        ("chain speeds=9", "chainset speeds=10"),
        "brainybiker 10-speed chain, 9 crankset",
    ),
    "chain for 10 on rings for 9": (
        "fits",
        ("chain speeds=10", "chainset speeds=9"),
        "brainybiker 10-speed chain, 9 crankset",
    ),
    "width not known": ("measure", ("chain", "cassette speeds=9"), SIZES),
    "sprockets not known": ("measure", ("chain speeds=8", "cassette"), SIZES),
    "narrowest on unknown sprockets": ("measure", ("chain speeds=11", "cassette"), SIZES),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), CHAINS.values(), ids=CHAINS)
def test_chain_width(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """The gap to the next sprocket and the room over the teeth decide."""
    assert judged(*parts).verdict == verdict, source


WEAR = "citycyclingtips.com/?p=748"
WORN: dict[str, Case] = {
    "0.5 on 11": ("clash", ("chain speeds=11 wear_percent=0.5", "cassette speeds=11"), WEAR),
    "0.4 on 11": ("fits", ("chain speeds=11 wear_percent=0.4", "cassette speeds=11"), WEAR),
    "0.5 on 9": ("fits", ("chain speeds=9 wear_percent=0.5", "cassette speeds=9"), WEAR),
    "0.75 on 9": ("clash", ("chain speeds=9 wear_percent=0.75", "cassette speeds=9"), WEAR),
    "0.75 on one": (
        "fits",
        ("chain inner_mm=3.175 wear_percent=0.75", "sprocket width_in=1/8"),
        WEAR,
    ),
    "1.0 on one": (
        "clash",
        ("chain inner_mm=3.175 wear_percent=1.0", "sprocket width_in=1/8"),
        WEAR,
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), WORN.values(), ids=WORN)
def test_chain_wear(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """A chain at its limit is refused, the limit by the number of speeds."""
    assert judged(*parts).verdict == verdict, source


LENGTH = "bit1024.com Chain-Length; calculatorultra.com chain length"


def _chain(links: int, stay: float, ring: int, sprocket: int) -> tuple[str, ...]:
    return (
        f"chain links={links}",
        f"frame chainstay_mm={stay}",
        f"chainset rings=[{ring}]",
        f"cassette cogs=[{sprocket}]",
    )


LENGTHS: dict[str, Case] = {
    "16 in, 44 and 12, exact": ("fits", _chain(96, 406.4, 44, 12), "47.45 in: " + LENGTH),
    "16 in, 44 and 12, simple": ("adapts", _chain(94, 406.4, 44, 12), "47.0 in: " + LENGTH),
    "16 in, 44 and 12, short": ("clash", _chain(92, 406.4, 44, 12), LENGTH),
    "18 in, 50 and 18": ("fits", _chain(110, 457.2, 50, 18), "54.39 in: " + LENGTH),
    "16 in, 50 and 20": ("fits", _chain(102, 406.4, 50, 20), "50.89 in: " + LENGTH),
    "17 in, 52 and 18": ("fits", _chain(106, 431.8, 52, 18), "52.96 in: " + LENGTH),
    "17 in, 52 and 18, short": ("clash", _chain(104, 431.8, 52, 18), LENGTH),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), LENGTHS.values(), ids=LENGTHS)
def test_chain_length(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """The exact loop and an inch, rounded up to an even count; the simple form is marginal."""
    wanted = next(j for j in judged(*parts).interfaces if j.rule.name == "chain length")
    assert wanted.finding.verdict == verdict, source
