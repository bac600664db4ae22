"""Chains: width on sprockets and rings, length, and wear."""

from __future__ import annotations

import pytest

from partsbin.fit.chain_length import loop_length, simple_length, whole_links
from partsbin.fit.chains import gap
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.chain_widths import WIDTHS
from partsbin.standards.length import Length, mm
from partsbin.standards.sprocket_spacing import spacing
from tests.fit.brake_parts import certain, verdict
from tests.fit.drivetrain_parts import (
    cassette,
    chain,
    chainring,
    chainset,
    frame,
    freewheel,
    sprocket,
    stack,
)

ON_SPROCKETS = "chain on sprockets"
ON_SPROCKET = "chain on single sprocket"
ON_RINGS = "chain on chainrings"
LENGTH = "chain length"
WEAR = "chain wear"

WIDTH_CASES = {
    # bike.bikegremlin.com/1220 unless another source is named
    "8 on 5": (chain(speeds=8), stack("5"), "fits"),
    "8 on 6": (chain(speeds=8), stack("6"), "fits"),
    "8 on 7": (chain(speeds=8), stack("7"), "fits"),
    "8 on old uneven 8": (chain(speeds=8), stack("8o"), "fits"),
    "8 on 8": (chain(speeds=8), stack("8"), "fits"),
    "9 on 8": (chain(speeds=9), stack("8"), "fits"),
    "9 on 9": (chain(speeds=9), stack("9"), "fits"),
    "10 on 10 Italian": (chain(speeds=10), stack("10i"), "fits"),
    "11 on 11": (chain(speeds=11), stack("11"), "fits"),
    "9 on 11": (chain(speeds=9), stack("11"), "clash"),
    "9 on 10: brainybiker 9-speed chain on 10": (chain(speeds=9), stack("10"), "clash"),
    "10 on 8: brainybiker 10-speed chain on 8": (chain(speeds=10), stack("8"), "adapts"),
    "8 on 9: foldableflyer.com": (chain(speeds=8), stack("9"), "clash"),
    "7 on 9: foldableflyer.com": (chain(speeds=7), stack("9"), "clash"),
    "6 on 8": (chain(speeds=6), stack("8"), "clash"),
    "6 on 7": (chain(speeds=6), stack("7"), "fits"),
    "7 on 9 Italian": (chain(speeds=7), stack("9i"), "clash"),
    "10 on 11": (chain(speeds=10), stack("11"), "clash"),
    "11 on 10": (chain(speeds=11), stack("10"), "fits"),
    "8 on 9, spacing unknown": (chain(speeds=8), cassette(speeds=9), "clash"),
    "9 on 7, freewheel": (chain(speeds=9), freewheel(speeds=7), "fits"),
    "9 on thick 7": (chain(speeds=9), cassette(speeds=7, cog_thickness_mm=2.35), "clash"),
    "8 on thick 7": (chain(speeds=8), cassette(speeds=7, cog_thickness_mm=2.35), "adapts"),
    "measured figures only": (
        chain(inner_mm=2.18, outer_mm=6.6),
        cassette(pitch_mm=4.34, cog_thickness_mm=1.78),
        "fits",
    ),
    "measured pitch": (chain(speeds=8), cassette(speeds=8, pitch_mm=4.0), "clash"),
    "outer width only": (chain(outer_mm=7.1), stack("8"), "fits"),
    "measured outer before listed": (chain(speeds=9, outer_mm=7.0), stack("9"), "clash"),
    "1/8 in: en.wikibooks.org Chain_sizes": (chain(inner_mm=3.175), stack("8"), "clash"),
    "single speed by its number": (chain(speeds=1), stack("8"), "clash"),
    "12 on 12": (chain(speeds=12), cassette(speeds=12), "fits"),
    "11 on 12": (chain(speeds=11), cassette(speeds=12), "clash"),
    "11 on 12 by its width": (chain(outer_mm=5.6), cassette(speeds=12), "clash"),
    "14 on 12": (chain(speeds=14), cassette(speeds=12), "adapts"),
    "unknown chain": (chain(wear_percent=0.1), stack("9"), "measure"),
    "unknown width beyond the table": (chain(speeds=14), stack("9"), "measure"),
    "unknown sprockets": (chain(speeds=9), cassette(), "measure"),
    "three-speed chain": (chain(speeds=3), stack("8"), "clash"),
    "beyond the table, measured": (chain(speeds=14, outer_mm=4.9), stack("11"), "fits"),
    "inside of 4 mm": (chain(inner_mm=4.0), stack("8"), "clash"),
}


