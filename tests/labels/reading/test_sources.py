"""Pictures, folders, videos and typed lines as sources of labels."""

import io
import subprocess
import sys
from pathlib import Path

import cv2
import numpy as np
import pytest
from PIL import Image

from labels.number import Thing, make
from labels.reading.errors import PictureError
from labels.reading.reader import Reader
from labels.reading.sources import keys, pictures, video
from tests.labels.reading.label_faces import draw


def blank(path: Path, shade: int = 255) -> Path:
    """Write a plain picture."""
    Image.new("L", (16, 12), shade).save(path)
    return path


def test_a_folder_gives_its_pictures_in_the_order_people_count(tmp_path: Path) -> None:
    """frame2 comes before frame10, and files that are no pictures are left out."""
    for name in ("frame10.png", "frame2.png", "frame1.JPG"):
        blank(tmp_path / name)
    (tmp_path / "notes.txt").write_text("no picture")

    with pictures([tmp_path]) as frames:
        names = [Path(frame.name).name for frame in frames]

    assert names == ["frame1.JPG", "frame2.png", "frame10.png"]


def test_pictures_are_stills(tmp_path: Path) -> None:
    """A picture gets all passes, since no other of the same scene comes after it."""
    with pictures([blank(tmp_path / "one.png")]) as frames:
        assert [frame.live for frame in frames] == [False]


def test_an_empty_folder_is_said(tmp_path: Path) -> None:
    """A folder without pictures is a mistake of the name, not an empty answer."""
    with pictures([tmp_path]) as frames, pytest.raises(PictureError, match="has no pictures in it"):
        list(frames)


def test_a_video_file_stands_in_for_a_camera(tmp_path: Path) -> None:
    """Every frame of a video comes as a live frame, and the label in it is read."""
    number = make(Thing.PART, 31)
    face = np.pad(draw(number).reflectance, 100, constant_values=0.6)
    picture = cv2.resize((face * 255).astype(np.uint8), (720, 320), interpolation=cv2.INTER_AREA)
    path = tmp_path / "bench.avi"
    writer = cv2.VideoWriter(str(path), cv2.VideoWriter.fourcc(*"MJPG"), 10, (720, 320))
    for _ in range(3):
        writer.write(cv2.cvtColor(picture, cv2.COLOR_GRAY2BGR))
    writer.release()

    with Reader() as reader, video(path) as frames:
        found = [(frame.live, [item.number for item in reader.read(frame)]) for frame in frames]

    assert found == [(True, [number])] * 3


@pytest.mark.parametrize(
    ("name", "said"),
    [("broken.mp4", "is not a video that can be opened"), ("gone.mp4", "There is no video file")],
)
def test_a_video_that_is_none_is_said(tmp_path: Path, name: str, said: str) -> None:
    """A broken or missing video is one sentence; OpenCV and FFmpeg add nothing of their own."""
    (tmp_path / "broken.mp4").write_bytes(b"not a video")
    code = (
        "import sys\n"
        "from labels.reading.sources import PictureError, video\n"
        "try:\n"
        "    with video(sys.argv[1]): pass\n"
        "except PictureError as error: print(error)\n"
    )
    command = [sys.executable, "-c", code, str(tmp_path / name)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)

    assert done.stdout.count("\n") == 1
    assert said in done.stdout
    assert done.stderr == ""


@pytest.mark.parametrize(
    ("typed", "lines"),
    [
        ("20012362\n10000171\n", ["20012362", "10000171"]),
        ("20012362\r\n", ["20012362"]),
        ("  2001 2362\t\n\n \n", ["2001 2362"]),
        ("20012362", ["20012362"]),
        ("\x0220012362\x03\n", ["20012362"]),
        ("", []),
    ],
    ids=["two", "windows", "blanks", "no newline", "control marks", "nothing"],
)
def test_lines_of_a_wedge_scanner(typed: str, lines: list[str]) -> None:
    """Each scan is a line; what scanners add round the digits is taken off."""
    assert list(keys(io.StringIO(typed))) == lines


def test_lines_come_as_they_are_typed() -> None:
    """A line is given at once, not when the stream ends."""

    class Scanner(io.StringIO):
        reads = 0

        def readline(self, *args: int) -> str:  # type: ignore[override]  # size is all it takes
            self.reads += 1
            return super().readline(*args)

    scanner = Scanner("20012362\n10000171\n")

    assert next(keys(scanner)) == "20012362"
    assert scanner.reads == 1
