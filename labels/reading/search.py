"""Where symbols may be in a picture, at its own size and at smaller ones.

The cells of the gradients are a few modules wide only while a module is 1 to 4 pixels; larger
symbols look that way in a smaller copy of the picture.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from labels.reading.bars import find_bars
from labels.reading.gradients import tensor_of
from labels.reading.squares import find_squares

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from labels.reading.look import Corners
    from labels.reading.patches import Patch

#: A copy is no longer halved when its shorter side would fall under this.
SMALLEST_SIDE = 160


@dataclass(frozen=True, slots=True)
class Places:
    """Patches that may be bars and squares that may be a QR, the strongest first."""

    bars: list[Patch]
    squares: list[Patch]


def search(grey: NDArray[np.uint8], most: int, factor: float = 1.0) -> Places:
    """Return at most `most` places of each kind; `factor` is how much larger the picture is."""
    tensor = tensor_of(grey)
    return Places(
        bars=[_larger(patch, factor) for patch in find_bars(tensor, most)],
        squares=[_larger(patch, factor) for patch in find_squares(tensor, most)],
    )


def halved(grey: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return the picture at half its size."""
    import cv2
    import numpy as np

    size = (max(grey.shape[1] // 2, 1), max(grey.shape[0] // 2, 1))
    return np.asarray(cv2.resize(grey, size, interpolation=cv2.INTER_AREA), np.uint8)


def levels(grey: NDArray[np.uint8]) -> list[NDArray[np.uint8]]:
    """Return the picture and its ever smaller copies."""
    found = [grey]
    while min(found[-1].shape) >= 2 * SMALLEST_SIDE:
        found.append(halved(found[-1]))
    return found


def inside(patch: Patch, corners: Corners) -> bool:
    """Return whether the middle of the patch lies within the corners of a symbol."""
    import cv2
    import numpy as np

    outline = np.array(corners, np.float32)
    return cv2.pointPolygonTest(outline, (patch.x, patch.y), measureDist=False) >= 0


def _larger(patch: Patch, factor: float) -> Patch:
    """Return the patch in a picture `factor` times as large."""
    if factor == 1:
        return patch
    return replace(
        patch,
        x=patch.x * factor,
        y=patch.y * factor,
        length=patch.length * factor,
        height=patch.height * factor,
    )
