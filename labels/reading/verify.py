"""How well a label is printed, graded from a photograph or a scan, and what to change.

An estimate, no verification: a picture has no calibrated light, no fixed aperture and no measured
distance. It tells a good print from a bad one and says why; it is no certificate.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from labels.code128 import modules
from labels.reading.advice import advice_for
from labels.reading.bar_band import ROWS, band, scan
from labels.reading.grades import Quality, letter, overall, qualities
from labels.reading.look import Symbol
from labels.reading.patches import Patch, cut
from labels.reading.reader import Reader
from labels.reading.scan_profile import PAPER, Scan
from labels.reading.search import levels, search

if TYPE_CHECKING:
    from collections.abc import Iterable
    from os import PathLike

    import numpy as np
    from numpy.typing import NDArray

    from labels.number import LabelNumber
    from labels.reading.look import Look, Reading

ESTIMATE = "An estimate from a picture, not a verification with a calibrated instrument."
#: Scan lines over the height of the bars (ten are usual), and the share of the height they take.
SCANS, HEIGHT_SCANNED = 10, 0.8
#: A patch is cut so much higher than found: askew bars reach over it at their ends.
TALLER = 1.3
#: Pixels that a patch of bars is wide once cut: at least 8 a module.
WIDTH = 1600
PLACES = 20
#: Width of the measuring spot in X (0.8 is usual; the picture's own blur is the rest).
SPOT = 0.6


@dataclass(frozen=True, slots=True)
class PrintGrade:
    """The grade of the bars of one label, 4.0 best and 0.0 worst, with all that it rests on.

    `growth` is how much too wide the bars are, in X; `pixels_per_module` how near the picture is.
    """

    number: LabelNumber
    grade: float
    letter: str
    qualities: tuple[Quality, ...]
    pixels_per_module: float
    growth: float
    advice: tuple[str, ...]


def read(
    picture: str | PathLike[str] | NDArray[np.uint8],
) -> tuple[NDArray[np.uint8], list[Reading]]:
    """Return a picture as grey, and every label that is read in it.

    Raises what `grey_of` raises.
    """
    from labels.reading.pictures import grey_of

    grey = grey_of(picture)
    with Reader() as reader:
        return grey, reader.still(grey)


def grade(picture: str | PathLike[str] | NDArray[np.uint8]) -> list[PrintGrade]:
    """Return the grade of every label in the picture whose bars can be read; see `ESTIMATE`.

    Raises what `grey_of` raises.
    """
    return grade_bars(*read(picture))


def grade_bars(grey: NDArray[np.uint8], readings: Iterable[Reading]) -> list[PrintGrade]:
    """Return the grade of every label of which the bars were read in the picture."""
    readings = list(readings)
    places = PLACES + 2 * len(readings)
    patches = [
        patch
        for size in levels(grey)
        for patch in search(size, places, grey.shape[0] / size.shape[0]).bars
    ]
    graded = []
    for reading in readings:
        bars = [look for look in reading.looks if look.symbol is Symbol.CODE_128]
        candidates = [_scanned(grey, patch, reading.number) for patch in _round(bars, patches)]
        if candidates:
            graded.append(_graded(reading.number, *max(candidates, key=_decoded)))
    return graded


def _round(looks: Iterable[Look], patches: Iterable[Patch]) -> list[Patch]:
    """Return the patches that one of the looks stands in the middle of."""
    places = [look.centre for look in looks]
    return [
        patch
        for patch in patches
        if any(
            (patch.x - x) ** 2 + (patch.y - y) ** 2 < (0.3 * patch.length) ** 2 for x, y in places
        )
    ]


def _scanned(
    grey: NDArray[np.uint8], patch: Patch, number: LabelNumber
) -> tuple[list[Scan], float]:
    """Return the scan lines across a patch, and the picture's pixels for each pixel cut."""
    import cv2
    import numpy as np

    rows = max(round(TALLER * patch.height), ROWS)
    upright, _ = cut(grey, replace(patch, height=TALLER * patch.height), (WIDTH, rows))
    widths = tuple(len(list(run)) for _, run in groupby(modules(number)))
    # The box is about 1.7 times as wide as the bars (their borders, and what the search adds).
    spot = max(round(SPOT * WIDTH / 1.7 / sum(widths)), 1)
    light = cv2.blur(_light(upright), (spot, 1))
    found = band(np.asarray(light, np.float32), widths, WIDTH / patch.length)
    if found is None:
        return [Scan(decoded=False)], patch.length / WIDTH
    high = found.bottom - found.top
    edges = np.linspace((1 - HEIGHT_SCANNED) / 2, (1 + HEIGHT_SCANNED) / 2, SCANS + 1) * high
    edges = np.round(edges + found.top).astype(int)
    scans = [
        scan(found.light[top : max(bottom, top + 1)].mean(0).astype(np.float64), widths)
        for top, bottom in pairwise(edges)
    ]
    return scans, patch.length / WIDTH


def _decoded(candidate: tuple[list[Scan], float]) -> int:
    return sum(scan.decoded for scan in candidate[0])


def _light(grey: NDArray[np.uint8]) -> NDArray[np.float32]:
    """Return the share of light each pixel returns: gamma undone, the lightest taken as paper."""
    import numpy as np

    linear = (grey.astype(np.float32) / 255) ** np.float32(2.2)
    white = max(float(np.percentile(linear, 98)), 1e-3)
    return np.asarray(np.clip(linear / white, 0, 1) * PAPER, np.float32)


def _graded(number: LabelNumber, scans: list[Scan], pixels: float) -> PrintGrade:
    decoded = [scan for scan in scans if scan.decoded]
    count = max(len(decoded), 1)
    nearness = sum(scan.module for scan in decoded) / count * pixels
    mean = overall(scans)
    return PrintGrade(
        number=number,
        grade=mean,
        letter=letter(mean),
        qualities=qualities(scans),
        pixels_per_module=nearness,
        growth=sum(scan.growth for scan in decoded) / count,
        advice=advice_for(scans, nearness),
    )
