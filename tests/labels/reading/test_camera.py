"""Cameras and their faults, each told by its own name; no real camera is needed."""

import threading
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from labels.reading.camera import Camera, list_cameras
from labels.reading.errors import (
    CameraBusyError,
    CameraError,
    CameraFrozenError,
    CameraMissingError,
    CameraUnpluggedError,
)

Picture = NDArray[np.uint8]


class FakeCapture:
    """A capture that gives what `script` says for each read, counted from 0."""

    def __init__(self, script: Callable[[int], Picture | None], *, opened: bool = True) -> None:
        self.script = script
        self.opened = opened
        self.released = threading.Event()
        self.given = 0

    def isOpened(self) -> bool:  # noqa: N802  OpenCV's name
        """Say whether opening worked."""
        return self.opened

    def read(self) -> tuple[bool, Picture | None]:
        """Give the next picture after a moment, as a camera does."""
        time.sleep(0.002)
        picture = self.script(self.given)
        self.given += 1
        return picture is not None, picture

    def set(self, prop: int, value: float, /) -> bool:
        """Accept any property."""
        return bool(prop or value)

    def release(self) -> None:
        """Note that the camera was given back."""
        self.released.set()


def shade(count: int, size: tuple[int, int] = (720, 1280)) -> Picture:
    """Return a picture that differs from the one before."""
    return np.full((*size, 3), count % 256, np.uint8)


@pytest.fixture
def devices(tmp_path: Path) -> Path:
    """Return a device folder with camera 0 in it."""
    (tmp_path / "video0").touch()
    return tmp_path


def camera(devices: Path, capture: FakeCapture, patience: float = 10) -> Camera:
    """Return camera 0 of the folder, which reads from the capture."""
    return Camera(0, opener=lambda _: capture, devices=devices, patience=patience)


def test_the_newest_frame_is_given(devices: Path) -> None:
    """Frames that came while nobody looked are dropped."""
    capture = FakeCapture(shade)
    with camera(devices, capture) as opened:
        frames = iter(opened)
        next(frames)
        before = capture.given
        while capture.given < before + 20:
            time.sleep(0.001)
        newest = int(next(frames)[0, 0, 0])

    assert newest >= before + 18
    assert capture.released.wait(1)


def test_the_size_is_that_of_a_real_frame(devices: Path) -> None:
    """A camera that answers a wish for 1280x720 with 640x480 is found out by its frames."""
    with camera(devices, FakeCapture(lambda count: shade(count, (480, 640)))) as opened:
        assert opened.size == (640, 480)
        assert opened.small
    with camera(devices, FakeCapture(shade)) as opened:
        assert not opened.small


def test_a_missing_camera_names_those_that_exist(devices: Path) -> None:
    """The index is wrong: the right ones are said."""
    with (
        pytest.raises(CameraMissingError, match=r"no camera 3 \(there are cameras 0\)"),
        Camera(3, opener=lambda _: FakeCapture(shade), devices=devices),
    ):
        pass


def test_no_camera_at_all(tmp_path: Path) -> None:
    """Nothing is plugged in."""
    with (
        pytest.raises(CameraMissingError, match="there is no camera at all"),
        Camera(0, opener=lambda _: FakeCapture(shade), devices=tmp_path),
    ):
        pass


def test_the_real_opener_finds_no_camera_here(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    """OpenCV's own failure to open becomes our sentence, with nothing else on the terminal."""
    (tmp_path / "video63").touch()

    with pytest.raises(CameraBusyError), Camera(63, devices=tmp_path):
        pass
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize(
    "capture",
    [FakeCapture(shade, opened=False), FakeCapture(lambda _: None)],
    ids=["does not open", "gives nothing"],
)
def test_a_busy_camera_is_said(devices: Path, capture: FakeCapture) -> None:
    """The device is there, but no picture ever comes: another program holds it."""
    with (
        pytest.raises(CameraBusyError, match="another program uses it"),
        camera(devices, capture),
    ):
        pass


def test_an_unplugged_camera_is_said(devices: Path) -> None:
    """Pictures came, then the device file went away with the plug."""

    def script(count: int) -> Picture | None:
        if count < 3:
            return shade(count)
        (devices / "video0").unlink(missing_ok=True)
        return None

    with (
        camera(devices, FakeCapture(script)) as opened,
        pytest.raises(CameraUnpluggedError, match="was unplugged: plug it in again"),
    ):
        list(opened)


def test_an_unplugged_camera_that_blocks_is_said(devices: Path) -> None:
    """A read that hangs after unplugging does not hang the user."""
    never = threading.Event()

    def script(count: int) -> Picture | None:
        if count >= 3:
            (devices / "video0").unlink(missing_ok=True)
            never.wait(3)
            return None
        return shade(count)

    with (
        camera(devices, FakeCapture(script), patience=1) as opened,
        pytest.raises(CameraUnpluggedError),
    ):
        list(opened)
    never.set()


@pytest.mark.parametrize(
    "script",
    [lambda count: shade(min(count, 3)), lambda count: shade(count) if count < 3 else None],
    ids=["one picture for ever", "no more pictures"],
)
def test_a_frozen_camera_is_said(devices: Path, script: Callable[[int], Picture | None]) -> None:
    """The same picture again and again (a real sensor is never that still), or no more of them."""
    with (
        camera(devices, FakeCapture(script), patience=1) as opened,
        pytest.raises(CameraFrozenError, match="is frozen"),
    ):
        list(opened)


def test_a_camera_that_never_answers_is_said(devices: Path) -> None:
    """A read that hangs from the start is said after the patience."""
    never = threading.Event()

    def script(_: int) -> Picture | None:
        never.wait(1.5)
        return None

    with pytest.raises(CameraFrozenError), camera(devices, FakeCapture(script), patience=0.2):
        pass
    never.set()


def test_what_the_driver_raises_is_said(devices: Path) -> None:
    """An exception in the reading thread reaches the user as a camera error."""

    def script(_: int) -> Picture | None:
        message = "select timeout"
        raise OSError(message)

    with (
        pytest.raises(CameraError, match=r"Camera 0 failed \(select timeout\): plug it in again"),
        camera(devices, FakeCapture(script)),
    ):
        pass


def test_cameras_are_listed_with_their_names(tmp_path: Path) -> None:
    """`video10` comes after `video2`; a device without a name is listed too."""
    names = tmp_path / "names"
    for index in (10, 2):
        (tmp_path / f"video{index}").touch()
    (tmp_path / "video").touch()
    (names / "video2").mkdir(parents=True)
    (names / "video2" / "name").write_text("Bench camera\n")

    listed = list_cameras(tmp_path, names)

    assert [(device.index, device.name) for device in listed] == [
        (2, "Bench camera"),
        (10, "unnamed"),
    ]
