"""Bad input: one clear sentence on standard error, exit 1 or 2, no traceback, nothing changed."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from labels.number import Thing, make
from tests.conftest import Shop

pytestmark = pytest.mark.every_database

REFUSED = {
    "unknown command": (("fitt",), 2, "did you mean 'fit'?"),
    "dashes only": (("--", "--"), 2, "No such command"),
    "unknown kind": (("part", "add", "seatpst", "--bin", "A1"), 2, "did you mean 'seatpost'?"),
    "unknown attribute": (
        ("part", "add", "seatpost", "diametr=27.2", "--bin", "D1"),
        2,
        "did you mean 'diameter_mm'?",
    ),
    "unknown unit": (
        ("part", "add", "seatpost", "diameter=27.2 furlong", "--bin", "D1"),
        2,
        "unit",
    ),
    "value out of range": (("part", "add", "seatpost", "diameter=272", "--bin", "D1"), 2, "272"),
    "no attribute": (("part", "add", "seatpost", "27.2", "--bin", "D1"), 2, "speeds=8"),
    "unknown bin": (("part", "add", "saddle", "--bin", "Z9"), 1, "'Z9'"),
    "nowhere to put": (("part", "add", "saddle"), 2, "--bin"),
    "unknown bike": (("fit", "Teazel", "saddle"), 1, "did you mean 'Teasel'?"),
    "unknown slot": (("fit", "Teasel", "sadle"), 2, "did you mean 'saddle'?"),
    "one digit wrong": (("part", "show", "20000141"), 2, "check digits"),
    "too few digits": (("part", "show", "2000014"), 2, "digits"),
    "number of a bin": (("part", "show", "10000119"), 2, "bin"),
    "number that nothing has": (("part", "show", make(Thing.PART, 9995)), 1, "no part"),
    "money": (("part", "add", "saddle", "--bin", "D1", "--cost", "ten"), 2, "12.50"),
    "grade": (("part", "add", "saddle", "--bin", "D1", "--grade", "fine"), 2, "fine"),
    "quantity": (("part", "add", "grips", "--bin", "D2", "--quantity", "-3"), 2, "-3"),
    "bin name in use": (("bin", "add", "a1"), 1, "already"),
    "bike name in use": (("bike", "add", "teasel"), 1, "already"),
    "slot is filled": (("mount", "20000140", "Teasel", "rear shifter"), 1, "take that off first"),
    "empty slot": (("unmount", "Yarrow", "saddle", "D1"), 1, "empty"),
    "kind that does not go there": (("mount", "20000140", "Teasel", "saddle"), 2, "saddle"),
    "nothing to label": (("label",), 2, "-o"),
    "unknown stock": (("label", "A1", "-o", "x.pdf", "--stock", "a5"), 2, "a5"),
    "start beyond the sheet": (("label", "A1", "-o", "x.pdf", "--start", "99"), 2, "99"),
    "nothing to scan": (("scan",), 2, "--camera"),
    "missing camera": (("scan", "--camera", "7"), 1, "camera 7"),
    "missing picture": (("scan", "none.jpg"), 1, "none.jpg"),
    "condition beyond all numbers": (("find", "shifter", "speeds>=1e40"), 2, "larger"),
    "length beyond all numbers": (("find", "seatpost", "diameter<=1e40 m"), 2, "1e40"),
    "more than can be listed": (("find", "shifter", "--most", "9" * 40), 2, "--most"),
    "condition of an unknown attribute": (("find", "shifter", "spedes=8"), 2, "speeds"),
}


@pytest.mark.parametrize(("words", "code", "told"), REFUSED.values(), ids=REFUSED)
def test_refusal(
    shop: Shop,
    snapshot: Callable[[Shop], str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    words: tuple[str, ...],
    code: int,
    told: str,
) -> None:
    """What is wrong is said on standard error with its exit code, and nothing is changed."""
    monkeypatch.chdir(tmp_path)
    before = snapshot(shop)
    result = shop.run(*words)
    assert result.exit_code == code, result.output
    assert told in result.stderr
    assert "Traceback" not in result.output
    assert result.stdout == ""
    assert snapshot(shop) == before


def run(*words: str) -> subprocess.CompletedProcess[str]:
    """Return what the installed program did."""
    command = [sys.executable, "-m", "partsbin", *words]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_file_that_is_no_database(tmp_path: Path) -> None:
    """A file that is something else is named, and left as it was."""
    file = tmp_path / "notes.txt"
    file.write_text("milk, bread, brake cable\n" * 200)
    done = run("--db", str(file), "bin", "list")
    assert done.returncode == 1
    assert "is not a database" in done.stderr
    assert "Traceback" not in done.stderr
    assert file.read_text() == "milk, bread, brake cable\n" * 200


@pytest.mark.parametrize("words", [("part", "add", "bell", "--bin", "A1", "--note"), ("find",)])
def test_bytes_that_are_no_text(shop: Shop, words: tuple[str, ...]) -> None:
    """Bytes that are no text in any encoding that the terminal knows are refused in a sentence."""
    done = run("--db", shop.address, *words, "\udcff")
    assert done.returncode == 2
    assert "no text" in done.stderr
    assert "Traceback" not in done.stderr


def test_disk_that_is_full() -> None:
    """No room for the database is one sentence."""
    done = run("--db", "/dev/full", "bin", "add", "A1")
    assert done.returncode in (1, 2)
    assert len(done.stderr.strip().splitlines()) == 1
    assert "Traceback" not in done.stderr


def test_picture_without_a_label(shop: Shop, tmp_path: Path) -> None:
    """A picture in which nothing is read is said, and the command fails."""
    from PIL import Image

    picture = tmp_path / "wall.png"
    Image.new("L", (640, 480), 128).save(picture)
    result = shop.run("scan", str(picture))
    assert result.exit_code == 1
    assert "no label was found" in result.stderr


def test_file_that_is_no_picture(shop: Shop, tmp_path: Path) -> None:
    """A file that is no picture is said by name."""
    file = tmp_path / "list.jpg"
    file.write_text("not a picture")
    result = shop.run("scan", str(file))
    assert result.exit_code == 1
    assert "list.jpg" in result.stderr
    assert "Traceback" not in result.output
