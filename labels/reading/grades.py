"""The published limits of print quality, and what a set of scan lines earns under them.

Source of the limits: ISO/IEC 15416 as given by axicon.com/fractional-grading and, with the same
limits, the Printronix T5000r manual (p. 73), which also has the letters of the overall grade. The
standard itself was not seen. Grades go by tenths, as they do since 2016.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from labels.reading.scan_profile import Scan

#: Limits of the grades 1, 2, 3 and 4; a measure below the first earns 0.
CONTRAST = (0.20, 0.40, 0.55, 0.70)
MODULATION = (0.40, 0.50, 0.60, 0.70)
DECODABILITY = (0.25, 0.37, 0.50, 0.62)
#: Here less is better: a measure above the first earns 0.
DEFECTS = (0.30, 0.25, 0.20, 0.15)
LEAST_EDGE_CONTRAST = 0.15
#: Lowest mean grade of each letter.
LETTERS = ((3.5, "A"), (2.5, "B"), (1.5, "C"), (0.5, "D"))


@dataclass(frozen=True, slots=True)
class Quality:
    """One measure: its name, its mean over the scan lines (a share), and its mean grade 0 to 4."""

    name: str
    value: float
    grade: float


def letter(grade: float) -> str:
    """Return the letter of an overall grade.

    >>> letter(3.5), letter(2.4), letter(0.4)
    ('A', 'C', 'F')
    """
    return next((name for least, name in LETTERS if grade >= least), "F")


def by_limits(value: float, limits: tuple[float, ...]) -> float:
    """Return the grade of a measure, to a tenth, between the limits of the grades 1 to 4.

    >>> by_limits(0.55, CONTRAST), by_limits(0.19, CONTRAST), by_limits(0.22, DEFECTS)
    (3.0, 0.0, 2.6)
    """
    rising = limits[0] < limits[-1]
    steps = [limit if rising else -limit for limit in limits]
    at = value if rising else -value
    if at < steps[0]:
        return 0.0
    for grade, (low, high) in enumerate(pairwise(steps), start=1):
        if at < high:
            return round(grade + (at - low) / (high - low), 1)
    return 4.0


def grades_of(scan: Scan) -> dict[str, float]:
    """Return the grade of each measure of one scan line."""
    return {
        "decode": 4.0 if scan.decoded else 0.0,
        "symbol contrast": by_limits(scan.contrast, CONTRAST),
        "minimum reflectance": 4.0 if scan.dark_enough else 0.0,
        "edge contrast": 4.0 if scan.edge_contrast >= LEAST_EDGE_CONTRAST else 0.0,
        "modulation": by_limits(scan.modulation, MODULATION),
        "defects": by_limits(scan.defects, DEFECTS),
        "decodability": by_limits(scan.decodability, DECODABILITY),
    }


def overall(scans: Sequence[Scan]) -> float:
    """Return the mean over the scan lines of each line's lowest grade, to a tenth."""
    return round(sum(min(grades_of(scan).values()) for scan in scans) / len(scans), 1)


def qualities(scans: Sequence[Scan]) -> tuple[Quality, ...]:
    """Return each measure with its mean over the scan lines."""
    values = {
        "decode": [float(scan.decoded) for scan in scans],
        "symbol contrast": [scan.contrast for scan in scans],
        "minimum reflectance": [float(scan.dark_enough) for scan in scans],
        "edge contrast": [scan.edge_contrast for scan in scans],
        "modulation": [scan.modulation for scan in scans],
        "defects": [scan.defects for scan in scans],
        "decodability": [scan.decodability for scan in scans],
    }
    grades = [grades_of(scan) for scan in scans]
    return tuple(
        Quality(
            name,
            sum(measures) / len(scans),
            round(sum(grade[name] for grade in grades) / len(scans), 1),
        )
        for name, measures in values.items()
    )
