from __future__ import annotations

import re
from pathlib import Path

import pytest
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine, text

from partsbin.stock import schema
from partsbin.stock.database import Database
from partsbin.stock.ids import CLEARING, QUARANTINE, SCRAPPED, SOLD, SUPPLIER
from partsbin.stock.models import Base, Place

SCHEMA = (
    "SELECT type, name, sql FROM sqlite_master "
    "WHERE sql IS NOT NULL AND type <> 'trigger' AND name NOT LIKE 'alembic%'"
)


def _normal(sql: str) -> list[str]:
    """Return the parts of a statement in a fixed order: that of the constraints has no meaning."""
    return sorted(re.sub(r"\s+", " ", line).strip(" ,") for line in sql.splitlines())


def test_the_migrations_make_what_the_models_say(sqlite: Database, tmp_path: Path) -> None:
    """Every table, constraint and index of the models is made by the migrations, and no other."""
    engine = create_engine(f"sqlite:///{tmp_path / 'models.db'}")
    Base.metadata.create_all(engine)
    with engine.connect() as connection:
        expected = {row[:2]: _normal(row[2]) for row in connection.execute(text(SCHEMA))}
    engine.dispose()

    with sqlite.reading() as session:
        actual = {row[:2]: _normal(row[2]) for row in session.execute(text(SCHEMA))}

    assert actual == expected
    assert ("table", "movement") in actual


def test_the_versions_are_those_of_the_scripts() -> None:
    """The list that spares us reading Alembic is the list of its scripts."""
    config = Config()
    config.set_main_option("script_location", str(Path(schema.__file__).parent / "migrations"))
    config.set_main_option("path_separator", "os")
    scripts = ScriptDirectory.from_config(config).walk_revisions()

    assert tuple(script.revision for script in scripts)[::-1] == schema.VERSIONS


@pytest.mark.parametrize(
    ("place", "name"),
    [
        (SUPPLIER, "supplier"),
        (CLEARING, "clearing"),
        (QUARANTINE, "quarantine"),
        (SCRAPPED, "scrapped"),
        (SOLD, "sold"),
    ],
)
def test_the_shared_places_have_their_ids(database: Database, place: int, name: str) -> None:
    """The ids in the program are those that the first migration gave."""
    with database.reading() as session:
        assert session.get_one(Place, place).type == name
