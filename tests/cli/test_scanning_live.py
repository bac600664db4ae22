"""Cameras, videos and folders that stand in for one: what acts, what asks, how it ends."""

from __future__ import annotations

import json
import os
import pty
import signal
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import partial
from pathlib import Path
from typing import Any, Self

import cv2
import numpy as np
import pytest
from numpy.typing import NDArray

from labels.number import LabelNumber, Thing, grouped, make
from labels.reading import sources
from labels.reading.camera import Camera
from labels.reading.look import Decoder, Look, Reading, Symbol
from labels.reading.reader import Reader
from labels.reading.sources import Frame
from tests.conftest import Shop

Picture = NDArray[np.uint8]
WIDE, HIGH = 1280, 720


def number_of(shop: Shop, *terms: str) -> str:
    """Return the number of the first part that a search finds."""
    return str(shop.asked("find", *terms)["parts"][0]["number"])


def label_picture(shop: Shop, folder: Path, thing: str) -> Picture:
    """Return a label as it is printed, about 4 pixels a module."""
    shop.told(
        *("label", thing, "-o", str(folder / "one.pdf"), "--stock", "roll-57x32", "--dpi", "203.2"),
        *("--preview", str(folder / "one.png")),
    )
    picture = cv2.imread(str(folder / "one.png"), cv2.IMREAD_COLOR)
    assert picture is not None
    return np.asarray(cv2.resize(picture, None, fx=1.3, fy=1.3), np.uint8)


def scene(*labels: Picture, at: int = 0) -> Picture:
    """Return a frame of a grey bench with labels side by side, a little further every time."""
    frame = np.full((HIGH, WIDE, 3), 120, np.uint8)
    for place, label in enumerate(labels):
        left, top = 40 + place * (label.shape[1] + 80) + at % 40, 100 + at % 40
        frame[top : top + label.shape[0], left : left + label.shape[1]] = label
    return frame


def write_video(path: Path, frames: Sequence[Picture]) -> str:
    """Write a video and return its name."""
    writer = cv2.VideoWriter(str(path), cv2.VideoWriter.fourcc(*"mp4v"), 15, (WIDE, HIGH))
    assert writer.isOpened()
    for frame in frames:
        writer.write(frame)
    writer.release()
    return str(path)


@pytest.fixture
def bell(shop: Shop, tmp_path: Path) -> tuple[str, Picture]:
    """Return the number of a bell, and its label."""
    number = number_of(shop, "bell")
    return number, label_picture(shop, tmp_path, number)


@pytest.fixture
def saddle(shop: Shop, tmp_path: Path) -> tuple[str, Picture]:
    """Return the number of a saddle, and its label."""
    number = number_of(shop, "saddle")
    return number, label_picture(shop, tmp_path, number)


@pytest.mark.every_database
def test_a_video_acts_once_for_each_label(
    shop: Shop, tmp_path: Path, bell: tuple[str, Picture], saddle: tuple[str, Picture]
) -> None:
    """A label that stays in view acts once; the next one acts when the first has gone."""
    frames = [scene(bell[1], at=n) for n in range(12)] + [scene()] * 10
    frames += [scene(saddle[1], at=n) for n in range(12)]
    video = write_video(tmp_path / "two.mp4", frames)
    result = shop.run("scan", video, "--into", "B1", "--json")
    assert result.exit_code == 0, result.output
    told = [json.loads(line) for line in result.stdout.splitlines()]
    assert [(one["part"], one["to"]) for one in told] == [
        (bell[0], "bin B1"),
        (saddle[0], "bin B1"),
    ]


def test_two_labels_in_view_act_on_neither(
    shop: Shop,
    tmp_path: Path,
    snapshot: Callable[[Shop], str],
    bell: tuple[str, Picture],
    saddle: tuple[str, Picture],
) -> None:
    """Where nobody can be asked, two labels in view are refused until one is shown alone."""
    video = write_video(tmp_path / "v.mp4", [scene(bell[1], saddle[1], at=n) for n in range(15)])
    before = snapshot(shop)
    result = shop.run("scan", "--camera", video, "--into", "B1")
    assert result.exit_code == 1
    assert "show one alone" in result.stderr
    assert grouped(LabelNumber(bell[0])) in result.stderr
    assert result.stdout == ""
    assert snapshot(shop) == before


def test_two_labels_in_view_are_both_looked_up(
    shop: Shop, tmp_path: Path, bell: tuple[str, Picture], saddle: tuple[str, Picture]
) -> None:
    """Looking up harms nothing, so both labels are told and nobody is asked."""
    video = write_video(tmp_path / "v.mp4", [scene(bell[1], saddle[1], at=n) for n in range(15)])
    result = shop.run("scan", video, "--json")
    assert result.exit_code == 0, result.output
    assert {json.loads(line)["number"] for line in result.stdout.splitlines()} == {
        bell[0],
        saddle[0],
    }


