"""Where a QR may be in a picture: compact areas whose gradients run every way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from labels.reading.bars import cell_groups, one_way
from labels.reading.gradients import CELL, Tensor
from labels.reading.patches import Patch

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: 21 modules of 1.2 pixels are 25 pixels, three cells each way.
LEAST_CELLS = 6
#: Longest side for each shortest; a square turned by 45 degrees keeps a square box.
LONGEST_RATIO = 2.6
#: Cells added all round: the finders stand in the corners, where the averages are weak.
MARGIN = 3


def find_squares(tensor: Tensor, most: int) -> list[Patch]:
    """Return the likeliest places of a QR, the strongest first, at most `most`."""
    import cv2
    import numpy as np

    mixed = (tensor.filled & ~one_way(tensor)).astype(np.uint8)
    # Opening by two cells cuts the thin links along a label's edge and its text.
    parted = cv2.morphologyEx(mixed, cv2.MORPH_OPEN, np.ones((2, 2), np.uint8)) > 0
    groups = cell_groups(np.asarray(parted), LEAST_CELLS)
    found = [_patch(tensor, rows, columns) for _, rows, columns in groups]
    fitting = [patch for patch in found if patch is not None]
    return sorted(fitting, key=lambda patch: -patch.weight)[:most]


def _patch(tensor: Tensor, rows: NDArray[np.intp], columns: NDArray[np.intp]) -> Patch | None:
    """Return the box round a group of cells with a margin, or None if it is far from square."""
    import numpy as np

    left, right = int(columns.min()), int(columns.max()) + 1
    top, bottom = int(rows.min()), int(rows.max()) + 1
    wide, high = right - left, bottom - top
    if max(wide, high) > LONGEST_RATIO * min(wide, high):
        return None
    return Patch(
        x=(left + right) / 2 * CELL,
        y=(top + bottom) / 2 * CELL,
        angle=0.0,
        length=float((wide + 2 * MARGIN) * CELL),
        height=float((high + 2 * MARGIN) * CELL),
        weight=float(np.sqrt(tensor.energy[rows, columns]).sum()),
    )
