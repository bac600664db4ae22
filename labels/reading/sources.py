"""Where frames and typed numbers come from: pictures, folders, videos, cameras, a wedge scanner.

`pictures`, `video` and `camera` are context managers that give an iterator of frames, so each can
stand in for any other.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from labels.reading.camera import Camera, list_cameras
from labels.reading.errors import PictureError
from labels.reading.pictures import grey_of, load

if TYPE_CHECKING:
    from os import PathLike

    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Frame", "camera", "keys", "list_cameras", "pictures", "video"]

_PICTURES = {".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".bmp"}


@dataclass(frozen=True, slots=True, eq=False)
class Frame:
    """One grey picture; `live` when others of the same scene come before and after it."""

    grey: NDArray[np.uint8]
    name: str
    live: bool


@contextmanager
def pictures(paths: Iterable[str | PathLike[str]]) -> Iterator[Iterator[Frame]]:
    """Give the pictures named, and those in the folders named, in the order of their names.

    The iterator raises `PictureError` at a file that is none, and for a folder without pictures.
    """
    yield (Frame(load(path), str(path), live=False) for path in _files(paths))


def _files(paths: Iterable[str | PathLike[str]]) -> Iterator[Path]:
    for given in paths:
        path = Path(given)
        if not path.is_dir():
            yield path
            continue
        inside = [file for file in path.iterdir() if file.suffix.lower() in _PICTURES]
        if not inside:
            raise PictureError(f"The folder {path} has no pictures in it (JPEG, PNG, TIFF, WebP).")
        yield from sorted(inside, key=_natural)


def _natural(path: Path) -> list[str | int]:
    """Return a key that puts `frame9` before `frame10`."""
    return [int(part) if part.isdigit() else part for part in re.split(r"(\d+)", path.name)]


@contextmanager
def video(path: str | PathLike[str]) -> Iterator[Iterator[Frame]]:
    """Give every frame of a video file; `PictureError` if it cannot be opened as one."""
    import cv2

    from labels.reading.camera import quiet_opencv

    if not Path(path).is_file():
        raise PictureError(f"There is no video file {path}: check the name.")
    with quiet_opencv():
        capture = cv2.VideoCapture(str(path))
    try:
        if not capture.isOpened():
            raise PictureError(f"{path} is not a video that can be opened: use MP4, AVI or MKV.")
        yield _video_frames(capture, str(path))
    finally:
        capture.release()


def _video_frames(capture: object, name: str) -> Iterator[Frame]:
    import cv2
    import numpy as np

    assert isinstance(capture, cv2.VideoCapture)
    count = 0
    while (got := capture.read())[0]:
        count += 1
        grey = grey_of(np.asarray(got[1], np.uint8))
        yield Frame(grey, f"{name} frame {count}", live=True)


@contextmanager
def camera(index: int = 0) -> Iterator[Iterator[Frame]]:
    """Give the newest frame of the camera again and again, until the block is left.

    Raises `CameraMissingError` or `CameraBusyError` on opening, and `CameraUnpluggedError` or
    `CameraFrozenError` from the iterator, within two seconds of the fault.
    """
    with Camera(index) as opened:
        yield (Frame(grey_of(picture), f"camera {index}", live=True) for picture in opened)


def keys(stream: TextIO) -> Iterator[str]:
    r"""Give the lines a keyboard-wedge scanner (or a person) types, without blanks round them.

    Empty lines are left out. What a line means is for `labels.number.validate` to say.

    >>> import io
    >>> list(keys(io.StringIO("20012362\r\n\n 2001 2362 \n")))
    ['20012362', '2001 2362']
    """
    for line in iter(stream.readline, ""):
        # Some scanners send a tab, a return or an end-of-text mark where others send a newline.
        text = "".join(letter for letter in line if letter.isprintable()).strip()
        if text:
            yield text
