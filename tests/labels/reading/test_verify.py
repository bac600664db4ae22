"""Print quality from pictures: good prints pass, each fault is named with what to change."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from labels.number import Thing, make
from labels.reading.advice import advice_for
from labels.reading.grades import (
    CONTRAST,
    DECODABILITY,
    DEFECTS,
    MODULATION,
    by_limits,
    letter,
    overall,
)
from labels.reading.scan_profile import PAPER, Scan, measured
from labels.reading.verify import PrintGrade, grade
from tests.labels.reading.camera_simulator import Camera, View, shoot
from tests.labels.reading.label_faces import DOTS, QUIET_BARS, Face, bar_widths, draw

NUMBER = make(Thing.PART, 123)
WIDTHS = bar_widths(NUMBER)


def graded(face: Face, **held: float) -> PrintGrade:
    """Return the grade of a label photographed from near."""
    view = replace(View(pixels_per_module=6, turn=12), **held)  # type: ignore[arg-type]  # no scratches
    camera = Camera(noise=2, light_fall=0.1)
    (found,) = grade(shoot([(face, view)], camera, np.random.default_rng(3)).frame)
    assert found.number == NUMBER
    return found


def repainted(paint: Callable[[NDArray[np.float32], Face], None]) -> Face:
    """Return the good label after `paint` changed its bars."""
    face = draw(NUMBER, "bars")
    reflectance = face.reflectance.copy()
    paint(reflectance, face)
    return replace(face, reflectance=reflectance)


def white_streak(reflectance: NDArray[np.float32], face: Face) -> None:
    """Draw what a dead dot of the print head leaves: a thin white line along the widest bar."""
    assert face.bars is not None
    widest = max(range(0, len(WIDTHS), 2), key=lambda at: WIDTHS[at])
    middle = (sum(WIDTHS[:widest]) + WIDTHS[widest] / 2) * DOTS
    at = face.bars[0] + round(middle)
    reflectance[:, at - 1 : at + 1] = 1


def rounded_to_dots(reflectance: NDArray[np.float32], face: Face) -> None:
    """Draw the bars as a printer does whose dots are 2.4 to an X: each edge at a whole dot."""
    assert face.bars is not None
    left, top, right, bottom = face.bars
    reflectance[top:bottom, left:right] = 1
    edges = left + np.round(np.cumsum((0, *WIDTHS)) * 2.4) / 2.4 * DOTS
    for start, end in zip(edges[:-1:2], edges[1::2], strict=True):
        reflectance[top:bottom, round(start) : round(end)] = 0


def test_a_good_print_is_an_a_with_nothing_to_change() -> None:
    """A clean label taken from near."""
    found = graded(draw(NUMBER, "bars"))

    assert (found.letter, found.advice) == ("A", ())
    assert found.grade >= 3.8
    assert found.pixels_per_module == pytest.approx(6, abs=0.3)
    assert abs(found.growth) < 0.05


@pytest.mark.parametrize("turn", [0, 90, 180, 222])
def test_the_grade_does_not_hang_on_the_turn(turn: int) -> None:
    """A label on its side or its head is printed no worse."""
    assert graded(draw(NUMBER, "bars"), turn=float(turn)).grade >= 3.8


@pytest.mark.parametrize(
    ("face", "held", "worst", "advice"),
    [
        (draw(NUMBER, "bars"), {"contrast": 0.35}, "symbol contrast", "print darker, or on whiter"),
        (draw(NUMBER, "bars", spread=0.35), {}, "decodability", "too wide: lower the darkness"),
        (draw(NUMBER, "bars", spread=-0.35), {}, "decodability", "too narrow: print darker"),
        (repainted(white_streak), {}, "defects", "clean the print head"),
        (repainted(rounded_to_dots), {}, "decodability", "not exact to the printer's dots"),
    ],
    ids=["faint", "fat bars", "thin bars", "dead dot", "not dot-exact"],
)
def test_each_fault_is_named_with_what_to_change(
    face: Face, held: dict[str, float], worst: str, advice: str
) -> None:
    """One fault: its measure falls below the best grade and the advice speaks of it alone."""
    found = graded(face, **held)
    grades = {quality.name: quality.grade for quality in found.qualities}

    assert len(found.advice) == 1
    assert advice in found.advice[0]
    assert grades[worst] < 4
    assert found.grade < 3.8


@pytest.mark.parametrize("spread", [-0.25, 0.25])
def test_the_growth_of_the_bars_is_measured(spread: float) -> None:
    """Bars drawn a quarter X too wide or narrow are found so, to a tenth."""
    assert graded(draw(NUMBER, "bars", spread=spread)).growth == pytest.approx(spread, abs=0.1)


def test_a_picture_from_too_far_is_said() -> None:
    """Under four pixels a module the camera hides what the printer did."""
    found = graded(draw(NUMBER, "bars"), pixels_per_module=2.6)

    assert "take it nearer" in found.advice[0]


def test_a_picture_without_bars_has_no_grade() -> None:
    """A QR alone, or nothing, is not graded."""
    frame = shoot([(draw(NUMBER, "qr"), View())], Camera(), np.random.default_rng(1)).frame

    assert grade(frame) == []


def line(widths: tuple[int, ...] = WIDTHS) -> NDArray[np.float64]:
    """Return the profile of a perfect print, 8 samples a module, with its quiet zones."""
    quiet = [PAPER] * QUIET_BARS * DOTS
    bars = [
        PAPER if at % 2 else 0.05 for at, width in enumerate(widths) for _ in range(width * DOTS)
    ]
    return np.array([*quiet, *bars, *quiet])


def test_a_perfect_line_has_perfect_measures() -> None:
    """The definitions, on a line drawn to them: contrast Rmax - Rmin, modulation ECmin / SC."""
    scan = measured(line(), WIDTHS)

    assert scan.decoded
    assert scan.contrast == pytest.approx(0.80)
    assert scan.edge_contrast == pytest.approx(0.80)
    assert scan.modulation == pytest.approx(1)
    assert scan.defects == 0
    assert scan.decodability == pytest.approx(1, abs=1e-6)
    assert scan.module == pytest.approx(DOTS)
    assert overall([scan]) == 4.0


def test_a_void_in_a_bar_is_a_defect_of_its_depth() -> None:
    """Defects are the largest unevenness within one element, over the contrast."""
    widths = np.cumsum((0, *WIDTHS))
    wide = next(at for at in range(0, len(WIDTHS), 2) if WIDTHS[at] >= 3)
    profile = line()
    middle = (QUIET_BARS * DOTS) + round((widths[wide] + widths[wide + 1]) / 2 * DOTS)
    profile[middle - 1 : middle + 2] += 0.2
    scan = measured(profile, WIDTHS)

    assert scan.defects == pytest.approx(0.2 / 0.8)
    assert scan.worst_spot == pytest.approx(widths[wide], abs=0.1)


def test_the_weakest_edge_sets_the_modulation() -> None:
    """One narrow bar printed half as dark halves the modulation."""
    narrow = next(at for at in range(2, len(WIDTHS), 2) if WIDTHS[at] == 1)
    start = (QUIET_BARS + sum(WIDTHS[:narrow])) * DOTS
    profile = line()
    profile[start : start + DOTS] = 0.40
    scan = measured(profile, WIDTHS)

    assert scan.edge_contrast == pytest.approx(0.45)
    assert scan.modulation == pytest.approx(0.45 / 0.80)


def test_other_bars_do_not_decode() -> None:
    """A line of another number, or of none, fails whatever its contrast."""
    assert not measured(line(bar_widths(make(Thing.BIN, 5))), WIDTHS).decoded
    assert not measured(np.linspace(0, 1, 900), WIDTHS).decoded
    assert overall([measured(np.zeros(900), WIDTHS)]) == 0.0


@pytest.mark.parametrize(
    ("value", "limits", "expected"),
    [
        (0.70, CONTRAST, 4.0),
        (0.55, CONTRAST, 3.0),
        (0.40, CONTRAST, 2.0),
        (0.20, CONTRAST, 1.0),
        (0.199, CONTRAST, 0.0),
        (0.30, CONTRAST, 1.5),
        (0.70, MODULATION, 4.0),
        (0.40, MODULATION, 1.0),
        (0.62, DECODABILITY, 4.0),
        (0.37, DECODABILITY, 2.0),
        (0.25, DECODABILITY, 1.0),
        (0.15, DEFECTS, 4.0),
        (0.20, DEFECTS, 3.0),
        (0.30, DEFECTS, 1.0),
        (0.301, DEFECTS, 0.0),
    ],
)
def test_the_published_limits(value: float, limits: tuple[float, ...], expected: float) -> None:
    """Limits of ISO/IEC 15416 as printed at axicon.com/fractional-grading, tenths between them."""
    assert by_limits(value, limits) == expected


@pytest.mark.parametrize(
    ("mean", "name"),
    [
        (4.0, "A"),
        (3.5, "A"),
        (3.4, "B"),
        (2.5, "B"),
        (1.5, "C"),
        (0.5, "D"),
        (0.4, "F"),
        (0.0, "F"),
    ],
)
def test_letters_of_the_overall_grade(mean: float, name: str) -> None:
    """Printronix T5000r manual, p. 73: A from 3.5, B from 2.5, C from 1.5, D from 0.5."""
    assert letter(mean) == name


def test_scattered_spots_and_blind_lines_have_their_own_advice() -> None:
    """Spots in different places are dirt or paper, not a dead dot; no line at all is the camera."""
    good = measured(line(), WIDTHS)
    spots = [replace(good, defects=0.4, worst_spot=place) for place in (5.0, 20.0, 44.0, 70.0)]

    assert advice_for(spots, 8) == (
        "Spots or gaps are all over the bars: clean the head, and use smoother labels.",
    )
    assert advice_for([good, good, good, spots[0]], 8) == (
        "There are spots or gaps in some lines: clean the label.",
    )
    assert advice_for([replace(good, modulation=0.45)], 8) == (
        "Narrow bars and spaces are much fainter than wide ones: choose a larger X.",
    )
    assert "straight on" in advice_for([Scan(decoded=False)], 8)[0]
