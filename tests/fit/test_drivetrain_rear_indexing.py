"""Rear indexing: shifter, rear derailleur and sprockets, all three together."""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partsbin.fit.index_error import LIMIT, PLAY, Cage, Sprockets, end_error, error_of
from partsbin.fit.judge import judge
from partsbin.kinds.kind import Kind
from partsbin.standards.indexing_families import FAMILIES, IMPLIED_RATIOS, RATIOS, Family
from partsbin.standards.length import Length, mm
from partsbin.standards.sprocket_spacing import SPACINGS
from tests.fit.brake_parts import verdict
from tests.fit.drivetrain_parts import (
    cassette,
    derailleur,
    moves,
    rear_shifter,
    shifts,
    stack,
)

INDEXING = "rear indexing"

PUBLISHED = {
    # short names: tests/fit/drivetrain_parts.py; verdicts as the sources give them
    "moruyabicycles.com.au d487; sheldonbrown.com/speeds.html": ("A8", "A9", "8", None, "fits"),
    "brainybiker 10-speed derailleur on 9": ("A9", "B10", "9", None, "clash"),
    "brainybiker 10-speed derailleur on 7": ("A7", "B10", "7", None, "clash"),
    "brainybiker 10-speed derailleurs and 11 cassettes": ("D11", "A10", "11r", None, "clash"),
    "brainybiker 11-speed derailleur with 10": ("F10", "F11", "10", None, "fits"),
    "brainybiker 10-speed derailleur and 9-speed cassette": ("J9", "J10", "9i", None, "fits"),
    "jitetan.com/term/shift_hi.html, ratio changed in 2001": ("I9", "J10", "9i", None, "clash"),
    "brainybiker.com/archives/22292": ("E8", "C11", "8", None, "fits"),
    "brainybiker.com/archives/22292, other maker": ("E8", "G11", "8", None, "fits"),
    "cyqle.ca/other_content/deraileurs.html": ("D10", "D11", "10", None, "fits"),
    "brainybiker 11-speed derailleur, 10 cassette": ("A10", "D11", "10", None, "clash"),
    "velonews 2014/02 FAQ mixing 10- and 11-speed": ("A10", "B10", "10", None, "clash"),
    "brainybiker road shifters with flat-bar derailleurs": ("A9", "A8", "9", None, "fits"),
    "bikeforums.net/archive t-679866": ("J10", "A9", "9", None, "adapts"),
    "pedal-trikes.blogspot.com/2012/10": ("J11", "A9", "9", None, "fits"),
    "bikeforums.net/23152999-post28.html": ("O8", "A8", "8", None, "adapts"),
    "foldableflyer.com/abike/service.html, 8 of 9": ("A8", "A8", "9", 8, "clash"),
    "velo.outsideonline.com FAQ chainring and cog": ("A10", "A10", "9", None, "clash"),
    "velonews 2016/03 FAQ": ("F11", "F10", "10", None, "clash"),
    "isolution.pro bi13067231, cassette of a third maker": ("D11", "D11", "11i", None, "fits"),
    "colabike.blogspot.com/2015/03": ("J11", "J11", "11r", None, "fits"),
    "mtb-news.de t=132022, spacers exchanged": ("K8", "K8", "8", None, "adapts"),
    "faqload.com, 2.1 mm spacer on the arm": ("C11", "B10", "11f", None, "adapts"),
}


@pytest.mark.parametrize(
    ("shifter", "cage", "sprockets", "used", "wanted"), PUBLISHED.values(), ids=PUBLISHED
)
def test_published_combinations(
    shifter: str, cage: str, sprockets: str, used: int | None, wanted: str
) -> None:
    """Combinations that are published as working or not come out so, in every order."""
    assert wanted == verdict(INDEXING, shifts(shifter), moves(cage), stack(sprockets, used))


ARITHMETIC = {
    # 0.5 mm is half the play of cyclingforums.com 15065; the figures are pull times ratio
    "0.04 mm: 10 Italian clicks on 8": ("J10", "A8", "8", "fits"),
    "0.72 mm": ("A8", "A8", "7", "adapts"),
    "0.84 mm": ("A8", "A8", "8i", "adapts"),
    "0.945 mm": ("B10", "C11", "10", "clash"),
    "0.39 mm nominal, 0.6 mm calibrated": ("A7", "A7", "8", "adapts"),
    "the two flat-bar 11s": ("C11", "G11", "11f", "adapts"),
    "top road lever on a 9-speed stack of 8": ("O8", "A9", "9", "fits"),
    "matching by chance": ("A9", "O8", "8", "clash"),
    "ratio 1.9 wants its own shifter": ("A8", "O8", "8", "clash"),
}


