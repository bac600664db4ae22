"""Points and corners between a patch and the picture that it was cut from."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    from numpy.typing import NDArray

    from labels.reading.look import Corners, Point


def four_corners(points: Sequence[Point]) -> Corners:
    """Return four corners round any points, the points themselves when they are four."""
    import cv2
    import numpy as np

    if len(points) == 4:
        a, b, c, d = ((float(x), float(y)) for x, y in points)
        return a, b, c, d
    if not points:
        return (0.0, 0.0), (0.0, 0.0), (0.0, 0.0), (0.0, 0.0)
    box = cv2.boxPoints(cv2.minAreaRect(np.array(points, np.float32)))
    a, b, c, d = ((float(x), float(y)) for x, y in box)
    return a, b, c, d


def moved(corners: Corners, matrix: NDArray[np.float64]) -> Corners:
    """Return the corners under a 2 x 3 affine map.

    >>> import numpy as np
    >>> half = np.array([[0.5, 0, 0], [0, 0.5, 0]])
    >>> moved(((0, 0), (8, 0), (8, 4), (0, 4)), half)
    ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0))
    """
    a, b, c, d = (
        (
            float(matrix[0, 0] * x + matrix[0, 1] * y + matrix[0, 2]),
            float(matrix[1, 0] * x + matrix[1, 1] * y + matrix[1, 2]),
        )
        for x, y in corners
    )
    return a, b, c, d
