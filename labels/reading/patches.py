"""Patches of a picture that may hold a symbol: boxes at any turn, and how they are cut out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Patch:
    """A turned box in pixels; `angle` degrees is the way of its length, `weight` its strength."""

    x: float
    y: float
    angle: float
    length: float
    height: float
    weight: float


def cut(
    grey: NDArray[np.uint8], patch: Patch, size: tuple[int, int]
) -> tuple[NDArray[np.uint8], NDArray[np.float64]]:
    """Return the patch upright, `size` pixels wide and high, and the map back to the picture.

    The map is a 2 x 3 matrix. The patch may be enlarged along its length more than across.
    """
    import cv2
    import numpy as np

    wide, high = size
    turn = np.deg2rad(patch.angle)
    along = np.array([np.cos(turn), np.sin(turn)]) * patch.length / wide
    across = np.array([-np.sin(turn), np.cos(turn)]) * patch.height / high
    corner = np.array([patch.x, patch.y]) - along * (wide - 1) / 2 - across * (high - 1) / 2
    back = np.column_stack((along, across, corner))
    upright = cv2.warpAffine(
        grey,
        back,
        size,
        flags=cv2.INTER_CUBIC | cv2.WARP_INVERSE_MAP,
        borderMode=cv2.BORDER_REPLICATE,
    )
    return np.asarray(upright, dtype=np.uint8), back
