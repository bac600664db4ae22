"""Levers, brakes and pulleys: cable pull."""

from __future__ import annotations

from decimal import Decimal

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.brake_pull import DISC_CALLIPERS, LEVERS, RIM_BRAKES
from tests.fit.brake_parts import (
    calliper,
    certain,
    combined,
    fork,
    found,
    frame,
    lever,
    pulley,
    rim_brake,
    verdict,
)

PULL = "brake lever with brake"
PULLEY = "pulley between brake lever and brake"

LONG, SHORT = lever(brake_pull="long"), lever(brake_pull="short")
LINEAR, MINI = rim_brake(type="linear-pull"), rim_brake(type="mini-linear-pull")

# Verdicts of a published page unless marked; each row names it.
CASES = {
    # cyclechat.net 303639; bike.bikegremlin.com/1402
    "short drop-bar lever, mini linear-pull": (SHORT, MINI, "fits"),
    # copy of a tool maker's answer at fr.bicycles.asklobster.com/posts/20809
    "linear-pull lever, cantilever": (LONG, rim_brake(type="cantilever"), "clash"),
    "linear-pull lever, calliper": (LONG, rim_brake(type="side-pull"), "clash"),
    # cyclinguk.org/cycle/flats-drops-discs
    "combined road lever, flat-bar cable disc": (
        combined(brake_pull="short"),
        calliper(brake_pull="long"),
        "clash",
    ),
    # urbanvelo.org issue21 p86
    "flat long-pull lever, flat-bar cable disc": (LONG, calliper(brake_pull="long"), "fits"),
    # rookiejournal.com road levers
    "combined road lever, linear-pull": (combined(brake_pull="short"), LINEAR, "clash"),
    # cyclechat.net 303639
    "combined road lever, mini linear-pull": (combined(brake_pull="short"), MINI, "fits"),
    # bike.bikegremlin.com/1402
    "combined road lever, road cable disc": (
        combined(brake_pull="short"),
        calliper(brake_pull="short"),
        "fits",
    ),
    "long lever, mini linear-pull": (LONG, MINI, "clash"),
    # 7 on 8 and 8 on 7, by the ratio 0.88 and 1.14
    "old road lever of 7 mm, dual-pivot of 8": (
        lever(brake_pull=7),
        rim_brake(type="dual-pivot"),
        "fits",
    ),
    "newer road lever of 8 mm, old side-pull of 7": (
        lever(brake_pull=8),
        rim_brake(type="side-pull"),
        "fits",
    ),
    "lever measured as 15 mm": (lever(brake_pull=15), LINEAR, "fits"),
    "lever measured between the families": (lever(brake_pull=10), LINEAR, "measure"),
    # Callipers made for long pull exist: what is stated of the brake goes before its type.
    "calliper for long pull, long lever": (
        LONG,
        rim_brake(type="side-pull", brake_pull="long"),
        "fits",
    ),
    "calliper for long pull, short lever": (
        SHORT,
        rim_brake(type="dual-pivot", brake_pull="long"),
        "clash",
    ),
    "brake of known pull and unknown type": (SHORT, rim_brake(brake_pull="short"), "fits"),
    "type and pull agree": (LONG, rim_brake(type="linear-pull", brake_pull="long"), "fits"),
    # A linear-pull brake of short pull is a contradiction in the record, whatever the lever.
    "type and pull contradict, short lever": (
        SHORT,
        rim_brake(type="linear-pull", brake_pull="short"),
        "measure",
    ),
    "type and pull contradict, long lever": (
        LONG,
        rim_brake(type="mini-linear-pull", brake_pull="long"),
        "measure",
    ),
    # Hose and cable never meet.
    "hydraulic lever, linear-pull": (lever(brake_pull="hydraulic"), LINEAR, "clash"),
    "lever with fluid, cable disc": (lever(fluid="dot"), calliper(brake_pull="short"), "clash"),
    "cable lever, hydraulic calliper": (SHORT, calliper(brake_pull="hydraulic"), "clash"),
    "lever with a cable head, calliper with fluid": (
        lever(brake_cable_head="pear"),
        calliper(fluid="mineral"),
        "clash",
    ),
    "hydraulic lever and calliper": (
        lever(brake_pull="hydraulic", fluid="mineral"),
        calliper(brake_pull="hydraulic", fluid="mineral"),
        "fits",
    ),
    # Unknowns.
    "lever unknown": (lever(side="left"), LINEAR, "measure"),
    "rim brake unknown": (LONG, rim_brake(side="front"), "measure"),
    "calliper unknown": (LONG, calliper(mount="post-74"), "measure"),
    "lever unknown, hydraulic calliper": (lever(), calliper(fluid="dot"), "measure"),
    "hydraulic lever, any rim brake": (lever(brake_pull="hydraulic"), rim_brake(), "clash"),
}


