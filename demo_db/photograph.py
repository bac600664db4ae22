"""A page of labels as a camera would see it: held askew, a little blurred, in uneven light."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

DOTS_PER_INCH = 200
WIDTH, HEIGHT = 2400, 3200
"""Pixels of the picture: 8 megapixels, as of an older phone held upright."""
GAMMA = 2.2
"""Pixels are light to the power of 1/2.2. A lens mixes light, so the blur is of light, not of
pixels: pixels blurred would show all bars a third of a module too wide."""
TABLE = 0.12
"""Share of the light that the table returns."""


def photograph(pdf: Path, picture: Path, page: int = 1) -> None:
    """Write a picture of a page of a PDF as a camera would take it, always the same."""
    import cv2
    import numpy as np

    paper = _paper(pdf, page)
    height, width = paper.shape
    corners = np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float32)
    # Where the sheet's corners land: turned a few degrees, and seen from a little below.
    seen = np.array([[330, 260], [2110, 190], [2230, 2890], [150, 2990]], dtype=np.float32)
    view = cv2.getPerspectiveTransform(corners, seen)
    # Where an edge runs through a dot the page's grey is the share of paper, and so of light.
    reflected = paper.astype(np.float32) / 255
    table = cv2.warpPerspective(
        reflected, view, (WIDTH, HEIGHT), flags=cv2.INTER_AREA, borderValue=(TABLE,)
    )
    light = np.linspace(1.0, 0.5, WIDTH, dtype=np.float32)[np.newaxis, :]
    noise = np.random.default_rng(1).normal(0, 4, table.shape)
    blurred = cv2.GaussianBlur(table, (0, 0), 1.1)
    pixels = 255 * np.clip(blurred * light, 0, 1) ** (1 / GAMMA)
    exposed = np.clip(pixels + noise, 0, 255).astype(np.uint8)
    if not cv2.imwrite(str(picture), exposed, [cv2.IMWRITE_JPEG_QUALITY, 80]):
        raise OSError(f"{picture} could not be written")


def _paper(pdf: Path, page: int) -> NDArray[np.uint8]:
    import numpy as np
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        rendered = document[page - 1].render(scale=DOTS_PER_INCH / 72, grayscale=True)
        return np.array(rendered.to_numpy()).reshape(rendered.height, rendered.width)