def test_a_number_that_nothing_has(
    shop: Shop, tmp_path: Path, snapshot: Callable[[Shop], str]
) -> None:
    """A label of another workshop reads well, is told not to be in the record, and does nothing."""
    from labels.label import Label
    from labels.printer import Printer
    from labels.sheet import preview_png, write_pdf
    from labels.stock import load

    stranger = Label(number=make(Thing.PART, 9_998), title="saddle")
    write_pdf([stranger], load("roll-57x32"), Printer(dpi="203.2"), tmp_path / "s.pdf")
    preview_png(tmp_path / "s.pdf", tmp_path / "s.png", dpi=200)
    label = cv2.imread(str(tmp_path / "s.png"), cv2.IMREAD_COLOR)
    assert label is not None
    picture = np.asarray(label, np.uint8)
    video = write_video(tmp_path / "v.avi", [scene(picture, at=n) for n in range(10)])
    before = snapshot(shop)
    result = shop.run("scan", video, "--into", "B1", "--json")
    assert result.exit_code == 1
    told = [json.loads(line) for line in result.stdout.splitlines()]
    assert [one["number"] for one in told] == [stranger.number]
    assert "is not in the record" in told[0]["refused"]
    assert snapshot(shop) == before


def test_a_folder_stands_in_for_a_camera(
    shop: Shop, tmp_path: Path, bell: tuple[str, Picture]
) -> None:
    """Pictures of a folder are frames of one scene: the label in all of them acts once."""
    folder = tmp_path / "frames"
    folder.mkdir()
    for count in range(4):
        cv2.imwrite(str(folder / f"frame{count}.jpg"), scene(bell[1], at=count))
    result = shop.run("scan", "--camera", str(folder), "--into", "B1", "--json")
    assert result.exit_code == 0, result.output
    assert [json.loads(line)["part"] for line in result.stdout.splitlines()] == [bell[0]]


def test_no_video(shop: Shop, tmp_path: Path) -> None:
    """A video that is missing or is none is one sentence."""
    assert "There is no video file" in shop.run("scan", str(tmp_path / "none.mp4")).stderr
    (tmp_path / "text.mp4").write_text("not a video")
    result = shop.run("scan", str(tmp_path / "text.mp4"))
    assert result.exit_code == 1
    assert "is not a video" in result.stderr


class FakeCapture:
    """A camera of so many frames; then its device file is gone, as when it is unplugged."""

    def __init__(self, frames: Sequence[Picture], device: Path) -> None:
        self.frames = list(frames)
        self.device = device

    def isOpened(self) -> bool:  # noqa: N802 - OpenCV's name
        """Say that opening worked."""
        return True

    def read(self) -> tuple[bool, Any]:
        """Give the next frame at a camera's pace, later nothing."""
        time.sleep(0.05)
        if self.frames:
            return True, self.frames.pop(0)
        self.device.unlink(missing_ok=True)
        return False, None

    def set(self, prop: int, value: float, /) -> bool:
        """Accept any property."""
        return bool(prop or value)

    def release(self) -> None:
        """Be given back."""


def plug_in(monkeypatch: pytest.MonkeyPatch, folder: Path, frames: Sequence[Picture]) -> None:
    """Make camera 0 give these frames and then be unplugged."""
    device = folder / "video0"
    device.touch()
    capture = FakeCapture(frames, device)
    fake = partial(Camera, opener=lambda _: capture, devices=folder)
    monkeypatch.setattr(sources, "Camera", fake)


def test_a_camera_acts_and_is_unplugged(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, bell: tuple[str, Picture]
) -> None:
    """What was done before the camera was unplugged stays done; the end is one sentence."""
    plug_in(monkeypatch, tmp_path, [scene(bell[1], at=n) for n in range(30)])
    result = shop.run("scan", "--camera", "0", "--into", "B1")
    assert result.exit_code == 1
    assert "Camera 0 was unplugged" in result.stderr
    assert "-> bin B1" in result.stdout
    assert "pixels" not in result.stderr