@pytest.mark.parametrize(("one", "other", "wanted"), CASES.values(), ids=CASES)
def test_lever_with_brake(one: Kind, other: Kind, wanted: str) -> None:
    """The verdict is the one of the page or of the ratio, in any order, and decides the pair."""
    assert wanted == verdict(PULL, one, other)
    assert wanted == judge([one, other]).verdict


@pytest.mark.parametrize("pull", LEVERS)
@pytest.mark.parametrize("kind", RIM_BRAKES)
def test_every_rim_brake_of_the_table(pull: str, kind: str) -> None:
    """Linear-pull wants the long lever, every other type a short one; else it is dangerous."""
    right = "long" if kind == "linear-pull" else "short"
    judged = certain(PULL, lever(brake_pull=pull), rim_brake(type=kind))

    assert judged.finding.verdict == ("fits" if pull == right else "clash")
    assert judged.finding.dangerous == (pull != right)
    assert ("dangerous" in why(judged.finding)) == (pull != right)


@pytest.mark.parametrize("pull", LEVERS)
@pytest.mark.parametrize("wants", DISC_CALLIPERS)
def test_every_cable_calliper_of_the_table(pull: str, wants: str) -> None:
    """A cable disc brake works with the lever of its own pull only."""
    wanted = "fits" if pull == wants else "clash"

    assert wanted == verdict(PULL, lever(brake_pull=pull), calliper(brake_pull=wants))


def test_mismatch_names_values_and_danger() -> None:
    """The reason has both pulls, the difference, the pulley that mends it and a way round."""
    text = why(certain(PULL, SHORT, LINEAR).finding)

    assert text.startswith("dangerous: the cable pulls do not match")
    assert "brake lever brake pull short, rim brake type linear-pull" in text
    assert "pulls about 7.5 mm, the brake wants about 15 mm, difference 7.5 mm" in text
    assert "about 2 out for 1 in" in text


def test_combined_lever_says_that_it_fixes_everything() -> None:
    """With a shifter body the reason tells how brake and shifting are parted again."""
    assert "plain brake lever" in why(certain(PULL, combined(brake_pull="short"), LINEAR).finding)
    assert "plain brake lever" not in why(certain(PULL, SHORT, LINEAR).finding)


@pytest.mark.parametrize("tells", [{"bar_mm": 23.8}, {"front_pull": "road"}, {"bar_mm": 24}])
def test_drop_bar_body_is_never_long(tells: dict[str, object]) -> None:
    """A drop-bar shifter body pulls 8 mm or is hydraulic: no linear-pull brake, unmeasured or not.

    Source: bike.bikegremlin.com/1402.
    """
    body = combined(**tells)

    assert verdict(PULL, body, LINEAR) == "clash"
    assert certain(PULL, body, LINEAR).finding.dangerous
    assert verdict(PULL, body, MINI) == "measure"


def test_flat_bar_body_must_be_measured() -> None:
    """A flat-bar shifter body may pull long or, before about 1996, short."""
    assert verdict(PULL, combined(bar_mm=22.2), LINEAR) == "measure"


