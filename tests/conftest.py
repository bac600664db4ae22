"""What many tests need: the invented workshop in a database of its own, and the command line."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import settings

from tests.databases import QUICK, Databases, Files, Server

settings.register_profile("deterministic", derandomize=True, deadline=None)
settings.load_profile("deterministic")

KINDS_OF_DATABASE = ("sqlite", "postgresql")
EVERY = "every_database"
"""The mark of a module or a test whose shop is once in SQLite and once in PostgreSQL."""


def pytest_configure(config: pytest.Config) -> None:
    """Make the mark known."""
    config.addinivalue_line("markers", f"{EVERY}: run with the shop in each kind of database")


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Give a marked test its shop in each kind of database."""
    if "shop" in metafunc.fixturenames and metafunc.definition.get_closest_marker(EVERY):
        metafunc.parametrize("shop", KINDS_OF_DATABASE, indirect=True)


@dataclass(frozen=True)
class Shop:
    """The command line on one database."""

    database: Path
    """Its file; on PostgreSQL a file in the same folder that is not there."""
    url: str = ""
    """Its address on PostgreSQL."""

    @property
    def address(self) -> str:
        """Return the address that `--db` takes."""
        return self.url or str(self.database)

    def run(self, *words: str, typed: str = "") -> Result:
        """Return what a command did."""
        from partsbin.cli.main import main

        return CliRunner().invoke(main, ["--db", self.address, *words], input=typed)

    def told(self, *words: str) -> str:
        """Return what a command that must succeed printed."""
        result = self.run(*words)
        assert result.exit_code == 0, result.output
        return result.stdout

    def asked(self, *words: str) -> Any:
        """Return what a command that must succeed tells a script."""
        return json.loads(self.told(*words, "--json"))


@pytest.fixture(scope="session")
def files(tmp_path_factory: pytest.TempPathFactory) -> Databases:
    """Return what makes SQLite databases."""
    return Files(tmp_path_factory.mktemp("databases"))


@pytest.fixture(scope="session")
def postgresql() -> Iterator[Databases]:
    """Give what makes databases on a PostgreSQL server, which runs until the tests end."""
    with Server(QUICK) as server:
        yield server


@pytest.fixture(params=KINDS_OF_DATABASE)
def databases(request: pytest.FixtureRequest) -> Databases:
    """Return what makes databases, once of each kind."""
    return databases_of(request, request.param)


def databases_of(request: pytest.FixtureRequest, kind: str) -> Databases:
    """Return what makes databases of a kind; the server starts when it is first asked for."""
    made = request.getfixturevalue({"sqlite": "files", "postgresql": "postgresql"}[kind])
    assert isinstance(made, Databases)
    return made


@pytest.fixture
def shop(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Shop]:
    """Give the invented workshop in a database that the test may change."""
    from demo_db.loader import build

    kind = getattr(request, "param", "sqlite")
    databases = databases_of(request, kind)
    address = databases.copy_of("demo", build)
    if kind == "sqlite":
        yield Shop(Path(address))
    else:
        yield Shop(tmp_path / "workshop.db", address)
    databases.drop(address)


@pytest.fixture
def empty_shop(tmp_path: Path) -> Shop:
    """Return a workshop with nothing in it."""
    return Shop(tmp_path / "empty.db")


@pytest.fixture
def snapshot() -> Callable[[Shop], str]:
    """Return a function that tells all that a workshop's tables hold."""

    def told(shop: Shop) -> str:
        from sqlalchemy import select

        from partsbin.stock.database import open_database
        from partsbin.stock.models import Base

        with open_database(shop.address, "tester") as database, database.reading() as session:
            return "\n".join(
                f"{table.name} {row}"
                for table in Base.metadata.sorted_tables
                for row in session.execute(select(table).order_by(*table.primary_key))
            )

    return told
