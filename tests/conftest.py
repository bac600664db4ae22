"""What many tests need: the invented workshop in a database of its own, and the command line."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import settings

settings.register_profile("deterministic", derandomize=True, deadline=None)
settings.load_profile("deterministic")


@dataclass(frozen=True)
class Shop:
    """The command line on one database."""

    database: Path

    def run(self, *words: str, typed: str = "") -> Result:
        """Return what a command did."""
        from partsbin.cli.main import main

        return CliRunner().invoke(main, ["--db", str(self.database), *words], input=typed)

    def told(self, *words: str) -> str:
        """Return what a command that must succeed printed."""
        result = self.run(*words)
        assert result.exit_code == 0, result.output
        return result.stdout

    def asked(self, *words: str) -> Any:
        """Return what a command that must succeed tells a script."""
        return json.loads(self.told(*words, "--json"))


@pytest.fixture(scope="session")
def demo_database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a database with the invented workshop, not to be changed."""
    from demo_db.loader import build

    database = tmp_path_factory.mktemp("demo") / "workshop.db"
    build(database)
    return database


@pytest.fixture
def shop(demo_database: Path, tmp_path: Path) -> Shop:
    """Return the invented workshop in a database that the test may change."""
    database = tmp_path / "workshop.db"
    shutil.copy(demo_database, database)
    return Shop(database)


@pytest.fixture
def empty_shop(tmp_path: Path) -> Shop:
    """Return a workshop with nothing in it."""
    return Shop(tmp_path / "empty.db")


@pytest.fixture
def snapshot() -> Callable[[Shop], str]:
    """Return a function that tells all that a workshop's tables hold."""

    def told(shop: Shop) -> str:
        import sqlite3

        with sqlite3.connect(shop.database) as connection:
            return "\n".join(connection.iterdump())

    return told
