"""Print quality of the QR, and of both symbols as our own sheets have them, crisp and degraded."""

import tempfile
from functools import cache
from itertools import pairwise
from pathlib import Path

import cv2
import numpy as np
import pypdfium2
import pytest
import segno
from numpy.typing import NDArray

from demo_db.photograph import photograph
from labels import qr
from labels.label import Label
from labels.number import LabelNumber, Thing, make
from labels.printer import Printer
from labels.reading.grades import by_limits
from labels.reading.scan_profile import PAPER
from labels.reading.square_grid import expected, modules
from labels.reading.verify import grade_bars, read
from labels.reading.verify_square import (
    MODULATION,
    UNUSED_CORRECTION,
    SquareGrade,
    codeword_places,
    grade_squares,
    graded_modules,
    unused_correction,
)
from labels.sheet import write_pdf
from labels.stock import load

NUMBER = make(Thing.PART, 123)
DARK = 0.05

Grey = NDArray[np.uint8]


def printed(number: LabelNumber = NUMBER) -> NDArray[np.float32]:
    """Return the modules of a perfect print."""
    return np.where(expected(number), DARK, PAPER).astype(np.float32)


def spoilt(count: int) -> NDArray[np.float32]:
    """Return a print in which that many codewords have a module of the wrong colour."""
    light = printed()
    for places in codeword_places()[:count]:
        light[places[3]] = PAPER + DARK - light[places[3]]
    return light


@pytest.mark.parametrize("number", [NUMBER, make(Thing.BIKE, 9_999_999)], ids=["8", "10"])
def test_codewords_stand_where_segno_drew_them(number: LabelNumber) -> None:
    """Read back and unmasked they say mode 1, the count and the digits, three to 10 bits.

    ISO/IEC 18004 from memory: mode indicator 0001, a count of 10 bits, mask 3 is (row + column)
    mod 3 = 0. The symbol is segno's own, level H.
    """
    symbol = segno.make(number, version=1, error="h", mode="numeric", mask=3, boost_error=False)
    bits = "".join(
        str(symbol.matrix[row][column] ^ ((row + column) % 3 == 0))
        for places in codeword_places()
        for row, column in places
    )
    said, at = "", 14
    for start in range(0, len(number), 3):
        size = len(number[start : start + 3])
        wide = {3: 10, 2: 7, 1: 4}[size]
        said += f"{int(bits[at : at + wide], 2):0{size}d}"
        at += wide

    assert len(bits) == 208
    assert bits[:14] == f"0001{len(number):010b}"
    assert said == number


def test_a_perfect_print() -> None:
    """Contrast 80 %, modulation and unused correction 100 %, nothing wrong, nothing to change."""
    found = graded_modules(NUMBER, printed(), 8)

    assert (found.letter, found.grade, found.wrong, found.advice) == ("A", 4.0, 0, ())
    assert [round(quality.value, 6) for quality in found.qualities] == [0.8, 1.0, 1.0]


@pytest.mark.parametrize(
    ("errors", "unused", "grade"),
    [(0, 1.0, 4.0), (3, 0.625, 4.0), (4, 0.5, 3.0), (5, 0.375, 2.0), (6, 0.25, 1.0), (7, 0.125, 0)],
)
def test_unused_error_correction(errors: int, unused: float, grade: float) -> None:
    """1 - 2t/(d - p) with d 17 and p 1 (zone.ni.com), graded at 62, 50, 37 and 25 %."""
    found = graded_modules(NUMBER, spoilt(errors), 8)
    measured = {quality.name: quality for quality in found.qualities}

    assert unused_correction(errors) == unused
    assert measured["unused error correction"].value == unused
    assert measured["unused error correction"].grade == pytest.approx(grade, abs=0.1)
    assert found.wrong == errors
    assert found.wrong_fixed == 0
    # The overlay lets modulation forgive what correction does, and no more.
    assert measured["modulation"].grade == pytest.approx(grade, abs=0.1)


@pytest.mark.parametrize(
    ("margin", "expected_grade"),
    [(0.55, 4.0), (0.50, 4.0), (0.45, 3.5), (0.30, 2.0), (0.20, 1.0), (0.19, 0.0)],
)
def test_modulation_limits(margin: float, expected_grade: float) -> None:
    """Limits 50, 40, 30 and 20 % of 2 |R - GT| / SC (manualshive.com, p. 39), in tenths between."""
    light = printed()
    threshold, half = (PAPER + DARK) / 2, (PAPER - DARK) / 2
    for places in codeword_places():
        row, column = places[0]
        way = -1 if expected(NUMBER)[row, column] else 1
        light[row, column] = threshold + way * (margin + 1e-4) * half
    measured = {one.name: one for one in graded_modules(NUMBER, light, 8).qualities}

    assert measured["modulation"].grade == expected_grade


def test_a_damaged_finder_is_said() -> None:
    """Modules of the patterns that the QR is found by are counted apart."""
    light = printed()
    light[2, :4] = PAPER
    found = graded_modules(NUMBER, light, 8)

    assert found.wrong == found.wrong_fixed == 3
    assert "that the QR is found by are damaged" in found.advice[0]


