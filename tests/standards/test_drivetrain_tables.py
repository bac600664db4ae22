"""Tables of the drivetrain: pitches, families, chain widths and wear, cages and bolt circles."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any

import pytest

from partsbin.standards import chain_wear
from partsbin.standards.bolt_circles import BOLT_CIRCLES, BoltCircle
from partsbin.standards.bottom_bracket_shells import CRANKS_IN_SHELLS, SHELLS
from partsbin.standards.chain_widths import WIDTHS, ChainWidth, inner_for, speeds_for
from partsbin.standards.chainlines import CHAINLINES
from partsbin.standards.derailleur_cages import CAGES, least_capacity, least_max_cog
from partsbin.standards.driver_bodies import EXTENDED, SPACERS
from partsbin.standards.freewheel_spacing import NEEDED
from partsbin.standards.indexing_families import (
    CLAMP_CHANGES,
    FAMILIES,
    IMPLIED_RATIOS,
    RATIOS,
    Family,
)
from partsbin.standards.length import mm
from partsbin.standards.sprocket_spacing import SPACINGS, Spacing, spacing


def test_every_row_names_its_source() -> None:
    """No figure stands without where it is from."""
    rows: list[Any] = [
        *SPACINGS.values(), *FAMILIES.values(), *CLAMP_CHANGES.values(), *WIDTHS.values(),
        *chain_wear.LIMITS, *CAGES, *BOLT_CIRCLES.values(), *SHELLS.values(), *CHAINLINES,
        *CRANKS_IN_SHELLS.values(), *SPACERS.values(), *EXTENDED.values(),
    ]  # fmt: skip

    assert all(row.source for row in rows)
    assert all(source for _ratio, source in RATIOS.values())


@pytest.mark.parametrize(
    ("speeds", "kind", "stack"),
    [
        # standardbikes.ca FldHelpId=1502; jitetan.com/cassette.html
        (5, "standard", "24.0"),
        (6, "standard", "29.5"),
        (7, "standard", "31.85"),
        (8, "standard", "35.4"),
        (9, "standard", "36.5"),
        (10, "standard", "37.15"),
        (11, "standard", "39.0"),
        (11, "flat-bar", "40.6"),
        (8, "italian", "36.9"),
        (9, "italian", "38.15"),
        (10, "italian", "38.78"),
        # mtb-news.de t=132022
        (7, "uneven-old", "31.12"),
        (8, "uneven-old", "36.2"),
    ],
)
def test_stack(speeds: int, kind: str, stack: str) -> None:
    """The pitches and one thickness make the published stack."""
    row = spacing(speeds, kind)
    assert row is not None

    assert row.stack == mm(stack)


@pytest.mark.parametrize("row", SPACINGS.values(), ids=lambda row: f"{row.speeds} {row.kind}")
def test_a_spacer_is_left_between_sprockets(row: Spacing) -> None:
    """A pitch is a sprocket and a spacer of 2 to 4 mm, and the closest is no more than the mean."""
    assert mm(2) <= row.closest - row.thickness <= mm(4)
    assert row.closest <= row.pitch


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        # pitch by pull of the families' own sprockets and shifters
        ("ratio-1.7", 1.71, 1.74),
        ("ratio-1.2", 1.16, 1.17),
        ("ratio-1.1-flat-11", 1.08, 1.09),
        ("ratio-1.4-road-11", 1.38, 1.41),
        ("ratio-1.4-road-10", 1.38, 1.42),
        ("ratio-1.1", 1.08, 1.12),
        ("ratio-1.3", 1.27, 1.29),
        ("italian-1.4", 1.42, 1.43),
        ("italian-1.5", 1.51, 1.52),
        ("ratio-1.12-flat-11", 1.12, 1.13),
        ("ratio-1.9", 1.89, 1.93),
    ],
)
def test_implied_ratios(name: str, low: float, high: float) -> None:
    """The ratios that native pairs imply lie near the published one."""
    assert all(low <= ratio <= high for ratio in IMPLIED_RATIOS[name])
    assert all(abs(ratio - float(RATIOS[name][0])) < 0.05 for ratio in IMPLIED_RATIOS[name])


def test_every_family_has_a_ratio_and_a_shifter() -> None:
    """Each family of shifters has derailleurs, and the reverse."""
    assert {name for name, _speeds in FAMILIES} == RATIOS.keys()


@pytest.mark.parametrize("row", FAMILIES.values(), ids=lambda row: f"{row.name} {row.speeds}")
def test_a_click_is_about_a_pitch(row: Family) -> None:
    """Pull times ratio is the native pitch, within the rounding of both."""
    travel = Decimal(row.pull) * RATIOS[row.name][0]

    assert abs(travel - row.pitch) <= mm("0.16")


@pytest.mark.parametrize(
    ("key", "factor"),
    [
        (("italian-1.5", 10), 0.90),
        (("ratio-1.9", 8), 1.12),
        (("ratio-1.1-flat-11", 11), 0.90),
    ],
)
def test_clamp_changes_have_the_factor_of_their_arm(key: tuple[str, int], factor: float) -> None:
    """The changes that have been done are of about a tenth."""
    change = next(row for row in CLAMP_CHANGES.values() if row.shifter == key)
    row = spacing(*change.sprockets)
    assert row is not None

    needed = row.pitch / (FAMILIES[key].pull * float(RATIOS[change.derailleur][0]))
    assert needed == pytest.approx(factor, abs=0.01)


@pytest.mark.parametrize(("speeds", "row"), WIDTHS.items())
def test_chain_widths(speeds: int, row: ChainWidth) -> None:
    """A chain's outer width tells its speeds and its inner width."""
    assert speeds_for(row.outer) in {speeds, 6}
    assert inner_for(row.outer) == row.inner


@pytest.mark.parametrize(
    ("speeds", "limit"),
    [(1, "1.0"), (5, "0.75"), (8, "0.75"), (10, "0.75"), (11, "0.5"), (12, "0.5"), (13, "0.5")],
)
def test_wear_limit(speeds: int, limit: str) -> None:
    """A chain is worn out from its limit on (citycyclingtips.com/?p=748)."""
    assert chain_wear.limit(speeds) == Decimal(limit)
    assert chain_wear.worn(Decimal(limit), speeds)
    assert not chain_wear.worn(Decimal(limit) - Decimal("0.01"), speeds)


def test_every_cage_is_at_least_what_is_promised_of_it() -> None:
    """No derailleur of the table has less than its other rating promises."""
    for cage in CAGES:
        assert least_max_cog(cage.capacity) <= cage.max_cog
        assert least_capacity(cage.max_cog) <= cage.capacity


@pytest.mark.parametrize(
    "row", BOLT_CIRCLES.values(), ids=lambda row: f"{row.diameter / 1000:g}x{row.arms}"
)
def test_neighbouring_holes(row: BoltCircle) -> None:
    """Neighbouring holes are the side of a regular figure (modernbike.com/help-117)."""
    side = row.diameter * math.sin(math.pi / row.arms)

    assert row.adjacent == pytest.approx(side, abs=250)


def test_freewheel_widths_grow() -> None:
    """More sprockets never need less width."""
    assert sorted(NEEDED.values()) == list(NEEDED.values())
