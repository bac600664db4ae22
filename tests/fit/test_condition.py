"""Readings of wear and damage: just inside, at and past each limit, and the grade that is left."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.condition import GRADES, Action, Sign, graded, limits, sentence
from partsbin.kinds.condition import Stressed
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec
from partsbin.standards import damage

YEAR = 2026
SCRAP, REPLACE, INSPECT = Action.SCRAP, Action.REPLACE, Action.INSPECT
CARBON = {"material": "carbon"}

Reading = tuple[str, dict[str, Any], Action | None]
READINGS: list[Reading] = [
    # Gauge limits: citycyclingtips.com/?p=748 (0.5 for 11 to 13, 0.75 for 5 to 10, 1.0 single).
    ("chain", {"speeds": 1, "wear_percent": 0.99}, None),
    ("chain", {"speeds": 1, "wear_percent": 1.0}, SCRAP),
    ("chain", {"speeds": 5, "wear_percent": 0.74}, None),
    ("chain", {"speeds": 5, "wear_percent": 0.75}, SCRAP),
    ("chain", {"speeds": 10, "wear_percent": 0.74}, None),
    ("chain", {"speeds": 10, "wear_percent": 0.75}, SCRAP),
    ("chain", {"speeds": 11, "wear_percent": 0.49}, None),
    ("chain", {"speeds": 11, "wear_percent": 0.5}, SCRAP),
    ("chain", {"speeds": 12, "wear_percent": 0.6}, SCRAP),
    ("chain", {"speeds": 9, "wear_percent": 0}, None),
    # Of a chain whose speeds are not known the strictest and the mildest limit bound the answer.
    ("chain", {"wear_percent": 0.49}, None),
    ("chain", {"wear_percent": 0.5}, INSPECT),
    ("chain", {"wear_percent": 0.99}, INSPECT),
    ("chain", {"wear_percent": 1.0}, SCRAP),
    ("chain", {"speeds": 9}, None),
    # feedbacksports.com rotor wear: 1.49 mm under a mark of 1.5 mm is to be replaced.
    ("rotor", {"thickness_mm": 1.49, "min_thickness_mm": 1.5}, SCRAP),
    ("rotor", {"thickness_mm": 1.5, "min_thickness_mm": 1.5}, REPLACE),
    ("rotor", {"thickness_mm": 1.51, "min_thickness_mm": 1.5}, None),
    ("rotor", {"thickness_mm": 1.54, "min_thickness_mm": 1.55}, SCRAP),
    # Marks run from 1.5 to 1.55 mm: sumlon.com rotor-replace.
    ("rotor", {"thickness_mm": 1.49}, SCRAP),
    ("rotor", {"thickness_mm": 1.5}, INSPECT),
    ("rotor", {"thickness_mm": 1.54}, INSPECT),
    ("rotor", {"thickness_mm": 1.55}, None),
    ("rotor", {"min_thickness_mm": 1.5}, None),
    # whafi.com disc pads (0.5 mm); bikeforums.net 20722528-post26 (1.2 mm); rim pads from memory.
    ("brake_pads", {"for_brake": "disc", "thickness_mm": 0.5}, SCRAP),
    ("brake_pads", {"for_brake": "disc", "thickness_mm": 0.51}, REPLACE),
    ("brake_pads", {"for_brake": "disc", "thickness_mm": 1.2}, REPLACE),
    ("brake_pads", {"for_brake": "disc", "thickness_mm": 1.21}, None),
    ("brake_pads", {"for_brake": "rim", "thickness_mm": 1.0}, SCRAP),
    ("brake_pads", {"for_brake": "rim", "thickness_mm": 1.01}, None),
    ("brake_pads", {"thickness_mm": 0.5}, SCRAP),
    ("brake_pads", {"thickness_mm": 0.8}, INSPECT),
    ("brake_pads", {"thickness_mm": 1.2}, INSPECT),
    ("brake_pads", {"thickness_mm": 1.21}, None),
    ("brake_pads", {"for_brake": "rim"}, None),
    # wheellab.cc/rim-wear; cyclechat.net 91460 (1.0 mm); 1.2 mm is common practice.
    ("wheel", {"rim_wall_mm": 0.9}, SCRAP),
    ("rim", {"rim_wall_mm": 1.0}, SCRAP),
    ("rim", {"rim_wall_mm": 1.01}, REPLACE),
    ("rim", {"rim_wall_mm": 1.2}, REPLACE),
    ("rim", {"rim_wall_mm": 1.21}, None),
    # The figure is for aluminium that pads have worn.
    ("rim", {"rim_wall_mm": 0.9, "rim_material": "steel"}, INSPECT),
    ("wheel", {"rim_wall_mm": 0.9, "brake_track": "no"}, INSPECT),
    ("wheel", {"rim_wall_mm": 0.9, "brake_track": "yes"}, SCRAP),
    # forum.bikeradar.com 12694519; bikewrench wiki 'tired tires'.
    ("tyre", {"cracks": "yes"}, SCRAP),
    ("tyre", {"cracks": "no"}, None),
    # vehiclestire.com p=48395: past five years a tyre is looked at hard, and no more than that.
    ("tyre", {"made_year": YEAR - 5}, None),
    ("tyre", {"made_year": YEAR - 6}, INSPECT),
    ("tyre", {"made_year": 1960}, INSPECT),
    ("tyre", {"made_year": YEAR}, None),
    ("tyre", {"made_year": YEAR + 1}, INSPECT),
    # docsbay.net M-shape bike safety check.
    ("wheel", {"hub_play": "yes"}, INSPECT),
    ("wheel", {"hub_play": "no"}, None),
    # zedler.de durability carbon fork; manuzoid.com copy of an aerobar manual.
    ("handlebar", {**CARBON, "history": "unknown"}, SCRAP),
    ("handlebar", {**CARBON}, SCRAP),
    ("handlebar", {**CARBON, "history": "known"}, None),
    ("handlebar", {"material": "aluminium", "history": "unknown"}, None),
    ("seatpost", {**CARBON}, SCRAP),
    ("fork", {"steerer_material": "carbon"}, SCRAP),
    ("fork", {"steerer_material": "carbon", "history": "known"}, None),
    ("fork", {"steerer_material": "steel"}, None),
    # Frames and rims: from memory.
    ("frame", {**CARBON, "history": "unknown"}, SCRAP),
    ("frame", {**CARBON}, INSPECT),
    ("wheel", {"rim_material": "carbon", "history": "unknown"}, SCRAP),
    ("rim", {"rim_material": "carbon"}, INSPECT),
    # helmets.org/yardsale.htm.
    ("helmet", {"crashed": "yes"}, SCRAP),
    ("helmet", {"crashed": "unknown"}, SCRAP),
    ("helmet", {"crashed": "no"}, None),
    ("helmet", {}, None),
    ("saddle", {"rails": "round-7"}, None),
]
DAMAGED: list[Reading] = [
    *((kind, {"bent": "yes"}, SCRAP) for kind in damage.BENT),
    *((kind, {"bent": "no"}, None) for kind in damage.BENT),
    *((kind, {"cracked": "yes"}, SCRAP) for kind in damage.CRACKED),
    *((kind, {"cracked": "no"}, None) for kind in damage.CRACKED),
]


def named(reading: Reading) -> str:
    """Return a reading as the name of its test."""
    kind, values, _ = reading
    return " ".join([kind, *(f"{name}={value}" for name, value in values.items())])


def signs(kind: str, **values: Any) -> list[Sign]:
    """Return what tells against a part."""
    return limits(Spec.check(kind, values), YEAR)


def words(kind: str, **values: Any) -> str:
    """Return the worst sign of a part in words."""
    return sentence(signs(kind, **values)[0])


@pytest.mark.parametrize(
    ("kind", "values", "action"), READINGS + DAMAGED, ids=map(named, READINGS + DAMAGED)
)
def test_reading_against_its_limit(
    kind: str, values: dict[str, Any], action: Action | None
) -> None:
    """A reading inside its limit says nothing; at it or past it, it says what to do."""
    assert [sign.action for sign in signs(kind, **values)] == ([action] if action else [])


@pytest.mark.parametrize("typed", GRADES)
@pytest.mark.parametrize(
    ("kind", "values", "action"), READINGS + DAMAGED, ids=map(named, READINGS + DAMAGED)
)
def test_grade_that_is_left(
    kind: str, values: dict[str, Any], action: Action | None, typed: str
) -> None:
    """Past a limit a part is unsafe whatever was typed; what is near one is poor at best."""
    grade, reasons = graded(Spec.check(kind, values), typed, YEAR)
    best = {SCRAP: "unsafe", REPLACE: "poor"}.get(action, "new") if action else "new"
    assert grade == max(typed, best, key=GRADES.index)
    assert [sign.action for sign in reasons] == ([action] if action else [])


@pytest.mark.parametrize(
    ("kind", "values"),
    [(kind, values) for kind, values, action in READINGS + DAMAGED if action],
    ids=[named(reading) for reading in READINGS + DAMAGED if reading[2]],
)
def test_sentence_is_whole(kind: str, values: dict[str, Any]) -> None:
    """Every sign in words names the part, what it means, what to do and the source."""
    sign = signs(kind, **values)[0]
    text = sentence(sign)
    assert kind.replace("_", " ") in text
    for said in (sign.because, sign.advice, sign.source):
        assert said
        assert said in text


def test_sentence_names_reading_and_limit() -> None:
    """The sentence gives the reading, the limit, what it means, what to do and the source."""
    assert words("rotor", thickness_mm=1.49, min_thickness_mm=1.5) == (
        "thickness of the rotor 1.49 mm, limit 1.5 mm: it overheats and can break; scrap it "
        "(feedbacksports.com rotor wear; sumlon.com rotor-replace)"
    )


def test_sentence_of_what_nobody_asked() -> None:
    """Carbon of which no history is recorded is held back, and the sentence says why."""
    assert words("seatpost", material="carbon").startswith(
        "history of the seatpost not recorded: damage to carbon need not show"
    )


def test_age_is_told_as_years() -> None:
    """The limit of a tyre's age is told as the year that it may still be from."""
    assert "made year of the tyre 2018, limit 2021" in words("tyre", made_year=2018)