@pytest.mark.parametrize(
    ("shifter", "cage", "sprockets", "wanted"), ARITHMETIC.values(), ids=ARITHMETIC
)
def test_by_arithmetic(shifter: str, cage: str, sprockets: str, wanted: str) -> None:
    """Foreign combinations go by the error at the outermost sprockets in both forms."""
    assert wanted == verdict(INDEXING, shifts(shifter), moves(cage), stack(sprockets))


@pytest.mark.parametrize("row", FAMILIES.values(), ids=lambda row: f"{row.name} {row.speeds}")
def test_every_native_set_fits(row: Any) -> None:
    """Parts of one family go together, though rounded figures may say otherwise."""
    shifter = rear_shifter(index_family=row.name, speeds=row.speeds)
    cage = derailleur(index_family=row.name, speeds=row.speeds)
    sprockets = cassette(speeds=row.speeds, spacing=row.spacing)

    assert verdict(INDEXING, shifter, cage, sprockets) == "fits"
    assert verdict(INDEXING, shifter, cage) == "fits"
    assert verdict(INDEXING, shifter, sprockets) == "fits"
    assert verdict(INDEXING, cage, sprockets) == "fits"


@pytest.mark.parametrize("marked", [6, 7, 8, 9, 10])
def test_number_printed_on_a_derailleur_of_ratio_1_7_does_not_matter(marked: int) -> None:
    """Derailleurs of that ratio serve any number of speeds (moruyabicycles.com.au d487)."""
    assert verdict(INDEXING, shifts("A9"), moves(f"A{marked}"), stack("9")) == "fits"


NUMBERS: dict[str, tuple[dict[str, Any], dict[str, Any], dict[str, Any], str]] = {
    # jitetan.com/term/shift_hi.html: 2.8 x 1.7 = 4.76 for a pitch of 4.8
    "2.8 x 1.7 on 4.8": (
        {"pull_per_click_mm": 2.8},
        {"ratio": 1.7},
        {"pitch_mm": 4.8, "speeds": 8},
        "fits",
    ),
    "2.8 x 1.7 on 4.34": (
        {"pull_per_click_mm": 2.8},
        {"ratio": 1.7},
        {"pitch_mm": 4.34, "speeds": 8},
        "clash",
    ),
    "2.8 x 1.7 on 5.0": (
        {"pull_per_click_mm": 2.8},
        {"ratio": 1.7},
        {"pitch_mm": 5.0, "speeds": 7},
        "adapts",
    ),
    "numbers before families": (
        {"index_family": "ratio-1.7", "speeds": 8, "pull_per_click_mm": 3.4},
        {"index_family": "ratio-1.7", "ratio": 1.2},
        {"speeds": 10, "spacing": "standard", "pitch_mm": 4.08, "cogs": list(range(11, 19))},
        "fits",
    ),
    "measured pull is the family's": (
        {"index_family": "ratio-1.2", "speeds": 10, "pull_per_click_mm": 3.45},
        {"index_family": "ratio-1.2", "ratio": 1.21},
        {"speeds": 10, "spacing": "standard"},
        "fits",
    ),
    "measured pull of a family, a foreign ratio": (
        {"pull_per_click_mm": 2.5},
        {"index_family": "ratio-1.2"},
        {"speeds": 9, "spacing": "standard"},
        "clash",
    ),
    "pitch of another maker's seven": (
        {"index_family": "ratio-1.7", "speeds": 7},
        {"index_family": "ratio-1.7"},
        {"speeds": 7, "spacing": "standard", "pitch_mm": 5.1},
        "fits",
    ),
    "first year's eight of wider pitch": (
        {"index_family": "ratio-1.7", "speeds": 8},
        {"index_family": "ratio-1.7"},
        {"speeds": 8, "spacing": "standard", "pitch_mm": 5.0},
        "adapts",
    ),
}


@pytest.mark.parametrize(("shifter", "cage", "sprockets", "wanted"), NUMBERS.values(), ids=NUMBERS)
def test_numbers_stand_for_families(
    shifter: dict[str, Any], cage: dict[str, Any], sprockets: dict[str, Any], wanted: str
) -> None:
    """Measured pull, ratio and pitch decide without families, or before them."""
    parts = (rear_shifter(**shifter), derailleur(**cage), cassette(**sprockets))

    assert wanted == verdict(INDEXING, *parts)


UNEVEN = {
    # mtb-news.de/forum/showthread.php?t=132022
    "all uneven": (shifts("K7"), moves("K7"), stack("7o"), "fits"),
    "uneven six": (shifts("K6"), moves("K6"), stack("6o"), "fits"),
    "other number": (shifts("K7"), moves("K7"), stack("8"), "clash"),
    "even derailleur": (shifts("K8"), moves("A8"), stack("8"), "clash"),
    "even shifter, uneven sprockets": (shifts("A8"), moves("A8"), stack("8o"), "clash"),
    "even shifter, uneven derailleur": (shifts("A8"), moves("K8"), stack("8"), "clash"),
}