def test_a_small_camera_is_told(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A camera that gives less than was asked for is said to, from a real frame."""
    shades = [np.full((480, 640, 3), shade, np.uint8) for shade in range(6)]
    plug_in(monkeypatch, tmp_path, shades)
    result = shop.run("scan", "--camera", "0")
    assert result.exit_code == 1
    assert "only 640 x 480 pixels" in result.stderr


def test_ctrl_c_at_a_camera(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, bell: tuple[str, Picture]
) -> None:
    """Ctrl-C ends with the exit code that shells have for it, and what was done stays done."""

    @contextmanager
    def interrupted(_: int) -> Iterator[Iterator[Frame]]:
        def frames() -> Iterator[Frame]:
            for count in range(6):
                grey = np.asarray(cv2.cvtColor(scene(bell[1], at=count), cv2.COLOR_BGR2GRAY))
                yield Frame(grey.astype(np.uint8), "camera", live=True)
            raise KeyboardInterrupt

        yield frames()

    monkeypatch.setattr(sources, "camera", interrupted)
    result = shop.run("scan", "--camera", "0", "--into", "B1", "--json")
    assert result.exit_code == 130
    assert json.loads(result.stdout)["part"] == bell[0]
    assert "stopped" in result.stderr


def test_one_look_does_not_act(
    shop: Shop,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    snapshot: Callable[[Shop], str],
    bell: tuple[str, Picture],
) -> None:
    """In a picture, one symbol seen by one decoder is shown, but does nothing."""
    corners = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
    look = Look(LabelNumber(bell[0]), corners, Symbol.QR, Decoder.ZXING, "once")
    reading = Reading(look.number, corners, (look,))
    monkeypatch.setattr(Reader, "read", lambda *_: [reading])
    cv2.imwrite(str(tmp_path / "one.jpg"), scene(bell[1]))
    before = snapshot(shop)
    result = shop.run("scan", str(tmp_path / "one.jpg"), "--into", "B1")
    assert result.exit_code == 1
    assert "was seen only once" in result.stderr
    assert snapshot(shop) == before
    assert shop.asked("scan", str(tmp_path / "one.jpg"))["read"][0]["number"] == bell[0]


class Terminal:
    """The program on a terminal of its own."""

    def __init__(self, *words: str) -> None:
        self.end, self.screen = pty.openpty()
        self.before = termios.tcgetattr(self.screen)
        self.process = subprocess.Popen(
            [sys.executable, "-m", "partsbin", *words],
            stdin=self.screen,
            stdout=self.screen,
            stderr=self.screen,
            # Whoever runs the tests in the background has Ctrl-C switched off for all below.
            preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509
        )
        self.shown = ""

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        os.close(self.end)
        os.close(self.screen)

    def wait_for(self, text: str) -> None:
        """Read until the text has been shown."""
        while text not in self.shown:
            assert self.process.poll() is None, self.shown
            self.shown += os.read(self.end, 4096).decode(errors="replace")

    def type(self, text: str) -> None:
        """Type on the keyboard."""
        os.write(self.end, text.encode())

    def interrupt(self) -> int:
        """Press Ctrl-C, again if it came just before the program began to wait for a key."""
        for _ in range(12):
            if self.process.poll() is not None:
                break
            self.process.send_signal(signal.SIGINT)
            with suppress(subprocess.TimeoutExpired):
                self.process.wait(timeout=5)
        return self.finish()

    def finish(self) -> int:
        """Return the exit code; what was shown by then is in `shown`."""
        code = self.process.wait(timeout=60)
        os.set_blocking(self.end, False)
        try:
            while more := os.read(self.end, 4096):
                self.shown += more.decode(errors="replace")
        except BlockingIOError:
            pass
        return code


@pytest.fixture
def both(
    shop: Shop, tmp_path: Path, bell: tuple[str, Picture], saddle: tuple[str, Picture]
) -> tuple[str, ...]:
    """Return the words of a command that sees two labels at once."""
    video = write_video(tmp_path / "v.mp4", [scene(bell[1], saddle[1], at=n) for n in range(15)])
    return ("--db", shop.address, "scan", "--camera", video, "--into", "B1")


def test_on_a_terminal_it_is_asked_which(
    both: tuple[str, ...], bell: tuple[str, Picture], saddle: tuple[str, Picture]
) -> None:
    """Of two labels in view the one whose digit is typed is acted on, with one bell."""
    first, second = (grouped(LabelNumber(number)) for number in sorted((bell[0], saddle[0])))
    with Terminal(*both) as terminal:
        terminal.wait_for("which one")
        terminal.type("2\n")
        code = terminal.finish()
    assert code == 0, terminal.shown
    asked, answered = terminal.shown.split("which one")
    assert f"1  {first}" in asked
    assert f"2  {second}" in asked
    assert f"{second}  saddle" in answered or f"{second}  bell" in answered
    assert "-> bin B1" in answered
    assert terminal.shown.count("\a") == 1


def test_ctrl_c_leaves_the_terminal_clean(both: tuple[str, ...]) -> None:
    """Ctrl-C at the question ends with its exit code, a whole line, and the terminal as it was."""
    with Terminal(*both) as terminal:
        terminal.wait_for("which one")
        code = terminal.interrupt()
        after = termios.tcgetattr(terminal.screen)
    assert code == 130
    assert terminal.shown.endswith("stopped\r\n")
    assert after == terminal.before
    assert "Traceback" not in terminal.shown


def test_two_bells_for_a_refusal(shop: Shop) -> None:
    """At a keyboard scanner, a refusal rings twice and what is done rings once."""
    number = number_of(shop, "bell")
    with Terminal("--db", shop.address, "scan", "--keys", "--into", "B1") as terminal:
        terminal.type(f"{number}\n")
        terminal.wait_for("-> bin B1")
        terminal.type("1234\n")
        terminal.wait_for("digits")
        terminal.type("\x04")
        code = terminal.finish()
    assert code == 1
    assert terminal.shown.count("\a") == 3
    assert "refused: 1 of 2" in terminal.shown
