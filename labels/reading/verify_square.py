"""How well the QR of a label is printed, graded from a photograph or a scan; an estimate.

The modules that the number's QR must have are known, so each is measured and compared. Sources of
measures and limits: ISO/IEC 15415 as a verifier's manual gives them (manualshive.com, "DataMan 475
reference manual", p. 39: symbol contrast, modulation, unused error correction; the grade is the
lowest of them), and for the margin of wrong modules another (manualshelf.com, "SR-750 series
instruction manual", p. 22). Grades go by tenths as in the edition of 2024 (barcode-test.com). The
standard was not seen. Left out are fixed pattern damage, whose limits were not found, and the two
nonuniformities, in which a photograph shows the camera and not the printer.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from labels import qr
from labels.reading.advice import FEW_PIXELS
from labels.reading.grades import CONTRAST, Quality, by_limits, letter
from labels.reading.look import Symbol
from labels.reading.square_grid import expected, modules

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy as np
    from numpy.typing import NDArray

    from labels.number import LabelNumber
    from labels.reading.look import Reading

#: Limits of the grades 1, 2, 3 and 4; a measure below the first earns 0.
MODULATION = (0.20, 0.30, 0.40, 0.50)
UNUSED_CORRECTION = (0.25, 0.37, 0.50, 0.62)
CODEWORD = 8
#: Codewords for correction in version 1-H, of which one is kept for detection: 8 are corrected
#: (ISO/IEC 18004, from memory).
CORRECTION, DETECTION = 17, 1
#: Grades that modulation is tried at.
TENTHS = tuple(tenth / 10 for tenth in range(40, -1, -1))
#: Modules along the finder patterns with their separators.
FINDER = 8
TIMING = 6


@dataclass(frozen=True, slots=True)
class SquareGrade:
    """The grade of the QR of one label, 4.0 best and 0.0 worst, with all that it rests on.

    `wrong` are the modules of the wrong colour, `wrong_fixed` those of them in the patterns that
    readers find the symbol by; `pixels_per_module` is how near the picture is.
    """

    number: LabelNumber
    grade: float
    letter: str
    qualities: tuple[Quality, ...]
    pixels_per_module: float
    wrong: int
    wrong_fixed: int
    advice: tuple[str, ...]


def grade_squares(grey: NDArray[np.uint8], readings: Iterable[Reading]) -> list[SquareGrade]:
    """Return the grade of every label of which the QR was read in the picture."""
    graded = []
    for reading in readings:
        places = [look.corners for look in reading.looks if look.symbol is Symbol.QR]
        found = modules(grey, reading.number, places)
        if found is not None:
            graded.append(graded_modules(reading.number, *found))
    return graded


def graded_modules(number: LabelNumber, light: NDArray[np.float32], pixels: float) -> SquareGrade:
    """Return the grade of modules that return these shares of light."""
    dark = expected(number)
    threshold = (float(light.max()) + float(light.min())) / 2
    contrast = float(light.max()) - float(light.min())
    wrong = (light < threshold) != dark
    # A module of the wrong colour has no margin, however dark or light it is.
    margins = abs(light - threshold) * 2 / max(contrast, 1e-6) * ~wrong
    codewords = [min(float(margins[at]) for at in places) for places in codeword_places()]
    unused = unused_correction(sum(margin == 0 for margin in codewords))
    modulation = _modulation(codewords)
    grades = {
        "symbol contrast": by_limits(contrast, CONTRAST),
        "modulation": modulation,
        "unused error correction": by_limits(unused, UNUSED_CORRECTION),
    }
    values = {
        "symbol contrast": contrast,
        "modulation": min(codewords),
        "unused error correction": max(unused, 0.0),
    }
    lowest = min(grades.values())
    damaged = sum(bool(wrong[at]) for at in _fixed())
    return SquareGrade(
        number=number,
        grade=lowest,
        letter=letter(lowest),
        qualities=tuple(Quality(name, values[name], grades[name]) for name in grades),
        pixels_per_module=pixels,
        wrong=int(wrong.sum()),
        wrong_fixed=damaged,
        advice=tuple(_advice(grades, pixels, int(wrong.sum()), damaged)),
    )


def unused_correction(errors: int) -> float:
    """Return the share of the error correction that so many wrong codewords leave.

    Source: the formula at zone.ni.com, "2D Code Unused Error Correction".

    >>> unused_correction(0), unused_correction(4), unused_correction(8)
    (1.0, 0.5, 0.0)
    """
    return 1 - 2 * errors / (CORRECTION - DETECTION)


def _modulation(codewords: list[float]) -> float:
    """Return the highest grade that the codewords earn if all below it are taken for errors."""
    earned = [by_limits(margin, MODULATION) for margin in codewords]
    return max(
        min(
            level,
            by_limits(unused_correction(sum(one < level for one in earned)), UNUSED_CORRECTION),
        )
        for level in TENTHS
    )


@cache
def codeword_places() -> tuple[tuple[tuple[int, int], ...], ...]:
    """Return row and column of the 8 modules of each of the 26 codewords.

    They run up and down in pairs of columns from the right (ISO/IEC 18004, from memory; proved by
    decoding what segno drew).
    """
    places = []
    pairs = [right if right > TIMING else right - 1 for right in range(qr.SIDE - 1, 0, -2)]
    for turn, right in enumerate(pairs):
        rows = range(qr.SIDE) if turn % 2 else range(qr.SIDE - 1, -1, -1)
        places += [
            (row, column)
            for row in rows
            for column in (right, right - 1)
            if not _function(row, column)
        ]
    return tuple(tuple(places[at : at + CODEWORD]) for at in range(0, len(places), CODEWORD))


def _function(row: int, column: int) -> bool:
    """Return whether the module belongs to a pattern or the format, and carries no data."""
    near = FINDER + 1
    far = qr.SIDE - FINDER
    return (
        TIMING in (row, column)
        or (row < near and (column < near or column >= far))
        or (row >= far and column < near)
    )


@cache
def _fixed() -> tuple[tuple[int, int], ...]:
    """Return the modules of finder patterns, separators and timing patterns."""
    far = qr.SIDE - FINDER
    return tuple(
        (row, column)
        for row in range(qr.SIDE)
        for column in range(qr.SIDE)
        if TIMING in (row, column)
        or ((row < FINDER or row >= far) and column < FINDER)
        or (row < FINDER and column >= far)
    )


def _advice(grades: dict[str, float], pixels: float, wrong: int, damaged: int) -> list[str]:
    """Return what would better the QR, the surest first; nothing when it is good."""
    told = []
    if pixels < FEW_PIXELS:
        told.append(
            f"A module of the QR is only {pixels:.1f} pixels wide, so the picture tells little"
            " of the print: take it nearer, or scan it at 600 dpi."
        )
    if grades["symbol contrast"] < 3:
        told.append("QR and paper differ too little: print darker, or on whiter, matt labels.")
    if damaged:
        told.append(
            f"{damaged} modules of the patterns that the QR is found by are damaged:"
            " print the label again."
        )
    elif wrong:
        told.append(f"{wrong} modules of the QR are of the wrong colour: clean the head or label.")
    elif grades["modulation"] < 3:
        told.append("Some modules are much fainter than others: choose a larger label.")
    return told
