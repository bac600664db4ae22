"""A webcam through OpenCV and V4L2: the newest frame only, and every fault by its name.

OpenCV neither raises nor says why a camera gives nothing: a missing, busy or unplugged camera all
read as "no frame", and reading can block for ten seconds. So a thread of its own reads, and the
device files say the rest.
"""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol, Self

from labels.reading.errors import (
    CameraBusyError,
    CameraError,
    CameraFrozenError,
    CameraMissingError,
    CameraUnpluggedError,
)

if TYPE_CHECKING:
    from types import TracebackType

    import numpy as np
    from numpy.typing import NDArray

DEVICES = Path("/dev")
NAMES = Path("/sys/class/video4linux")
WIDTH, HEIGHT = 1280, 720
#: Longest time without a new, different frame; also for the first frame once the camera is open.
PATIENCE = 1.8


class Capture(Protocol):
    """What this module needs of `cv2.VideoCapture`."""

    def isOpened(self) -> bool:  # noqa: N802  OpenCV's name
        """Say whether there is a camera behind it."""

    def read(self) -> tuple[bool, Any]:
        """Give whether a frame came, and the frame."""

    def set(self, prop: int, value: float, /) -> bool:
        """Ask for a property."""

    def release(self) -> None:
        """Give the camera back."""


@dataclass(frozen=True, slots=True)
class CameraDevice:
    """A camera as `scan --list` shows it."""

    index: int
    path: Path
    name: str


def list_cameras(devices: Path = DEVICES, names: Path = NAMES) -> list[CameraDevice]:
    """Return the video devices of this machine by index, with the names they give themselves."""
    found = []
    for path in devices.glob("video*"):
        digits = path.name.removeprefix("video")
        if digits.isdigit():
            label = names / path.name / "name"
            name = label.read_text().strip() if label.is_file() else "unnamed"
            found.append(CameraDevice(int(digits), path, name))
    return sorted(found, key=lambda device: device.index)


@contextmanager
def quiet_opencv() -> Iterator[None]:
    """Keep OpenCV's own warnings off the terminal; our errors say the same in words."""
    import cv2

    # FFmpeg, which opens the video files, has a log of its own; -8 is its word for none.
    os.environ.setdefault("OPENCV_FFMPEG_LOGLEVEL", "-8")
    logging = cv2.utils.logging
    before = logging.getLogLevel()
    logging.setLogLevel(logging.LOG_LEVEL_SILENT)
    try:
        yield
    finally:
        logging.setLogLevel(before)


def open_v4l2(index: int) -> Capture:
    """Return the camera opened through V4L2 by index: MJPG first, then the size."""
    import cv2

    with quiet_opencv():
        capture = cv2.VideoCapture(index, cv2.CAP_V4L2)
        # The order matters: the size is settled within the pixel format asked for before.
        capture.set(cv2.CAP_PROP_FOURCC, cv2.VideoWriter.fourcc(*"MJPG"))
        capture.set(cv2.CAP_PROP_FRAME_WIDTH, WIDTH)
        capture.set(cv2.CAP_PROP_FRAME_HEIGHT, HEIGHT)
    return capture


