"""Rear indexing of two of the three parts, of parts half known, and through a pulley."""

from __future__ import annotations

import pytest

from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from tests.fit.brake_parts import certain, part, verdict
from tests.fit.drivetrain_parts import (
    cassette,
    derailleur,
    freewheel,
    front_shifter,
    moves,
    pulley,
    rear_shifter,
    shifts,
    stack,
)

INDEXING = "rear indexing"
POSITIONS = "shifter positions for sprockets"

PAIRS = {
    "one family, no speeds": (
        rear_shifter(index_family="ratio-1.3"),
        derailleur(index_family="ratio-1.3"),
        "fits",
    ),
    "shifter and derailleur of different families": (shifts("A10"), moves("B10"), "clash"),
    "the pull of another number of speeds": (shifts("D10"), moves("A10"), "adapts"),
    "eleven on ten, another ratio": (shifts("D11"), moves("A10"), "clash"),
    "pull and ratio only": (
        rear_shifter(pull_per_click_mm=2.5),
        derailleur(ratio=1.7),
        "fits",
    ),
    "pull and ratio of no sprockets": (
        rear_shifter(pull_per_click_mm=2.5, speeds=9),
        derailleur(ratio=1.2),
        "clash",
    ),
    "ratio only": (shifts("A8"), derailleur(ratio=1.5), "clash"),
    "ratio only, of another number": (shifts("A9"), derailleur(ratio=1.9), "adapts"),
    "old 1:1 shifter on a flat-bar 11": (shifts("E8"), moves("C11"), "fits"),
    "arm changed": (shifts("J10"), moves("A9"), "adapts"),
    "for the derailleur's own nine": (shifts("J11"), moves("A9"), "fits"),
    "pull only": (rear_shifter(pull_per_click_mm=2.8, speeds=8), moves("A8"), "fits"),
    "eight clicks on nine sprockets": (shifts("A8"), stack("9"), "clash"),
    "ten clicks on nine sprockets": (shifts("A10"), stack("9"), "clash"),
    "nine clicks on eight sprockets": (shifts("A9"), stack("8"), "clash"),
    "eleven Italian clicks on nine": (shifts("J11"), stack("9"), "adapts"),
    "arm changed on sprockets": (shifts("I8"), stack("9i"), "clash"),
    "eight clicks on seven": (shifts("A8"), stack("7"), "adapts"),
    "pull only on sprockets": (
        rear_shifter(pull_per_click_mm=2.8),
        stack("8"),
        "adapts",
    ),
    "no ratio for it": (rear_shifter(pull_per_click_mm=6.5), stack("8"), "clash"),
    "uncommon sprockets for the derailleur": (moves("B10"), stack("9"), "adapts"),
    "freewheel": (shifts("A7"), freewheel(speeds=7, spacing="standard"), "fits"),
    "front shifter": (front_shifter(index_family="ratio-1.7", speeds=3), moves("A8"), "none"),
    "derailleur of no known family": (derailleur(max_cog=32), stack("9"), "none"),
    "sprockets of no known spacing": (moves("A9"), cassette(speeds=9), "none"),
}


@pytest.mark.parametrize(("one", "other", "wanted"), PAIRS.values(), ids=PAIRS)
def test_pairs(one: Kind, other: Kind, wanted: str) -> None:
    """Two of the three are judged as far as they decide."""
    assert wanted == verdict(INDEXING, one, other)


UNKNOWN = {
    "family of the shifter": (
        rear_shifter(speeds=8),
        moves("A8"),
        stack("8"),
        ("shifter", "index_family"),
    ),
    "speeds of the shifter": (
        rear_shifter(index_family="ratio-1.7"),
        moves("A8"),
        stack("8"),
        ("shifter", "speeds"),
    ),
    "family of the derailleur": (
        shifts("A8"),
        derailleur(speeds=8),
        stack("8"),
        ("rear_derailleur", "index_family"),
    ),
    "spacing of the sprockets": (
        shifts("A9"),
        moves("A9"),
        cassette(speeds=9),
        ("cassette", "spacing"),
    ),
    "pitch beyond the table": (
        shifts("A9"),
        moves("A9"),
        cassette(speeds=12, spacing="standard"),
        ("cassette", "pitch_mm"),
    ),
    "pull beyond the table": (
        rear_shifter(index_family="ratio-1.7", speeds=5),
        moves("A9"),
        stack("5"),
        ("shifter", "pull_per_click_mm"),
    ),
    "shifter in no family": (
        rear_shifter(speeds=12),
        moves("A9"),
        stack("9"),
        ("shifter", "pull_per_click_mm"),
    ),
    "pull of a number that the family has not": (
        rear_shifter(index_family="ratio-1.2", speeds=8),
        moves("B10"),
        stack("8"),
        ("shifter", "pull_per_click_mm"),
    ),
    "spacing that no such number has": (
        shifts("A7"),
        moves("A7"),
        cassette(speeds=7, spacing="italian"),
        ("cassette", "pitch_mm"),
    ),
}


