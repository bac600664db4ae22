"""A fresh database for each test, in SQLite and in PostgreSQL."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from partsbin.stock.database import Database, open_database
from tests.databases import Databases


def make(address: str) -> None:
    """Make the schema in an empty database."""
    open_database(address, "tester").close()


@pytest.fixture
def file(tmp_path: Path) -> str:
    """Return the name of an SQLite file that does not exist yet."""
    return str(tmp_path / "record.db")


@pytest.fixture
def new_address(databases: Databases) -> Iterator[str]:
    """Give the address of a database in which nothing is yet."""
    address = databases.new()
    yield address
    databases.drop(address)


@pytest.fixture
def address(databases: Databases) -> Iterator[str]:
    """Give the address of a fresh database."""
    address = databases.copy_of("schema", make)
    yield address
    databases.drop(address)


@pytest.fixture
def database(address: str) -> Iterator[Database]:
    """Give a fresh database."""
    with open_database(address, "tester") as opened:
        yield opened


@pytest.fixture
def sqlite(files: Databases, file: str) -> Iterator[Database]:
    """Give a fresh SQLite database, for what is only true of SQLite."""
    shutil.copy(files.copy_of("schema", make), file)
    with open_database(file, "tester") as opened:
        yield opened