def test_limits_of_the_grades() -> None:
    """The published tables, at each of their limits."""
    assert [by_limits(limit, MODULATION) for limit in (0.19, 0.2, 0.3, 0.4, 0.5)] == [0, 1, 2, 3, 4]
    limits = (0.24, 0.25, 0.37, 0.50, 0.62)
    assert [by_limits(limit, UNUSED_CORRECTION) for limit in limits] == [0, 1, 2, 3, 4]


@cache
def sheet_at(name: str, dpi: int) -> Grey:
    """Return a page of three labels as a printer of so many dots per inch lays it down."""
    labels = [
        Label(
            number=make(Thing.PART, 123 + at),
            title="rear derailleur",
            lines=("ratio-1.7", "speeds 8"),
            grade="good",
            bin_name="A1",
            caution=at == 1,
        )
        for at in range(3)
    ]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "labels.pdf")
        write_pdf(labels, load(name), Printer(dpi=dpi), path)
        with pypdfium2.PdfDocument(path) as document:
            grey = document[0].render(scale=dpi / 72, grayscale=True).to_numpy()
    return np.ascontiguousarray(grey.reshape(grey.shape[:2]))


def grades(grey: Grey) -> tuple[list[float], list[float]]:
    """Return the grades of the bars and of the QRs in a picture."""
    whole, readings = read(grey)
    bars, squares = grade_bars(whole, readings), grade_squares(whole, readings)
    return [one.grade for one in bars], [one.grade for one in squares]


@pytest.mark.parametrize("name", ["a4-3x8-70x37", "a4-2x4-99x68", "roll-57x32", "a4-4x10-46x25"])
def test_our_own_labels_get_the_best_grade(name: str) -> None:
    """Bars and QR of a sheet as a printer of 300 dots per inch lays it down are 4.0."""
    bars, squares = grades(sheet_at(name, 300))

    assert set(bars) == set(squares) == {4.0}
    assert len(bars) == len(squares) == (1 if name.startswith("roll") else 3)


def worse(grey: Grey, kind: str, step: int) -> Grey:
    """Return the page degraded; 0 is not at all. Blur and fading are of light, not of pixels."""
    light = (grey.astype(np.float32) / 255) ** 2.2
    if kind == "blurred":
        light[:] = cv2.GaussianBlur(light, (0, 0), 0.3 + 0.9 * step)
    else:
        light = 1 - (1 - light) * (1 - 0.18 * step)
    return np.asarray(np.clip(light ** (1 / 2.2) * 255, 0, 255), np.uint8)


@pytest.mark.parametrize("kind", ["blurred", "faded"])
def test_what_is_worse_gets_a_lower_grade(kind: str) -> None:
    """Each step of blur or fading costs bars and QR something, or is the best or worst still."""
    page = sheet_at("a4-3x8-70x37", 300)[:500, :830]
    steps = [grades(worse(page, kind, step)) for step in range(5)]
    for symbol in (0, 1):
        means = [sum(found[symbol]) / len(found[symbol]) for found in steps if found[symbol]]
        assert means[0] == 4.0
        assert all(after <= before for before, after in pairwise(means))
        assert means[-1] < 3.5


def test_a_sheet_seen_askew_is_graded_for_its_print(tmp_path: Path) -> None:
    """The demonstration's photograph is of a good print: every label is a B or better.

    It is turned, in perspective, a little blurred and in uneven light.
    """
    labels = [
        Label(number=make(Thing.PART, 500 + at), title="shifter", lines=("rear",), grade="good")
        for at in range(4)
    ]
    write_pdf(labels, load("a4-3x8-64x34"), Printer(), tmp_path / "labels.pdf")
    photograph(tmp_path / "labels.pdf", tmp_path / "photo.jpg")
    grey, readings = read(tmp_path / "photo.jpg")
    bars, squares = grade_bars(grey, readings), grade_squares(grey, readings)

    assert len(bars) == len(squares) == len(labels)
    assert min(one.grade for one in bars) >= 3
    assert min(one.grade for one in squares) >= 3
    assert max(abs(one.growth) for one in bars) < 0.15


def test_corners_may_be_a_module_out_and_anyhow_turned() -> None:
    """The grid is found from corners that a decoder gave only roughly."""
    side = 8 * qr.SIDE
    symbol = np.kron(np.where(expected(NUMBER), 20, 235), np.ones((8, 8))).astype(np.uint8)
    page = np.full((side + 100, side + 100), 235, np.uint8)
    page[50 : 50 + side, 50 : 50 + side] = symbol
    low, high = 50.0, 50.0 + side
    rough = ((high + 5, low - 6), (high - 4, high + 6), (low - 6, high - 3), (low + 6, low + 4))
    found = modules(page, NUMBER, [rough])
    assert found is not None
    graded: SquareGrade = graded_modules(NUMBER, *found)

    assert graded.grade == 4.0
    assert graded.pixels_per_module == pytest.approx(8, abs=0.3)


def test_a_place_without_the_symbol_is_not_graded() -> None:
    """Corners round something else than the number's QR give no grade."""
    noise = np.random.default_rng(1).integers(0, 255, (300, 300)).astype(np.uint8)
    corners = ((50.0, 50.0), (250.0, 50.0), (250.0, 250.0), (50.0, 250.0))

    assert modules(noise, NUMBER, [corners]) is None
    assert modules(noise, NUMBER, []) is None