@pytest.mark.parametrize(("bsd", "most"), [(622, "3 mm"), (406, "2 mm"), (None, "3 mm")])
def test_play_by_size_of_wheel(bsd: int | None, most: str) -> None:
    """Play at the rim may be 3 mm, on a small wheel 2 mm (docsbay.net M-shape check)."""
    assert f"more than {most} at the rim" in words("wheel", hub_play="yes", bsd_mm=bsd)


def test_sprockets_go_with_a_very_worn_chain() -> None:
    """From 12 1/8 in over 12 links the sprockets are worn too; the figure is from memory."""
    assert "sprockets to be worn too" not in words("chain", speeds=9, wear_percent=1.03)
    assert "sprockets to be worn too" in words("chain", speeds=9, wear_percent=1.04)


def test_bent_steel_frame_may_be_straightened() -> None:
    """Steel may be straightened by somebody who can; other frames are scrap."""
    assert "straightened" in words("frame", bent="yes", material="steel")
    assert "straightened" not in words("frame", bent="yes", material="aluminium")
    assert graded(Spec.check("frame", {"bent": "yes", "material": "steel"}), "good", YEAR)[0] == (
        "unsafe"
    )


def test_worst_comes_first() -> None:
    """Several signs are all told, the worst in front."""
    found = signs("wheel", hub_play="yes", rim_wall_mm=1.1, cracked="yes")
    assert [sign.action for sign in found] == [SCRAP, REPLACE, INSPECT]