@pytest.mark.parametrize(("one", "sprockets", "wanted"), WIDTH_CASES.values(), ids=WIDTH_CASES)
def test_width_on_sprockets(one: Kind, sprockets: Kind, wanted: str) -> None:
    """A narrower chain goes on fewer sprockets, a wider one not on more."""
    assert wanted == verdict(ON_SPROCKETS, one, sprockets)


@pytest.mark.parametrize(
    ("speeds", "sprockets", "free"),
    [
        # the computed table of chains by sprockets, to a hundredth
        (6, "5", 0.60), (6, "7", 0.17), (6, "8", 0.00), (7, "5", 0.85), (7, "8", 0.25),
        (7, "9i", 0.02), (8, "5", 0.95), (8, "9", -0.10), (8, "9i", 0.12), (9, "8", 0.60),
        (9, "9", 0.15), (9, "9i", 0.38), (9, "10", -0.15), (10, "8", 0.95), (10, "9", 0.50),
        (10, "10", 0.20), (10, "10i", 0.32), (11, "9", 0.65), (11, "10", 0.35), (11, "11", 0.14),
        (9, "11", -0.36),
    ],
)  # fmt: skip
def test_gap(speeds: int, sprockets: str, free: float) -> None:
    """The gap to the next sprocket is pitch less half of sprocket and chain together."""
    kind = "italian" if sprockets.endswith("i") else "standard"
    row = spacing(int(sprockets.rstrip("i")), kind)
    assert row is not None

    assert abs(gap(row.pitch, row.thickness, WIDTHS[speeds].outer) - mm(free)) <= mm("0.01")


SINGLES = {
    # en.wikibooks.org Bicycles/Maintenance_and_Repair/Chains/Chain_sizes; velogear.com.au Chains
    "1/8 on 3/32": (chain(inner_mm=3.175), sprocket(width_in="3/32"), "fits"),
    "1/8 on 1/8": (chain(speeds=1), sprocket(width_in="1/8"), "fits"),
    "3/32 on 1/8": (chain(inner_mm=2.38), sprocket(width_in="1/8"), "clash"),
    "3/32 on 3/32": (chain(speeds=8), sprocket(width_in="3/32"), "fits"),
    "9-speed on 3/32": (chain(speeds=9), sprocket(width_in="3/32"), "adapts"),
    "5/32 on 1/8": (chain(inner_mm=4.0), sprocket(width_in="1/8"), "fits"),
    "unknown sprocket": (chain(inner_mm=2.38), sprocket(teeth=16), "measure"),
    "either way": (chain(inner_mm=3.175), sprocket(teeth=16), "fits"),
    "unknown chain": (chain(links=100), sprocket(width_in="1/8"), "measure"),
}


@pytest.mark.parametrize(("one", "single", "wanted"), SINGLES.values(), ids=SINGLES)
def test_width_on_a_single_sprocket(one: Kind, single: Kind, wanted: str) -> None:
    """A wide chain runs on a narrow sprocket, a narrow one not on a wide sprocket."""
    assert wanted == verdict(ON_SPROCKET, one, single)


RINGS = {
    # brainybiker 10-speed chain with 9-speed crankset; bike.bikegremlin.com/1220
    "10 on 9": (chain(speeds=10), chainset(speeds=9), "fits"),
    "8 on 9": (chain(speeds=8), chainset(speeds=9), "fits"),
    "7 on 8": (chain(speeds=7), chainset(speeds=8), "fits"),
    "11 on 8": (chain(speeds=11), chainset(speeds=8), "adapts"),
    "9 by its width on a ring of 9": (chain(outer_mm=6.6), chainring(speeds=9), "fits"),
    "1/8 on a derailleur's rings": (chain(inner_mm=3.175), chainset(speeds=8), "clash"),
    "1/8 on several rings": (chain(speeds=1), chainset(rings=[34, 50]), "clash"),
    "1/8 on a single ring": (chain(speeds=1), chainset(speeds=1), "fits"),
    "9 on a single ring": (chain(speeds=9), chainset(speeds=1), "adapts"),
    "rings that do not say": (chain(speeds=9), chainset(rings=[34, 50]), "none"),
    "unknown chain": (chain(links=110), chainset(speeds=9), "measure"),
}


