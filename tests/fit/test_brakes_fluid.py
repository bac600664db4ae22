"""Hydraulic brakes: the fluid of lever, calliper and bottle."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.brake_fluids import SYSTEM_OF
from tests.fit.brake_parts import bottle, calliper, certain, lever, verdict

PAIR = "fluid of lever and calliper"
BOTTLE = "brake fluid in brake"
MIXED = "brake fluids mixed"

# trustysources.com DOT/mineral; vtt-xc-blog.com brake fluid
PAIRS = {
    "both mineral": (lever(fluid="mineral"), calliper(fluid="mineral"), "fits"),
    "both dot": (lever(fluid="dot"), calliper(fluid="dot"), "fits"),
    "dot lever, mineral calliper": (lever(fluid="dot"), calliper(fluid="mineral"), "clash"),
    "mineral lever, dot calliper": (lever(fluid="mineral"), calliper(fluid="dot"), "clash"),
    "calliper's fluid unknown": (
        lever(brake_pull="hydraulic", fluid="dot"),
        calliper(brake_pull="hydraulic"),
        "measure",
    ),
    "cable lever": (lever(brake_pull="long"), calliper(fluid="dot"), "none"),
    "cable calliper": (lever(fluid="dot"), calliper(brake_pull="long"), "none"),
}


@pytest.mark.parametrize(("one", "other", "wanted"), PAIRS.values(), ids=PAIRS)
def test_fluid_of_lever_and_calliper(one: Kind, other: Kind, wanted: str) -> None:
    """Equal fluids fit; different ones clash; an unknown one is read; cables have none."""
    assert wanted == verdict(PAIR, one, other)


def test_unknown_on_both_sides_is_to_be_read() -> None:
    """Two hydraulic parts of unknown fluid are not passed: a wrong fluid is dangerous."""
    judgement = judge([lever(brake_pull="hydraulic"), calliper(brake_pull="hydraulic")])

    assert judgement.verdict == "measure"
    assert judgement.interfaces[0].rule.name == PAIR


@pytest.mark.parametrize("filled", SYSTEM_OF)
@pytest.mark.parametrize("made_for", ["mineral", "dot"])
@pytest.mark.parametrize("part", [lever, calliper])
def test_every_bottle_in_every_brake(filled: str, made_for: str, part: Callable[..., Kind]) -> None:
    """Mineral goes in mineral brakes, DOT 4 and 5.1 in DOT brakes, silicone nowhere."""
    right = {"mineral": ["mineral"], "dot": ["dot-4", "dot-5.1"]}[made_for]
    finding = certain(BOTTLE, bottle(fluid=filled), part(fluid=made_for)).finding

    assert finding.verdict == ("fits" if filled in right else "clash")
    assert ("dangerous" in why(finding)) == (filled not in right)


def test_unknown_fluid_matters_only_where_it_decides() -> None:
    """A brake of unknown fluid is read before oil goes in; silicone is wrong whatever it is."""
    unknown = lever(brake_pull="hydraulic")

    assert verdict(BOTTLE, bottle(fluid="mineral"), unknown) == "measure"
    assert verdict(BOTTLE, bottle(fluid="dot-5-silicone"), unknown) == "clash"
    assert verdict(BOTTLE, bottle(), calliper(fluid="dot")) == "measure"


def test_cable_brakes_take_no_fluid() -> None:
    """A bottle shares nothing with a cable lever or a cable calliper."""
    assert verdict(BOTTLE, bottle(fluid="dot-4"), lever(brake_pull="short")) == "none"
    assert verdict(BOTTLE, bottle(fluid="dot-4"), lever(brake_cable_head="pear")) == "none"
    assert verdict(BOTTLE, bottle(fluid="dot-4"), calliper(brake_pull="long")) == "none"


@pytest.mark.parametrize(
    ("one", "other", "wanted"),
    [
        ("dot-4", "dot-5.1", "fits"),
        ("mineral", "mineral", "fits"),
        ("dot-4", "mineral", "clash"),
        ("dot-4", "dot-5-silicone", "clash"),
        ("mineral", "dot-5-silicone", "clash"),
        ("mineral", None, "measure"),
    ],
)
def test_two_bottles_mixed(one: str, other: str | None, wanted: str) -> None:
    """Glycol mixes with glycol, nothing else with anything: vtt-xc-blog.com brake fluid."""
    assert wanted == verdict(MIXED, bottle(fluid=one), bottle(fluid=other))