# A pulley of 2 to 1 turns 7 to 8 mm into about 15: pnwcycling.blogspot.com 2013/03.
PULLEYS = {
    "short lever through 2": (SHORT, 2, LINEAR, "fits"),
    "short lever through 1.9": (SHORT, 1.9, LINEAR, "fits"),
    "short lever through a half, the wrong way": (SHORT, 0.5, LINEAR, "clash"),
    "short lever through a shifting pulley": (SHORT, 1.2, LINEAR, "clash"),
    "short lever through 3": (SHORT, 3, LINEAR, "clash"),
    "long lever through a half": (LONG, 0.5, MINI, "fits"),
    "long lever through 2, the wrong way": (LONG, 2, MINI, "clash"),
    "short lever through 2, flat-bar cable disc": (SHORT, 2, calliper(brake_pull="long"), "fits"),
    "long lever through a half, dual-pivot": (LONG, 0.5, rim_brake(type="dual-pivot"), "fits"),
    "pulley not measured": (SHORT, None, LINEAR, "measure"),
    "hydraulic lever through 2": (lever(brake_pull="hydraulic"), 2, LINEAR, "clash"),
}


@pytest.mark.parametrize(("one", "factor", "brake", "wanted"), PULLEYS.values(), ids=PULLEYS)
def test_pulley_mends_the_pull(one: Kind, factor: float | None, brake: Kind, wanted: str) -> None:
    """A pulley that brings lever pull to brake pull within the band makes the pair fit."""
    assert wanted == verdict(PULL, one, pulley(factor=factor), brake)
    assert wanted == judge([one, pulley(factor=factor), brake]).verdict


def test_mended_pull_is_not_dangerous() -> None:
    """Through the pulley the pair fits and the word dangerous is gone."""
    text = why(certain(PULL, SHORT, pulley(factor=2), LINEAR).finding)

    assert "dangerous" not in text
    assert "through the pull adapter, factor 2" in text


@pytest.mark.parametrize(
    ("one", "factor", "brake", "wanted"),
    [
        (LONG, 2, LINEAR, "clash"),
        (LONG, "0.5", LINEAR, "clash"),
        (SHORT, 2, MINI, "clash"),
        (SHORT, "0.5", rim_brake(type="dual-pivot"), "clash"),
        (SHORT, 2, calliper(brake_pull="short"), "clash"),
        (LONG, "1.55", LINEAR, "none"),
        (SHORT, 2, LINEAR, "none"),
        (LONG, None, LINEAR, "measure"),
        (lever(brake_pull="hydraulic"), 2, calliper(brake_pull="hydraulic"), "none"),
    ],
)
def test_pulley_spoils_a_pair_that_matches(
    one: Kind, factor: object, brake: Kind, wanted: str
) -> None:
    """Two parts that match pairwise clash with a brake pulley between; other pulleys are gears'."""
    given = None if factor is None else float(Decimal(str(factor)))

    assert wanted == verdict(PULLEY, one, pulley(factor=given), brake)


def test_spoiling_pulley_is_dangerous() -> None:
    """The needless pulley is named, and the way out."""
    finding = certain(PULLEY, LONG, pulley(factor=2), LINEAR).finding

    assert finding.dangerous
    assert why(finding).endswith("leave the pulley out")


def test_a_whole_bike_takes_the_worst_lever() -> None:
    """One wrong lever among two decides the interface, which is listed once."""
    parts = [SHORT, LONG, LINEAR, rim_brake(type="linear-pull", side="rear"), frame(), fork()]
    interfaces = [j for j in judge(parts).interfaces if j.rule.name == PULL]

    assert [str(j.finding.verdict) for j in interfaces] == ["clash"]


def test_levers_share_nothing_with_each_other() -> None:
    """Two levers do not meet."""
    assert found(PULL, LONG, SHORT) is None
