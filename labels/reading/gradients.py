"""The gradients of a picture, averaged over cells: how strong they are and which way they run."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: Pixels a cell is wide and high: a few modules.
CELL = 8
#: Cells the averages reach: a lone line is thinner, a symbol is larger.
REACH = 1.2


@dataclass(frozen=True, slots=True, eq=False)
class Tensor:
    """The averaged products of the gradients, cell by cell (the structure tensor).

    `energy` is their strength, `directed` the part of it that runs one way, `angle` that way in
    degrees from 0 to 180, `filled` where edges fill an area, `noise` the strength of plain ground.
    """

    energy: NDArray[np.float32]
    directed: NDArray[np.float32]
    angle: NDArray[np.float32]
    filled: NDArray[np.bool_]
    noise: float


def tensor_of(grey: NDArray[np.uint8]) -> Tensor:
    """Return the structure tensor of a grey picture in cells of `CELL` pixels."""
    import cv2
    import numpy as np

    # Every second row will do: each gradient already looks at three rows.
    across = cv2.Sobel(grey, cv2.CV_16S, 1, 0)[::2]
    down = cv2.Sobel(grey, cv2.CV_16S, 0, 1)[::2]
    size = (max(grey.shape[1] // CELL, 1), max(grey.shape[0] // CELL, 1))
    raw = []
    for first, second in ((across, across), (down, down), (across, down)):
        product = cv2.multiply(first, second, dtype=cv2.CV_32F)
        raw.append(cv2.resize(product, size, interpolation=cv2.INTER_AREA))
    filled = _filled(np.asarray(raw[0] + raw[1], np.float32))
    xx, yy, xy = (cv2.GaussianBlur(cell, (0, 0), REACH) for cell in raw)
    energy = np.asarray(xx + yy, np.float32)
    angle = np.rad2deg(np.arctan2(2 * xy, xx - yy) / 2) % 180
    return Tensor(
        energy=energy,
        directed=np.hypot(xx - yy, 2 * xy),
        angle=np.asarray(angle, np.float32),
        filled=filled,
        noise=float(np.percentile(energy, 20)),
    )


def _filled(energy: NDArray[np.float32]) -> NDArray[np.bool_]:
    """Return the cells that stand in an area of edges, not on a lone line."""
    import cv2
    import numpy as np

    noise = float(np.percentile(energy, 30))
    busy = (energy > max(500.0, 2.0 * noise)).astype(np.uint8)
    square = np.ones((3, 3), np.uint8)
    closed = cv2.morphologyEx(busy, cv2.MORPH_CLOSE, square)
    return np.asarray(cv2.morphologyEx(closed, cv2.MORPH_OPEN, square) > 0)
