"""Tables of brakes: pull, fluids, disc mounts, rim brakes, wires and wear."""

from __future__ import annotations

from decimal import Decimal

import pytest

from partsbin.kinds.brakes import BrakeFluid, DiscCalliper, RimBrake
from partsbin.kinds.forms.words import WordsForm
from partsbin.kinds.frame import Frame
from partsbin.standards import brake_fluids, brake_pull, brake_wear, cables, disc_mounts, rim_brakes
from partsbin.standards.brake_wear import Wear
from partsbin.standards.length import in_mm, mm


# bike.bikegremlin.com/1402 has the pulls; the ratios are arithmetic on them.
@pytest.mark.parametrize(
    ("lever", "wanted", "works"),
    [
        ("short", 15, False),
        ("long", 7, False),
        ("long", 8, False),
        ("short", 7, True),
        ("short", 8, True),
        ("long", 15, True),
    ],
)
def test_pull_ratio(lever: str, wanted: int, works: bool) -> None:
    """7 and 8 mm mix; 15 mm mixes with neither, 0.47 and 2.14 being far outside the band."""
    assert brake_pull.works(lever, mm(wanted)) == works


@pytest.mark.parametrize(("pair", "factor"), [(("short", "long"), "2"), (("long", "short"), "0.5")])
def test_the_usual_pulley_lies_inside_its_range(pair: tuple[str, str], factor: str) -> None:
    """A pulley of two to one serves every short lever on a long brake, and the reverse."""
    least, most = brake_pull.PULLEYS[pair]

    assert least < Decimal(factor) < most
    assert not least < 1 < most


def test_each_rim_brake_has_a_pull_and_a_mount() -> None:
    """The tables name every type that a brake may be recorded as, and nothing else."""
    types = set(RimBrake.attributes["type"].form.candidates())

    assert types == set(brake_pull.RIM_BRAKES) == set(rim_brakes.MOUNTS)


def test_stated_pull_stands_for_its_family() -> None:
    """A pull stated of a brake by itself is of the family that it names."""
    for table in (brake_pull.STATED, brake_pull.DISC_CALLIPERS):
        assert {name: brake_pull.family(wanted) for name, wanted in table.items()} == {
            "long": "long",
            "short": "short",
        }


def test_each_bottle_has_a_system_and_each_brake_its_seals() -> None:
    """The tables name every fluid that can be recorded: trustysources.com DOT/mineral."""
    assert set(BrakeFluid.attributes["fluid"].form.candidates()) == set(brake_fluids.SYSTEM_OF)
    assert set(DiscCalliper.attributes["fluid"].form.candidates()) == set(brake_fluids.SEALS)


def test_mounts_are_those_of_the_frames() -> None:
    """Rim and disc mounts together are all that a frame may be recorded with."""
    form = Frame.attributes["brake_mounts"].form

    assert isinstance(form, WordsForm)
    assert set(form.words) == rim_brakes.RIM_MOUNTS | disc_mounts.DISC_MOUNTS
    assert set(DiscCalliper.attributes["mount"].form.candidates()) == disc_mounts.DISC_MOUNTS
    for mounts in disc_mounts.BRACKETS:
        assert set(mounts) <= disc_mounts.DISC_MOUNTS


# Halves of the differences; 4 and 31.5 also at fixed.org.au 42786 and bikeforums.net 682238.
@pytest.mark.parametrize(
    ("placed_for", "wheel", "shift"),
    [
        (630, 622, "4"),
        (635, 622, "6.5"),
        (622, 584, "19"),
        (590, 584, "3"),
        (597, 590, "3.5"),
        (590, 559, "15.5"),
        (622, 559, "31.5"),
        (559, 622, "-31.5"),
    ],
)
def test_pad_shift(placed_for: int, wheel: int, shift: str) -> None:
    """Pads go down by half of how much smaller the wheel is."""
    assert in_mm(rim_brakes.pad_shift(mm(placed_for), mm(wheel))) == shift


@pytest.mark.parametrize(
    ("needed", "classes"),
    [
        (45, ["short"]),
        (48, ["short", "medium"]),
        (52, ["medium"]),
        (56, ["medium", "long"]),
        (70, ["long"]),
        (80, []),
    ],
)
def test_classes_of_reach(needed: int, classes: list[str]) -> None:
    """39 to 49, 47 to 57 and 55 to 73 mm: copy of bicycles.stackexchange 44041."""
    told = rim_brakes.callipers_reaching(mm(needed))

    assert [name for name, *_ in rim_brakes.REACHES if name in told] == classes


@pytest.mark.parametrize(("native", "rotor", "rise"), [(160, 203, "21.5"), (200, 203, "1.5")])
def test_lift(native: int, rotor: int, rise: str) -> None:
    """A calliper goes out by half the difference of the rotors."""
    assert in_mm(disc_mounts.lift(mm(native), mm(rotor))) == rise


def test_wires_do_not_overlap() -> None:
    """The thickest shift wire is thinner than the thinnest brake wire: bikeman.com 1641."""
    assert cables.SHIFT_WIRE[1] + cables.READING < cables.BRAKE_WIRE[0] - cables.READING


# feedbacksports.com rotor wear; sumlon.com rotor-replace
@pytest.mark.parametrize(
    ("thickness", "marked", "wear"),
    [
        (1.49, 1.5, Wear.PAST),
        (1.5, 1.5, Wear.WITHIN),
        (1.51, 1.52, Wear.PAST),
        (1.49, None, Wear.PAST),
        (1.5, None, Wear.NEAR),
        (1.52, None, Wear.NEAR),
        (1.55, None, Wear.WITHIN),
    ],
)
def test_rotor_wear(thickness: float, marked: float | None, wear: Wear) -> None:
    """The mark rules; without one the lowest and highest in use bound what is certain."""
    assert brake_wear.rotor_wear(mm(thickness), None if marked is None else mm(marked)) is wear


# whafi.com disc pads; bikeforums.net 20722528-post26; single-speed.co.uk safety check
@pytest.mark.parametrize(
    ("thickness", "sort", "wear"),
    [
        (0.5, "disc", Wear.PAST),
        (0.51, "disc", Wear.NEAR),
        (1.2, "disc", Wear.NEAR),
        (1.21, "disc", Wear.WITHIN),
        (1.0, "rim", Wear.PAST),
        (1.1, "rim", Wear.WITHIN),
    ],
)
def test_pad_wear(thickness: float, sort: str, wear: Wear) -> None:
    """A disc pad is scrap at 0.5 mm of lining, a rim pad at 1 mm."""
    assert brake_wear.pad_wear(mm(thickness), sort) is wear
