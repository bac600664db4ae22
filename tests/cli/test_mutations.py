"""Wrong files and wrong commands are refused in words, and nothing of them stays."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.conftest import Shop
from tests.fuzzing import try_commands, try_files

FILES = 150
COMMANDS = 150


def test_mutated_files(shop: Shop, tmp_path: Path) -> None:
    """Mutated CSV files are taken in whole or refused whole, and the record proves right."""
    counts = try_files(shop, tmp_path, FILES)

    assert sum(counts.values()) == FILES
    assert min(counts.values()) > FILES // 20


def test_mutated_commands(shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Mutated commands end with a sentence, and what they refuse has changed nothing."""
    monkeypatch.chdir(tmp_path)
    codes = try_commands(shop, COMMANDS)

    assert sum(codes.values()) == COMMANDS
    assert min(codes.values()) > COMMANDS // 20