@pytest.mark.parametrize(("shifter", "cage", "sprockets", "asked"), UNKNOWN.values(), ids=UNKNOWN)
def test_an_unknown_that_decides_is_named(
    shifter: Kind, cage: Kind, sprockets: Kind, asked: tuple[str, str]
) -> None:
    """The verdict is measure, and names the attribute that decides."""
    judged = certain(INDEXING, shifter, cage, sprockets)

    assert judged.finding.verdict == "measure"
    assert asked in [(trial.piece.word, trial.attribute) for trial in judged.finding.open]


def test_an_unknown_that_does_not_decide_is_not_asked() -> None:
    """A spline tells the spacing, and no family makes an 8-speed pull index on ten sprockets."""
    ours = cassette(speeds=9, spline="one-wide-spline-35")
    wide = cassette(speeds=11, spline="one-wide-spline-35")
    italian = cassette(speeds=9, spline="italian-deep-spline")

    assert verdict(INDEXING, shifts("A9"), moves("A9"), ours) == "fits"
    assert verdict(INDEXING, shifts("C11"), moves("C11"), wide) == "fits"
    assert verdict(INDEXING, shifts("J9"), moves("J9"), italian) == "fits"
    assert verdict(INDEXING, shifts("B10"), moves("A9"), cassette(speeds=9)) == "clash"
    assert verdict(INDEXING, rear_shifter(speeds=10), moves("K8"), cassette(speeds=8)) == "clash"
    assert verdict(INDEXING, rear_shifter(speeds=6), moves("C11"), stack("11f")) == "clash"


def test_side_is_not_asked() -> None:
    """A shifter of many positions is a rear one, whether it says so or not."""
    shifter = part("shifter", index_family="ratio-1.7", speeds=8)

    assert verdict(INDEXING, shifter, moves("A8"), stack("8")) == "fits"
    assert verdict(INDEXING, part("shifter", speeds=3), moves("A8"), stack("8")) == "none"
    assert verdict(INDEXING, part("shifter", front_pull="road"), moves("A8")) == "none"


def test_pulley_of_the_right_factor_makes_it_fit() -> None:
    """A pulley of 1.43 lets a road 10-speed shifter index a derailleur of ratio 1.2.

    The factor is pitch by pull times ratio: sheldonbrown.com/drivetrain-mixing.shtml.
    """
    parts = shifts("A10"), moves("B10"), stack("10")
    needed = certain(INDEXING, *parts)
    assert needed.finding.verdict == "clash"
    assert "factor 1.43" in why(needed.finding)
    assert "cable travel" in why(needed.finding)

    assert verdict(INDEXING, *parts, pulley(factor=1.43)) == "fits"
    assert verdict(INDEXING, *parts, pulley(factor=0.7)) == "clash"
    assert verdict(INDEXING, *parts, pulley()) == "measure"


@pytest.mark.parametrize(
    ("shifter", "cage", "sprockets", "factor"),
    [
        # factors: pitch by pull times ratio
        ("J10", "A9", "9", "0.90"),
        ("O8", "A8", "8", "1.12"),
        ("A10", "B10", "10", "1.43"),
        ("D11", "C11", "11f", "1.31"),
    ],
)
def test_factor_is_named(shifter: str, cage: str, sprockets: str, factor: str) -> None:
    """What would make it work is named with its factor, a pulley or a changed arm."""
    judged = certain(INDEXING, shifts(shifter), moves(cage), stack(sprockets))

    assert judged.finding.adapter is not None
    assert f"factor {factor}" in judged.finding.adapter.what


def test_no_pulley_is_named_that_is_not_made() -> None:
    """Beyond the factors of pulleys the clash names none."""
    parts = rear_shifter(pull_per_click_mm=6), derailleur(ratio=2), stack("10")

    assert certain(INDEXING, *parts).finding.adapter is None


COUNTS = {
    # radreise-forum.de/posts/1500566
    "as many": (shifts("A8"), stack("8"), "fits"),
    "more": (shifts("A9"), stack("9", 8), "fits"),
    "fewer": (shifts("A7"), stack("8"), "clash"),
    "friction": (rear_shifter(friction="yes", speeds=7), stack("8"), "none"),
    "unknown number of clicks": (rear_shifter(pull_per_click_mm=2.8), stack("8"), "none"),
    "unknown sprockets": (shifts("A7"), cassette(pitch_mm=4.8), "none"),
    "counted by their teeth": (shifts("A7"), cassette(cogs=[11, 13, 15, 17, 20]), "fits"),
}


@pytest.mark.parametrize(("shifter", "sprockets", "wanted"), COUNTS.values(), ids=COUNTS)
def test_positions(shifter: Kind, sprockets: Kind, wanted: str) -> None:
    """There must be a position for each sprocket; surplus ones do no harm."""
    assert wanted == verdict(POSITIONS, shifter, sprockets)
