"""What the README shows is what happens."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from tests.conftest import Shop

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text()
BLOCKS = re.findall(r"```sh\n(.*?)```", README, re.DOTALL)


def test_two_commands() -> None:
    """The first two blocks are the two commands, and CI calls the second."""
    assert BLOCKS[0] == "bash .ci/setup && .venv/bin/partsbin demo\n"
    assert BLOCKS[1] == "bash .ci/setup test && .venv/bin/python -m pytest\n"
    assert BLOCKS[1].strip() in (ROOT / ".ci/run").read_text()


def test_examples_run(shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every further example works, one after the other, on the invented workshop."""
    monkeypatch.chdir(tmp_path)
    lines = [line for block in BLOCKS[2:] for line in block.strip().splitlines()]
    assert len(lines) >= 10
    for line in lines:
        before, piped, command = line.rpartition(" | ")
        typed = shlex.split(before)[1] if piped else ""
        words = shlex.split(command)
        assert words[0] == "partsbin"
        result = shop.run(*words[1:], typed=typed)
        assert result.exit_code == 0, f"{line}\n{result.output}"
        assert result.stdout


def test_top_level_holds_nothing_else() -> None:
    """The top level is the README, the guide, the project file, the packages and the tests."""
    import subprocess

    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.splitlines()
    top = {name.split("/")[0] for name in listed}
    allowed = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "partsbin",
        "labels",
        "tests",
        "demo_db",
    }
    assert {name for name in top if not name.startswith(".")} == allowed
