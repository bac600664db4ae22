"""The walk through the whole job does the job."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path


def test_the_whole_job(tmp_path: Path) -> None:
    """A donor is stripped, all its labels are read from pictures, and a shifter is scanned on."""
    folder = tmp_path / "workshop"
    command = [sys.executable, "-m", "partsbin", "demo", "--folder", str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "All 28 labels were read." in done.stdout
    assert "-> Teasel, rear shifter (cost 1.07)" in done.stdout
    assert re.search(r"parts from the bins \(1\) +1\.07", done.stdout)
    assert "everything adds up" in done.stdout
    assert {path.name for path in folder.iterdir()} >= {
        "workshop.db",
        "labels.pdf",
        "sheet-1.jpg",
        "sheet-2.jpg",
        "shifter.pdf",
        "shifter.jpg",
    }


def test_a_folder_in_use_is_refused(tmp_path: Path) -> None:
    """The demo builds nothing in a folder that holds something."""
    (tmp_path / "mine.txt").write_text("mine")
    command = [sys.executable, "-m", "partsbin", "demo", "--folder", str(tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert "is not empty" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]
