"""A file that the first version filled is brought up to date with nothing lost."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import create_engine, select

from partsbin.stock import copies, schema
from partsbin.stock.bikes import bike_named, costs_of, entries_of
from partsbin.stock.check import check
from partsbin.stock.database import open_database
from partsbin.stock.errors import DatabaseError
from partsbin.stock.ids import BikeId, PartId
from partsbin.stock.lookup import mounted, where_is
from partsbin.stock.models import Act, Movement
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import list_bins
from partsbin.stock.search import find

FIRST = "0001"
ROWS = """
INSERT INTO spec VALUES
    (1, 'seatpost', '{"attributes":{"diameter_mm":27.2},"kind":"seatpost"}'),
    (2, 'frame', '{"attributes":{},"kind":"frame"}'),
    (3, 'housing', '{"attributes":{},"kind":"housing"}');
INSERT INTO spec_value VALUES (1, 'diameter_mm', 0, 27200, NULL);
UPDATE running_number SET last = 3;
INSERT INTO bike VALUES
    (1, '30000161', 'Sorrel', 'mtb', 'in work', 1500, '2026-10-10', 'left outside', 'W12', 1,
     'dusty', '2026-10-10 09:00:00');
INSERT INTO place (id, type, name, number, bike_id, note, location) VALUES
    (6, 'bin', 'A1', '10000119', NULL, 'posts', 'shelf'), (7, 'slot', 'frame', NULL, 1, '', '');
INSERT INTO part VALUES
    (1, '20000140', 1, 'fair', 0, 'piece', 'sound', 800, 'bought', 'scratched', 1),
    (2, '20000237', 2, 'good', 0, 'piece', 'worn', NULL, 'came with Sorrel', '', 0),
    (3, '40000182', 3, 'new', 1, 'mm', 'sound', NULL, '', '', 7500);
INSERT INTO note_word VALUES ('scratched', 1);
INSERT INTO act VALUES
    (1, '2026-10-10 09:00:00', 'ada', 'bike add', ''),
    (2, '2026-10-11 09:00:00', 'bo', 'part add', 'tidied up');
INSERT INTO movement VALUES
    (1, 1, 2, 1, 1, 7, 1500), (2, 2, 1, 1, 1, 6, 250), (3, 2, 3, 10000, 1, 6, 900),
    (4, 2, 3, 2500, 6, 4, 225);
INSERT INTO holding VALUES (2, 7, 1, 1500), (1, 6, 1, 250), (3, 6, 7500, 675), (3, 4, 2500, 225);
INSERT INTO bike_entry VALUES (1, 2, 1, 'labour', 600, 30, 1200, '2026-10-11', 'wheels')
"""


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """Return a file with the first schema, and a little of everything in it."""
    file = tmp_path / "old.db"
    engine = create_engine(f"sqlite:///{file}")
    config = Config()
    config.set_main_option("script_location", str(Path(schema.__file__).parent / "migrations"))
    config.set_main_option("path_separator", "os")
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, FIRST)
        for rows in ROWS.split(";\n"):
            connection.exec_driver_sql(rows)
    engine.dispose()
    return file


def test_all_that_was_in_it_is_there(old: Path) -> None:
    """Parts, places, bikes, acts, movements and entries are read as they were written."""
    with open_database(str(old), "ada") as database, database.reading() as session:
        assert check(session) == []
        post = part_by_number(session, "2000 0140")
        (place,) = where_is(session, PartId(post.id))
        assert (place.place_name, place.cost, place.value) == ("A1", 250, 800)
        assert (str(place.spec), place.note) == ("seatpost, diameter 27.2 mm", "scratched")
        assert [(b.parts, b.cost) for b in list_bins(session)] == [(2, 925)]
        bike = bike_named(session, "Sorrel")
        assert (bike.serial_number, bike.serial_checked, bike.seller_note) == (
            "W12",
            True,
            "left outside",
        )
        assert [(p.slot, p.cost, p.condition) for p in mounted(session, BikeId(bike.id))] == [
            ("frame", 1500, "worn")
        ]
        assert costs_of(session, BikeId(bike.id)).came_with == 1500
        assert [(e.amount, e.minutes, e.note) for e in entries_of(session, BikeId(bike.id))] == [
            (600, 30, "wheels")
        ]
        assert [a.who for a in session.scalars(select(Act).order_by(Act.id))] == ["ada", "bo"]
        assert len(list(session.scalars(select(Movement)))) == 4
        assert [row.number for row in find(session, ["seatpost"], ["diameter=27.2"]).rows] == [
            "20000140"
        ]


def version_in(file: Path) -> str:
    """Return the schema's version in a file."""
    with closing(sqlite3.connect(file)) as connection:
        return str(connection.execute("SELECT version_num FROM alembic_version").fetchone()[0])


def test_it_is_copied_before_it_is_changed(old: Path) -> None:
    """A copy with the old schema is kept beside it, and only when there is something to do."""
    with open_database(str(old), "ada") as database:
        assert database.upgraded_from == FIRST
        kept = database.kept
    assert kept is not None
    assert kept.parent == old.parent
    assert copies.prove_sound(kept, "copy") == FIRST == version_in(kept)
    assert version_in(old) == schema.VERSIONS[-1]

    with open_database(str(old), "ada") as database:
        assert (database.upgraded_from, database.kept) == (None, None)
    assert len(list(old.parent.glob("old.db.before-*"))) == 1


def test_an_upgrade_that_fails_changes_nothing(old: Path) -> None:
    """If a step of the schema cannot be made, the file stays as it was and no copy is left."""
    with closing(sqlite3.connect(old)) as connection:
        connection.execute("CREATE TABLE photo (id INTEGER)")

    with pytest.raises(Exception, match="photo already exists"):
        open_database(str(old), "ada")

    assert version_in(old) == FIRST
    assert list(old.parent.glob("*before-*")) == []
    with closing(sqlite3.connect(old)) as connection:
        connection.execute("DROP TABLE photo")
    with open_database(str(old), "ada") as database, database.reading() as session:
        assert check(session) == []


def test_a_copy_of_what_is_no_database(tmp_path: Path) -> None:
    """What SQLite cannot read is told as the trouble that it is."""
    file = tmp_path / "notes.txt"
    file.write_text("bolts and nuts " * 400)

    with pytest.raises(DatabaseError, match="is not a database"):
        copies.copy_database(file, tmp_path / "copy.db")