@pytest.mark.parametrize(("one", "rings", "wanted"), RINGS.values(), ids=RINGS)
def test_chain_on_rings(one: Kind, rings: Kind, wanted: str) -> None:
    """Rings forgive one step of width."""
    assert wanted == verdict(ON_RINGS, one, rings)


@pytest.mark.parametrize(
    ("inches", "ring", "cog", "simple", "exact"),
    [
        # calculatorultra.com chain length; bit1024.com Chain-Length; exact form by geometry
        (16, 44, 12, 47.0, 47.45),
        (18, 50, 18, 54.0, 54.39),
        (16, 50, 20, 50.5, 50.89),
        (17, 52, 18, 52.5, 52.96),
    ],
)
def test_length_formulas(inches: int, ring: int, cog: int, simple: float, exact: float) -> None:
    """Both forms give the published figures, the exact one with an inch for a derailleur."""
    chainstay = Length(inches * 25_400)

    assert simple_length(chainstay, ring, cog) == simple
    assert loop_length(chainstay, ring, cog) + 1 == pytest.approx(exact, abs=0.01)


def test_whole_links() -> None:
    """A length is rounded up to an even number of links, and not if it is one."""
    assert [whole_links(inches) for inches in (47.0, 47.01, 54.39)] == [94, 96, 110]


def bike(links: int) -> tuple[Kind, ...]:
    """Return a chain with all that its length depends on."""
    return (
        chain(links=links),
        frame(chainstay_mm=406.4),
        chainset(rings=[32, 44]),
        cassette(cogs=[11, 12]),
    )


@pytest.mark.parametrize(
    ("links", "wanted"),
    [(92, "clash"), (94, "adapts"), (96, "fits"), (98, "fits"), (104, "adapts")],
)
def test_length_of_a_chain(links: int, wanted: str) -> None:
    """Of 94 links by the estimate and 96 by geometry, 94 is a warning and 92 too short."""
    assert wanted == verdict(LENGTH, *bike(links))


def test_length_of_a_single_speed_chain() -> None:
    """Without a derailleur no inch is added."""
    rest = frame(chainstay_mm=406.4), chainset(rings=[44]), sprocket(teeth=16)

    assert verdict(LENGTH, chain(links=92), *rest) == "clash"
    assert verdict(LENGTH, chain(links=96), *rest) == "fits"
    assert verdict(LENGTH, chain(links=114), *rest) == "adapts"


@pytest.mark.parametrize("left_out", range(4))
def test_length_is_not_asked_where_something_is_unknown(left_out: int) -> None:
    """A chain is cut to length on the bike, so that an unknown asks for nothing."""
    parts = list(bike(92))
    parts[left_out] = (chain(), frame(), chainset(), cassette())[left_out]

    assert verdict(LENGTH, *parts) == "none"


WORN = {
    # citycyclingtips.com/?p=748
    "0.5 on 11": (chain(wear_percent=0.5), cassette(speeds=11), "clash"),
    "0.4 on 11": (chain(wear_percent=0.4), cassette(speeds=11), "fits"),
    "0.5 on 10": (chain(wear_percent=0.5), cassette(speeds=10), "fits"),
    "0.75 on 8": (chain(wear_percent=0.75), freewheel(speeds=7), "clash"),
    "0.75 on one": (chain(wear_percent=0.75), sprocket(teeth=16), "fits"),
    "1.0 on one": (chain(wear_percent=1), sprocket(teeth=16), "clash"),
    "by the chain's own speeds": (chain(wear_percent=0.6, speeds=11), cassette(), "clash"),
    "unknown wear": (chain(speeds=9), cassette(speeds=9), "none"),
    "unknown speeds": (chain(wear_percent=0.6), cassette(cogs=[11, 28]), "measure"),
    "worn for any": (chain(wear_percent=1.2), cassette(cogs=[11, 28]), "clash"),
}


@pytest.mark.parametrize(("one", "driven", "wanted"), WORN.values(), ids=WORN)
def test_wear(one: Kind, driven: Kind, wanted: str) -> None:
    """A chain past the limit of its number of speeds is refused."""
    assert wanted == verdict(WEAR, one, driven)


def test_a_very_worn_chain_condemns_its_sprockets() -> None:
    """At 12 1/8 in over 12 links, 1.04 percent, the sprockets go too."""
    finding = certain(WEAR, chain(wear_percent=1.1), cassette(speeds=8)).finding

    assert "fit a new chain, and sprockets that it ran on" in why(finding)
