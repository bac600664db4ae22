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
REACH = 1.0
#: Strength in Sobel units under which a gradient counts less and less: mostly noise.
FAINT = 30.0
#: Rows of cells that are worked on at once.
BAND = 4
#: Strength of a cell that is busy: in itself, and beside plain ground.
BUSY, BUSY_BESIDE = 10.0, 2.0


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

    raw = _products(grey)
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


def _products(grey: NDArray[np.uint8]) -> NDArray[np.float32]:
    """Return the cells' mean products across-across, down-down and across-down.

    Each is divided by the gradient's own strength, so that faint bars still speak beside the hard
    edge of a white label on a dark bench. Bands of rows are small enough to stay in the cache.
    """
    import cv2
    import numpy as np

    across, down = cv2.spatialGradient(grey)
    high, wide = (max(side // CELL, 1) for side in grey.shape)
    cells = np.empty((3, high, wide), np.float32)
    for first in range(0, high, BAND):
        last = min(first + BAND, high)
        # Every second row will do: each gradient already looks at three rows.
        rows = np.s_[first * CELL : last * CELL : 2]
        x, y = across[rows].astype(np.float32), down[rows].astype(np.float32)
        strength = cv2.magnitude(x, y) + np.float32(FAINT)
        even_x, even_y = cv2.divide(x, strength), cv2.divide(y, strength)
        for which, (one, other) in enumerate(((even_x, x), (even_y, y), (even_x, y))):
            product = cv2.multiply(one, other)
            size = (wide, last - first)
            cells[which, first:last] = cv2.resize(product, size, interpolation=cv2.INTER_AREA)
    return cells


def _filled(energy: NDArray[np.float32]) -> NDArray[np.bool_]:
    """Return the cells that stand in an area of edges, not on a lone line."""
    import cv2
    import numpy as np

    noise = float(np.percentile(energy, 30))
    busy = (energy > max(BUSY, BUSY_BESIDE * noise)).astype(np.uint8)
    square = np.ones((3, 3), np.uint8)
    closed = cv2.morphologyEx(busy, cv2.MORPH_CLOSE, square)
    return np.asarray(cv2.morphologyEx(closed, cv2.MORPH_OPEN, square) > 0)
