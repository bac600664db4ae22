"""The passes: ways to prepare a picture for the decoders, each of which catches what others miss.

Every pass takes a grey 8 bit picture and yields looks in that picture's coordinates; a text that is
no label number (length, digits, check digits) never leaves this module.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from labels.reading import zxing
from labels.reading.acceptance import number_in
from labels.reading.geometry import moved
from labels.reading.look import Look, RawLook, Symbol
from labels.reading.patches import cut
from labels.reading.strips import (
    INSET,
    as_they_are,
    in_thirds,
    levelled,
    may_be_bars,
    scan_lines,
    sharpened,
    softened,
    thresholded,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    import numpy as np
    from numpy.typing import NDArray

    from labels.reading.look import Corners
    from labels.reading.patches import Patch
    from labels.reading.zbar import ZbarWorker

#: Pixels a patch of bars is wide once cut: 4 to 5 a module for 79 modules and the ground beside.
BARS_WIDTH = 768
#: Rows of the picture that scan lines are averaged from, at most.
MOST_ROWS = 96
MOST_DRAWN_ROWS = 256
#: Pixels a square is wide at most once cut, and how much it is enlarged at most.
SQUARE_WIDTH = 600
SQUARE_SCALE = 3.0


def whole_twice(grey: NDArray[np.uint8], factor: float = 1.0) -> Iterator[Look]:
    """Read the picture at twice its size with zxing: the best single look at everything.

    `factor` is how much larger the picture is that the corners are wanted for.
    """
    import cv2
    import numpy as np

    twice = cv2.resize(grey, None, fx=2, fy=2, interpolation=cv2.INTER_LINEAR)
    # zxing lets whole numbers stand for pixel corners: no half pixel to take off.
    back = np.array([[factor / 2, 0, 0], [0, factor / 2, 0]])
    return _checked(zxing.read(np.asarray(twice, np.uint8)), "whole twice", back)


def whole_squares(grey: NDArray[np.uint8]) -> Iterator[Look]:
    """Read the picture at twice its size with zxing for QR alone: most of it for half the time."""
    import cv2
    import numpy as np

    twice = cv2.resize(grey, None, fx=2, fy=2, interpolation=cv2.INTER_LINEAR)
    found = zxing.read(np.asarray(twice, np.uint8), thorough=False, only=Symbol.QR)
    return _checked(found, "whole squares", np.array([[0.5, 0, 0], [0, 0.5, 0]]))


def whole_once(grey: NDArray[np.uint8]) -> Iterator[Look]:
    """Read the picture at its own size with zxing: enough for pictures too large to enlarge."""
    return _checked(zxing.read(grey), "whole once")


def whole_threshold(
    grey: NDArray[np.uint8], zbar: ZbarWorker, factor: float = 1.0
) -> Iterator[Look]:
    """Read the picture with zbar after a local threshold: faint print, glare, covered ends."""
    import numpy as np

    back = np.array([[factor, 0, 0], [0, factor, 0]])
    return _checked(zbar.read(_threshold(grey, 31, 5)), "whole threshold", back)


def bars_lines(grey: NDArray[np.uint8], patch: Patch, zbar: ZbarWorker) -> Iterator[Look]:
    """Read a patch of bars as a few averaged scan lines with both decoders.

    What is unread is tried again sharpened, for blur, and as fewer lines, for noise.
    """
    return _lines_read(grey, patch, zbar, (as_they_are, sharpened, in_thirds), "bars lines")


def bars_softly(grey: NDArray[np.uint8], patch: Patch, zbar: ZbarWorker) -> Iterator[Look]:
    """Read a patch of bars as averaged lines blurred along: streaks of a worn print head close."""
    return _lines_read(grey, patch, zbar, (softened,), "bars softly")


def _lines_read(
    grey: NDArray[np.uint8],
    patch: Patch,
    zbar: ZbarWorker,
    preparations: Iterable[Callable[[NDArray[np.float32]], NDArray[np.float32]]],
    name: str,
) -> Iterator[Look]:
    """Yield what the first preparation shows in which a label number is read."""
    rows = round(min(max(patch.height, 24), MOST_ROWS))
    upright, back = cut(grey, patch, (BARS_WIDTH, rows))
    plain = scan_lines(upright)
    if not may_be_bars(thresholded(plain)):
        return
    for prepared in preparations:
        lines = prepared(plain)
        found = zxing.read(levelled(lines), thorough=False) + zbar.read(thresholded(lines))
        # A look at lines knows where the bars begin and end; how high they are, the patch knows.
        full = [replace(raw, corners=_full_height(raw.corners, rows)) for raw in found]
        looks = list(_checked(full, name, back))
        yield from looks
        if looks:
            return


def _full_height(corners: Corners, rows: int) -> Corners:
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    top, bottom = INSET * rows, (1 - INSET) * rows
    return (left, top), (right, top), (right, bottom), (left, bottom)


def bars_rows(grey: NDArray[np.uint8], patch: Patch, zbar: ZbarWorker) -> Iterator[Look]:
    """Read a patch of bars row by row with both decoders: bars bent or partly spared by damage."""
    import cv2
    import numpy as np

    rows = round(min(max(patch.height, 24) * BARS_WIDTH / patch.length, MOST_DRAWN_ROWS))
    upright, back = cut(grey, patch, (BARS_WIDTH, rows))
    soft = cv2.blur(upright, (1, max(upright.shape[0] // 8, 1)))
    yield from _checked(zxing.read(upright, thorough=False), "bars rows", back)
    yield from _checked(zbar.read(_threshold(np.asarray(soft, np.uint8), 63, 3)), "bars rows", back)
    yield from _checked(zbar.read(_threshold(upright, 63, 5)), "bars rows", back)


def square(grey: NDArray[np.uint8], patch: Patch) -> Iterator[Look]:
    """Read a square that may be a QR with zxing, enlarged and a little softened against noise."""
    import cv2
    import numpy as np

    enlarged, back, scale = _enlarged_square(grey, patch)
    soft = cv2.GaussianBlur(enlarged, (0, 0), 0.375 * scale)
    return _checked(zxing.read(np.asarray(soft, np.uint8)), "square", back)


def square_again(grey: NDArray[np.uint8], patch: Patch, zbar: ZbarWorker) -> Iterator[Look]:
    """Read a square in the ways that find what `square` missed: zbar, and a local threshold."""
    import cv2
    import numpy as np

    enlarged, back, scale = _enlarged_square(grey, patch)
    soft = np.asarray(cv2.GaussianBlur(enlarged, (0, 0), 0.6 * scale), np.uint8)
    # Of bars in a window that is not along them zbar knows the number but not the place.
    squares = [raw for raw in zbar.read(soft) if raw.symbol is Symbol.QR]
    yield from _checked(squares, "square again", back)
    soft = np.asarray(cv2.GaussianBlur(enlarged, (0, 0), 0.375 * scale), np.uint8)
    binary = _threshold(soft, 2 * round(12.5 * scale) + 1, 3)
    yield from _checked(zxing.read(binary), "square again", back)


def _enlarged_square(
    grey: NDArray[np.uint8], patch: Patch
) -> tuple[NDArray[np.uint8], NDArray[np.float64], float]:
    """Return the square enlarged, the map back, and how much it was enlarged."""
    import cv2
    import numpy as np

    scale = min(SQUARE_SCALE, SQUARE_WIDTH / max(patch.length, patch.height))
    left, top = max(int(patch.x - patch.length / 2), 0), max(int(patch.y - patch.height / 2), 0)
    right, bottom = int(patch.x + patch.length / 2), int(patch.y + patch.height / 2)
    window = grey[top:bottom, left:right]
    way = cv2.INTER_CUBIC if scale > 1 else cv2.INTER_AREA
    enlarged = cv2.resize(window, None, fx=scale, fy=scale, interpolation=way)
    back = np.array([[1 / scale, 0, left], [0, 1 / scale, top]])
    return np.asarray(enlarged, np.uint8), back, scale


def _threshold(grey: NDArray[np.uint8], window: int, darker: int) -> NDArray[np.uint8]:
    """Return black where a pixel is `darker` levels below the mean of the window round it."""
    import cv2
    import numpy as np

    binary = cv2.adaptiveThreshold(
        grey, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY, window, darker
    )
    return np.asarray(binary, dtype=np.uint8)


def _checked(
    found: Iterable[RawLook], name: str, back: NDArray[np.float64] | None = None
) -> Iterator[Look]:
    """Yield the looks whose text is a label number, moved back into the picture."""
    for raw in found:
        number = number_in(raw.text)
        if number is not None:
            corners = raw.corners if back is None else moved(raw.corners, back)
            yield Look(number, corners, raw.symbol, raw.decoder, name)