@pytest.mark.parametrize(
    ("kind", "values"),
    [
        ("chain", {"speeds": 11, "wear_percent": 2}),
        ("rotor", {"thickness_mm": 1.0}),
        ("seatpost", {"material": "carbon"}),
        ("tyre", {"cracks": "yes"}),
    ],
)
def test_assumed_reading_is_no_reading(kind: str, values: dict[str, Any]) -> None:
    """What is only assumed is never decisive for safety."""
    assert limits(Spec.check(kind, values, assumed=values), YEAR) == []


def test_assumed_history_clears_nothing() -> None:
    """A carbon bar whose good history is only assumed is held back all the same."""
    bar = Spec.check("handlebar", {**CARBON, "history": "known"}, assumed=["history"])
    assert graded(bar, "good", YEAR)[0] == "unsafe"


def test_assumed_speeds_do_not_widen_a_limit() -> None:
    """A chain that is only assumed to be a single-speed one is not called sound by it."""
    chain = Spec.check("chain", {"speeds": 1, "wear_percent": 0.8}, assumed=["speeds"])
    assert [sign.action for sign in limits(chain, YEAR)] == [INSPECT]


def test_unknown_grade_is_refused() -> None:
    """A grade that is none is an error, not the best one."""
    with pytest.raises(ValueError, match="excellent"):
        graded(Spec("chain"), "excellent", YEAR)


def test_damage_tables_cover_every_stressed_kind() -> None:
    """Each kind that can be recorded as bent or cracked has its row in both tables."""
    stressed = {word for word, kind in KINDS.items() if issubclass(kind, Stressed)}
    assert set(damage.BENT) == set(damage.CRACKED) == stressed
    assert stressed >= damage.CARBON_UNTIL_KNOWN
