"""A patch of upright bars as a few scan lines, each the mean of many rows.

Bars repeat the same line over their whole height, so the mean of a strip keeps them while noise,
scratches and dirt shrink. A few strips, not one: tilt bends the bars, damage spares some height.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: The upper and lower tenth of a patch are left out, since its box is larger than the bars.
INSET = 0.1
#: Rows that each line is drawn high: zxing wants to meet it twice.
DRAWN = 2
#: Widths in pixels of the neighbourhoods that light and dark are judged in, some ten modules.
LEVEL_WIDTH, THRESHOLD_WIDTH = 41, 101
#: Blur in pixels that closes a white streak of a dead dot, some third of a module wide.
SOFT = 2.2
#: Reach in pixels of the detail that is raised, and by how much.
SHARP, SHARPER = 3.0, 1.5
#: Less difference than this between light and dark is no print.
LEAST_CONTRAST = 12
#: Grey levels below the local mean that make a pixel dark.
DARKER = 3
#: Bars and spaces of 8 digits are 43 with 44 edges; some may be covered or blurred away.
LEAST_EDGES = 36


def scan_lines(upright: NDArray[np.uint8], count: int = 9) -> NDArray[np.float32]:
    """Return up to `count` lines, each the mean of a strip of the patch."""
    import numpy as np

    high = upright.shape[0]
    edges = np.linspace(INSET * high, (1 - INSET) * high, count + 1).astype(int)
    strips = [upright[a:b] for a, b in pairwise(edges) if b > a]
    return np.array([strip.mean(0) for strip in strips or [upright]], dtype=np.float32)


def softened(lines: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return the lines blurred along, so that thin streaks through the bars close."""
    import cv2
    import numpy as np

    return np.asarray(cv2.GaussianBlur(lines, (0, 0), sigmaX=SOFT, sigmaY=0.1), np.float32)


def as_they_are(lines: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return the lines untouched."""
    return lines


def sharpened(lines: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return the lines with their fine detail raised, against blur of one or two modules."""
    import cv2
    import numpy as np

    soft = cv2.GaussianBlur(lines, (0, 0), sigmaX=SHARP, sigmaY=0.1)
    return np.asarray(lines + SHARPER * (lines - soft), np.float32)


def in_thirds(lines: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return each third of the lines as one: less noise, where the bars stand straight."""
    import numpy as np

    parts = np.array_split(lines, min(3, len(lines)))
    return np.array([part.mean(0) for part in parts], dtype=np.float32)


def levelled(lines: NDArray[np.float32]) -> NDArray[np.uint8]:
    """Return the lines stretched so that dark is 0 and light 255 all along, for zxing."""
    import cv2
    import numpy as np

    across = np.ones((1, LEVEL_WIDTH), np.uint8)
    dark = cv2.blur(cv2.erode(lines, across), (LEVEL_WIDTH, 1))
    light = cv2.blur(cv2.dilate(lines, across), (LEVEL_WIDTH, 1))
    stretched = (lines - dark) / np.maximum(light - dark, LEAST_CONTRAST) * 255
    return np.repeat(np.clip(stretched, 0, 255).astype(np.uint8), DRAWN, axis=0)


def thresholded(lines: NDArray[np.float32]) -> NDArray[np.uint8]:
    """Return the lines as black and white, judged against the mean round each pixel, for zbar."""
    import cv2
    import numpy as np

    mean = cv2.blur(lines, (THRESHOLD_WIDTH, 1))
    return np.repeat(np.where(lines > mean - DARKER, 255, 0).astype(np.uint8), DRAWN, axis=0)


def may_be_bars(black_and_white: NDArray[np.uint8]) -> bool:
    """Return whether any thresholded line has nearly as many edges as the shortest symbol."""
    import numpy as np

    edges = np.count_nonzero(black_and_white[:, 1:] != black_and_white[:, :-1], axis=1)
    return bool(edges.max() >= LEAST_EDGES)
