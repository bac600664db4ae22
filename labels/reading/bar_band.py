"""The band of a picture that bars stand in: its scan lines run along it, from its foot to its top.

A camera that looks askew turns the foot of the bars against the bars themselves. Lines straight
across the bars would then leave them at one end, and a good print be graded for what it is not.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from labels.reading.scan_profile import measured

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from labels.reading.scan_profile import Scan

#: Slopes of the foot to try, the least first: a picture taken from 45 degrees aside has about 0.2.
SLOPES = (0.0, *(sign * step * 0.03 for step in range(1, 8) for sign in (1, -1)))
#: How much nearer slopes are tried round the best one.
NEARER = (-0.015, 0.015)
#: Rows that are looked at to find where the bars start and end.
ROWS = 24


@dataclass(frozen=True, slots=True, eq=False)
class Band:
    """A picture whose bars stand upright on a level foot, and the rows that they reach."""

    light: NDArray[np.float32]
    top: int
    bottom: int


def band(
    light: NDArray[np.float32], widths: tuple[int, ...], columns_per_pixel: float
) -> Band | None:
    """Return the band of the bars of these widths, or None if no row has them.

    `light` has its bars upright, a row to a pixel and `columns_per_pixel` across.
    """
    best: Band | None = None
    slope = 0.0
    for tried in SLOPES:
        found = _at(light, widths, tried / columns_per_pixel)
        if found is not None and (best is None or _height(found) > _height(best)):
            best, slope = found, tried
    for near in NEARER:
        found = _at(light, widths, (slope + near) / columns_per_pixel)
        if best is not None and found is not None and _height(found) > _height(best):
            best = found
    return best


def scan(line: NDArray[np.float64], widths: tuple[int, ...]) -> Scan:
    """Return what a line measures, read in the way that suits the bars better.

    A label may stand on its head; its bars then run the other way.
    """
    return max((measured(way, widths) for way in (line, line[::-1])), key=_margin)


def _margin(one: Scan) -> float:
    return one.decodability if one.decoded else -1.0


def _height(found: Band) -> int:
    return found.bottom - found.top


def _at(light: NDArray[np.float32], widths: tuple[int, ...], slope: float) -> Band | None:
    """Return the band as it is at that slope, in rows a column."""
    import cv2
    import numpy as np

    high, wide = light.shape
    level = np.array([[1, 0, 0], [slope, 1, -slope * wide / 2]], np.float64)
    tilted = np.asarray(
        cv2.warpAffine(
            light,
            level,
            (wide, high),
            flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP,
            borderMode=cv2.BORDER_REPLICATE,
        ),
        np.float32,
    )
    edges = np.linspace(0, high, ROWS + 1).astype(int)
    rows = [
        (int(top), int(bottom))
        for top, bottom in pairwise(edges)
        if scan(tilted[top:bottom].mean(0).astype(np.float64), widths).decoded
    ]
    return Band(tilted, rows[0][0], rows[-1][1]) if rows else None
