"""A camera for Chromium that sees labels: a film that it plays again and again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import cv2
import numpy as np

from tests.bench_page.conftest import QUIET, chromium
from tests.labels.reading.label_faces import draw

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from playwright.sync_api import Browser, Playwright

WIDTH, HEIGHT = 1280, 720
PER_SECOND = 30
"""Pictures that Chromium shows of such a film in a second."""
LABEL_WIDTH = 460
BENCH_GREY = 120
Scene = tuple[float, Sequence[str]]
"""Seconds, and the numbers of the labels in view meanwhile."""


def film(file: Path, *scenes: Scene) -> Path:
    """Write scenes as a film in Motion JPEG, one JPEG after the other, and return its name."""
    with file.open("wb") as out:
        for seconds, numbers in scenes:
            encoded = picture(numbers)
            for _ in range(round(seconds * PER_SECOND)):
                out.write(encoded)
    return file


def picture(numbers: Sequence[str]) -> bytes:
    """Return a JPEG of a bench top with labels on it, two to a row."""
    bench: NDArray[np.uint8] = np.full((HEIGHT, WIDTH), BENCH_GREY, np.uint8)
    for i, number in enumerate(numbers):
        face = np.asarray(draw(number).reflectance * 235, np.uint8)
        high = round(face.shape[0] * LABEL_WIDTH / face.shape[1])
        label = cv2.resize(face, (LABEL_WIDTH, high), interpolation=cv2.INTER_AREA)
        left, top = 120 + i % 2 * (LABEL_WIDTH + 110), 90 + i // 2 * (high + 60)
        bench[top : top + high, left : left + LABEL_WIDTH] = label
    return cv2.imencode(".jpg", bench, [cv2.IMWRITE_JPEG_QUALITY, 85])[1].tobytes()


@contextmanager
def browser_with_camera(playwright: Playwright, file: Path) -> Iterator[Browser]:
    """Give a browser whose camera plays a film, and that lets every page use it."""
    camera = (
        "--use-fake-device-for-media-stream",
        "--use-fake-ui-for-media-stream",
        f"--use-file-for-fake-video-capture={file}",
    )
    with playwright.chromium.launch(executable_path=chromium(), args=[*QUIET, *camera]) as launched:
        yield launched
