"""The modules of a QR as a picture shows them: where its grid lies, how light each module is."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from labels import qr
from labels.reading.scan_profile import PAPER

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy as np
    from numpy.typing import NDArray

    from labels.number import LabelNumber
    from labels.reading.look import Corners

#: Pixels that a module is drawn with once the picture is laid straight.
PIXELS = 12
#: Width of the measuring spot in modules (0.8 is usual; the picture's own blur is the rest).
SPOT = 0.6
#: Steps in modules by which corners are moved to where the grid fits best.
STEPS = (0.5, 0.25, 0.12, 0.06)
#: Places in a module that are looked at for that, from its middle, in modules.
PROBES = (-0.28, 0.0, 0.28)
#: A grid that fits less than this has been found in the wrong place.
LEAST_FIT = 0.3


@cache
def expected(number: LabelNumber) -> NDArray[np.bool_]:
    """Return which modules of the number's QR are dark, the rows from the top."""
    import numpy as np

    return np.array([[module == "1" for module in row] for row in qr.rows(number)])


def modules(
    grey: NDArray[np.uint8], number: LabelNumber, places: Iterable[Corners]
) -> tuple[NDArray[np.float32], float] | None:
    """Return the light of each module, a share, and the pixels of a module; or None.

    `places` are corners of the symbol as decoders gave them, good to a module or so.
    """
    import numpy as np

    best, fit = None, LEAST_FIT
    boxes = [np.array(corners, np.float32) for corners in places]
    if not boxes:
        return None
    light, corner = _light_round(grey, boxes)
    for seen in boxes:
        for turn in range(4):
            box = np.roll(seen - corner, turn, axis=0)
            found = _fit(light, number, box)
            if found > fit:
                best, fit = box, found
    if best is None:
        return None
    best = _settled(light, number, best)
    side = np.linalg.norm(best - np.roll(best, 1, axis=0), axis=1).mean() / qr.SIDE
    return _scaled(light, best), float(side)


def _light_round(
    grey: NDArray[np.uint8], boxes: list[NDArray[np.float32]]
) -> tuple[NDArray[np.float32], NDArray[np.float32]]:
    """Return the light (gamma undone) of the part of a picture round the boxes, and its corner."""
    import numpy as np

    corners = np.concatenate(boxes)
    margin = float(np.ptp(corners, axis=0).max()) / 4
    low = np.maximum(corners.min(0) - margin, 0).astype(int)
    high = np.ceil(corners.max(0) + margin).astype(int)
    part = grey[low[1] : high[1], low[0] : high[0]]
    light = (part.astype(np.float32) / 255) ** np.float32(2.2)
    return np.asarray(light, np.float32), np.asarray(low, np.float32)


def _fit(light: NDArray[np.float32], number: LabelNumber, box: NDArray[np.float32]) -> float:
    """Return how well the grid in the box fits: the correlation of light with light modules."""
    import cv2
    import numpy as np

    steps = np.arange(qr.SIDE) + 0.5
    offsets = [(x, y) for x in PROBES for y in PROBES]
    places = np.array(
        [[(c + x, r + y) for r in steps for c in steps] for x, y in offsets], np.float32
    )
    seen = cv2.perspectiveTransform(places, _view(box))
    values = cv2.remap(
        light,
        np.ascontiguousarray(seen[..., 0]),
        np.ascontiguousarray(seen[..., 1]),
        cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )
    wanted = np.tile(~expected(number).ravel(), (len(offsets), 1))
    if float(values.std()) == 0:
        return 0.0
    return float(np.corrcoef(values.ravel(), wanted.ravel())[0, 1])


def _view(box: NDArray[np.float32]) -> NDArray[np.float64]:
    """Return the map from modules to the picture."""
    import cv2
    import numpy as np

    corners = np.array([(0, 0), (1, 0), (1, 1), (0, 1)], np.float32) * qr.SIDE
    return np.asarray(cv2.getPerspectiveTransform(corners, box), np.float64)


def _settled(
    light: NDArray[np.float32], number: LabelNumber, box: NDArray[np.float32]
) -> NDArray[np.float32]:
    """Return the box with its corners moved, one at a time, to where the grid fits best."""
    import numpy as np

    module = float(np.linalg.norm(box[0] - box[1])) / qr.SIDE
    fit = _fit(light, number, box)
    for step in STEPS:
        better = True
        while better:
            better = False
            for at in range(8):
                for way in (-1, 1):
                    tried = box.copy()
                    tried[at // 2, at % 2] += way * step * module
                    found = _fit(light, number, tried)
                    if found > fit + 1e-6:
                        box, fit, better = tried, found, True
    return box


def _scaled(light: NDArray[np.float32], box: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return the light of each module's middle, the lightest of the symbol's paper as white."""
    import cv2
    import numpy as np

    side = qr.SIDE * PIXELS
    scale = np.diag([1 / PIXELS, 1 / PIXELS, 1.0])
    straight = cv2.warpPerspective(
        light,
        _view(box) @ scale,
        (side, side),
        flags=cv2.INTER_CUBIC | cv2.WARP_INVERSE_MAP,
        borderMode=cv2.BORDER_REPLICATE,
    )
    spot = round(SPOT * PIXELS)
    spots = cv2.blur(straight, (spot, spot))[PIXELS // 2 :: PIXELS, PIXELS // 2 :: PIXELS]
    white = max(float(np.percentile(straight, 98)), 1e-3)
    return np.asarray(np.clip(spots / white, 0, 1) * PAPER, np.float32)