class Camera:
    """The camera at an index, as an iterator of its newest frames (blue-green-red).

    Use it as a context manager. A frame that nobody fetched in time is dropped. Iterating raises
    `CameraMissingError`, `CameraBusyError`, `CameraUnpluggedError` or `CameraFrozenError`.
    """

    def __init__(
        self,
        index: int,
        opener: Callable[[int], Capture] = open_v4l2,
        devices: Path = DEVICES,
        patience: float = PATIENCE,
    ) -> None:
        self._index = index
        self._opener = opener
        self._devices = devices
        self._patience = patience
        self._news = threading.Condition()
        self._newest: NDArray[np.uint8] | None = None
        self._fault: CameraError | None = None
        self._changed = 0.0
        self._closing = False
        self._thread = threading.Thread(target=self._watch, daemon=True, name=f"camera {index}")
        self.size: tuple[int, int] | None = None

    def __enter__(self) -> Self:
        if not self._device.exists():
            raise self._missing()
        self._changed = time.monotonic()
        self._thread.start()
        self._first()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Stop reading and give the camera back; a read that blocks is left to end by itself."""
        self._closing = True
        if self._thread.is_alive():
            self._thread.join(timeout=1.0)

    @property
    def small(self) -> bool:
        """Whether the frames are smaller than was asked for, so that labels must come closer."""
        return self.size is not None and (self.size[0] < WIDTH or self.size[1] < HEIGHT)

    def __iter__(self) -> Iterator[NDArray[np.uint8]]:
        while not self._closing:
            yield self._next()

    def _first(self) -> None:
        """Wait for the first frame, which alone shows that the camera works and its true size."""
        try:
            picture = self._next()
        except CameraError:
            self.close()
            raise
        with self._news:
            self._newest = picture
        self.size = (picture.shape[1], picture.shape[0])

    def _next(self) -> NDArray[np.uint8]:
        """Return the newest frame, waiting for it; raise the fault that keeps it away."""
        with self._news:
            while self._newest is None:
                if self._fault is not None:
                    raise self._fault
                left = self._changed + self._patience - time.monotonic()
                if left <= 0:
                    raise self._silent()
                self._news.wait(left)
            picture, self._newest = self._newest, None
            return picture

    def _watch(self) -> None:
        """Read until told to stop (the thread's whole life); keep the newest frame."""
        try:
            capture = self._opener(self._index)
            try:
                self._read_all(capture)
            finally:
                capture.release()
        except Exception as fault:  # noqa: BLE001  whatever the driver raises must reach the user
            self._end(CameraError(f"Camera {self._index} failed ({fault}): plug it in again."))

    def _read_all(self, capture: Capture) -> None:
        import numpy as np

        if not capture.isOpened():
            self._end(self._busy() if self._device.exists() else self._missing())
            return
        last: NDArray[np.uint8] | None = None
        while not self._closing:
            good, picture = capture.read()
            now = time.monotonic()
            if not good or picture is None:
                self._end(self._lost(started=last is not None))
                return
            if last is None or not np.array_equal(last, picture):
                self._changed = now
                self._show(picture)
            elif now - self._changed > self._patience:
                self._end(self._frozen())
                return
            last = picture

    def _show(self, picture: NDArray[np.uint8]) -> None:
        with self._news:
            self._newest = picture
            self._news.notify_all()

    def _end(self, fault: CameraError) -> None:
        with self._news:
            self._fault = fault
            self._news.notify_all()

    @property
    def _device(self) -> Path:
        return self._devices / f"video{self._index}"

    def _lost(self, *, started: bool) -> CameraError:
        """Return why a read gave nothing."""
        if not self._device.exists():
            return self._unplugged()
        return self._frozen() if started else self._busy()

    def _silent(self) -> CameraError:
        """Return why no frame came in time."""
        if not self._device.exists():
            return self._unplugged()
        return self._frozen()

    def _missing(self) -> CameraMissingError:
        others = [str(device.index) for device in list_cameras(self._devices)]
        there = f"there are cameras {', '.join(others)}" if others else "there is no camera at all"
        return CameraMissingError(
            f"There is no camera {self._index} ({there}): plug it in or name another."
        )

    def _busy(self) -> CameraBusyError:
        return CameraBusyError(
            f"Camera {self._index} is there but gives no picture, most likely because another"
            " program uses it: close that program, or name another camera."
        )

    def _unplugged(self) -> CameraUnpluggedError:
        return CameraUnpluggedError(
            f"Camera {self._index} was unplugged: plug it in again and start over."
        )

    def _frozen(self) -> CameraFrozenError:
        return CameraFrozenError(
            f"Camera {self._index} is frozen (no new picture for {self._patience:.0f} s):"
            " unplug it, plug it in again and start over."
        )