@pytest.mark.parametrize(("shifter", "cage", "sprockets", "wanted"), UNEVEN.values(), ids=UNEVEN)
def test_uneven_parts_are_closed(shifter: Kind, cage: Kind, sprockets: Kind, wanted: str) -> None:
    """Uneven clicks and gaps go with themselves."""
    assert wanted == verdict(INDEXING, shifter, cage, sprockets)


def test_uneven_pairs() -> None:
    """Pairs of an uneven family go too, and a lone foreign part does not."""
    assert verdict(INDEXING, shifts("K8"), moves("K8")) == "fits"
    assert verdict(INDEXING, shifts("K8"), moves("A8")) == "clash"
    assert verdict(INDEXING, shifts("K8"), stack("8")) == "adapts"
    assert verdict(INDEXING, moves("K8"), stack("8o")) == "fits"
    assert verdict(INDEXING, moves("K8"), stack("8")) == "adapts"


@pytest.mark.parametrize("cage", ["A8", "B10", "K8", "D11"])
@pytest.mark.parametrize("sprockets", ["6", "8o", "10", "11f"])
def test_a_lever_without_clicks_goes_with_all(cage: str, sprockets: str) -> None:
    """Friction sets any travel (brainybiker.com/archives/22292)."""
    shifter = rear_shifter(friction="yes")

    assert verdict(INDEXING, shifter, moves(cage), stack(sprockets)) == "fits"


def test_friction_mode_of_an_uneven_shifter() -> None:
    """A shifter with a friction mode goes in that mode (mtb-news.de t=132022)."""
    shifter = rear_shifter(index_family="uneven-old", speeds=8, friction="yes")

    assert verdict(INDEXING, shifter, moves("B10"), stack("10")) == "fits"


@pytest.mark.parametrize(
    ("shifter", "ratio", "pitch", "used", "off"),
    [
        # worked figures, pull times ratio less pitch over half the gaps
        (("ratio-1.7", 8), "ratio-1.7", "4.8", 8, 0.14),
        (("ratio-1.7", 9), "ratio-1.2", "4.34", 9, 5.36),
        (("ratio-1.7", 7), "ratio-1.2", "5.0", 7, 4.56),
        (("ratio-1.1-flat-11", 11), "ratio-1.2", "3.95", 10, 1.665),
        (("ratio-1.4-road-11", 11), "ratio-1.7", "3.74", 11, 4.25),
        (("ratio-1.7", 8), "ratio-1.7", "4.34", 8, 1.47),
        (("ratio-1.7", 10), "ratio-1.7", "4.34", 9, 1.72),
    ],
)
def test_end_error(shifter: tuple[str, int], ratio: str, pitch: str, used: int, off: float) -> None:
    """The error at the ends, tuned in the middle, is that of the worked figures."""
    cage = Cage(RATIOS[ratio][0], IMPLIED_RATIOS[ratio], ratio)

    assert error_of(FAMILIES[shifter].pull, cage, Sprockets(mm(pitch), used)).nominal == mm(off)


@given(travel=st.integers(2000, 6000), pitch=st.integers(3000, 6000), used=st.integers(2, 12))
def test_fewer_sprockets_never_make_it_worse(travel: int, pitch: int, used: int) -> None:
    """The error grows with the number of sprockets used, and is none for one."""
    assert end_error(travel, Length(pitch), used - 1) <= end_error(travel, Length(pitch), used)
    assert end_error(travel, Length(pitch), 1) == 0


def test_no_combination_of_families_is_left_without_an_answer() -> None:
    """Every shifter, derailleur and cassette of the tables gets one of the three verdicts."""
    verdicts = set()
    for (name, speeds), other, number in product(FAMILIES, RATIOS, range(5, 12)):
        parts = (
            rear_shifter(index_family=name, speeds=speeds),
            derailleur(index_family=other),
            cassette(speeds=number, spacing="standard"),
        )
        judged = next(j for j in judge(parts).interfaces if j.rule.name == INDEXING)
        verdicts.add(str(judged.finding.verdict))

    assert verdicts == {"fits", "adapts", "clash"}
    assert PLAY < LIMIT


@pytest.mark.parametrize("row", FAMILIES.values(), ids=lambda row: f"{row.name} {row.speeds}")
def test_a_third_part_never_removes_a_clash(row: Family) -> None:
    """What two of the three cannot do, no third part of the tables mends."""
    shifter = rear_shifter(index_family=row.name, speeds=row.speeds)
    stacks = [cassette(speeds=number, spacing=kind) for number, kind in SPACINGS]
    for name, speeds in FAMILIES:
        cage = derailleur(index_family=name, speeds=speeds)
        pair = judge([shifter, cage]).verdict
        for sprockets in stacks:
            if "clash" in {pair, judge([shifter, sprockets]).verdict}:
                assert judge([shifter, cage, sprockets]).verdict == "clash"
