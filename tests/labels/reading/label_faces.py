"""Faces of labels for the simulated camera, drawn by encoders that the project does not use."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

Grey = NDArray[np.float32]

#: Texture dots for each X-dimension of the face.
DOTS = 8
QUIET_BARS = 10
QUIET_QR = 4


@dataclass(frozen=True)
class Face:
    """A label seen straight on: reflectance 0 to 1, and where its symbols stand, in dots."""

    reflectance: Grey
    number: str
    bars: tuple[int, int, int, int] | None
    qr: tuple[int, int, int, int] | None


@lru_cache(maxsize=512)
def bar_widths(number: str) -> tuple[int, ...]:
    """Return bar, space, bar ... widths of the number in modules, as reportlab encodes it."""
    from reportlab.graphics.barcode.code128 import Code128

    code: Any = Code128(number, quiet=0)
    code.validate()
    code.encode()
    code.decompose()
    return tuple("ABCD".index(letter.upper()) + 1 for letter in code.decomposed)


@lru_cache(maxsize=512)
def qr_modules(number: str) -> NDArray[np.bool_]:
    """Return the dark modules of the number's version 1 QR, as segno encodes it."""
    import segno

    return np.array(segno.make(number, version=1, micro=False).matrix, dtype=bool)


def bars_face(number: str, height: int = 30, spread: float = 0.0) -> Grey:
    """Return the bars, `height` modules high, with 10 modules quiet; `spread` fattens bars."""
    edges = np.cumsum((0, *bar_widths(number))) + QUIET_BARS
    width = int(edges[-1]) + QUIET_BARS
    line = np.ones(width * DOTS, np.float32)
    for start, end in zip(edges[:-1:2], edges[1::2], strict=True):
        grow = spread / 2
        line[round((start - grow) * DOTS) : round((end + grow) * DOTS)] = 0
    return np.repeat(line[None, :], height * DOTS, axis=0)


def qr_face(number: str, module: float = 1.0) -> Grey:
    """Return the QR with 4 modules quiet, each module `module` X wide."""
    dark = np.pad(qr_modules(number), QUIET_QR)
    size = round(dark.shape[0] * module * DOTS)
    light = 1 - dark.astype(np.float32)
    square = cv2.resize(light, (size, size), interpolation=cv2.INTER_NEAREST)
    return np.asarray(square, np.float32)


def _write(face: Grey, text: str, left: int, base: int, height: int) -> None:
    """Write a line of text `height` dots high, its foot at `base`."""
    ink = np.zeros(face.shape, np.uint8)
    cv2.putText(ink, text, (left, base), cv2.FONT_HERSHEY_SIMPLEX, height / 22, 255, height // 8)
    np.minimum(face, 1 - ink.astype(np.float32) / 255, out=face)


@lru_cache(maxsize=64)
def draw(number: str, symbols: str = "both", qr_module: float = 1.33, spread: float = 0.0) -> Face:
    """Return the face of a label with `bars`, `qr` or `both` and the number in groups."""
    bars = bars_face(number, spread=spread) if symbols in {"bars", "both"} else None
    square = qr_face(number, qr_module) if symbols in {"qr", "both"} else None
    left = square.shape[1] if square is not None else 0
    bars_high, bars_wide = bars.shape if bars is not None else (0, 0)
    text_high = 8 * DOTS
    square_high = square.shape[0] if square is not None else 0
    height = max(bars_high + text_high, square_high + (0 if bars is not None else text_high))
    face = np.ones((height + 3 * DOTS, left + bars_wide + 2 * DOTS), np.float32)
    bars_box = qr_box = None
    if square is not None:
        face[DOTS : DOTS + square.shape[0], DOTS : DOTS + left] = square
        inset = round(QUIET_QR * qr_module * DOTS)
        qr_box = (DOTS + inset, DOTS + inset, DOTS + left - inset, DOTS + square_high - inset)
    if bars is not None:
        face[DOTS : DOTS + bars_high, DOTS + left : DOTS + left + bars_wide] = bars
        quiet = QUIET_BARS * DOTS
        right = DOTS + left + bars_wide - quiet
        bars_box = (DOTS + left + quiet, DOTS, right, DOTS + bars_high)
    text = f"{number[:1]} {number[1:4]} {number[4:]}"
    foot = face.shape[0] - 2 * DOTS
    _write(face, text, left + 10 * DOTS if bars is not None else 3 * DOTS, foot, 5 * DOTS)
    face.setflags(write=False)
    return Face(face, number, bars_box, qr_box)
