"""A fresh database for each test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from partsbin.stock.database import Database, open_database


@pytest.fixture
def file(tmp_path: Path) -> str:
    """Return the name of an SQLite file that does not exist yet."""
    return str(tmp_path / "record.db")


@pytest.fixture
def address(file: str) -> str:
    """Return the address of a database that does not exist yet."""
    return file


@pytest.fixture
def database(address: str) -> Iterator[Database]:
    """Give a fresh database."""
    with open_database(address, "tester") as opened:
        yield opened


@pytest.fixture
def sqlite(file: str) -> Iterator[Database]:
    """Give a fresh SQLite database, for what is only true of SQLite."""
    with open_database(file, "tester") as opened:
        yield opened
