from __future__ import annotations

import datetime as dt

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from partsbin.stock.bikes import add_entry
from partsbin.stock.database import Database
from partsbin.stock.money import Money
from partsbin.stock.words import EntryType
from tests.stock.making import stocked_shop

TABLES = ("act", "movement", "bike_entry")


def _filled(database: Database) -> None:
    made, _ = stocked_shop(database)
    with database.changing("work") as session:
        add_entry(session, made.bike, EntryType.FEE, Money(100), dt.date(2026, 10, 3))


@pytest.mark.parametrize("table", TABLES)
@pytest.mark.parametrize("change", ["UPDATE {} SET id = id + 1000", "DELETE FROM {}"])
def test_the_database_refuses_edits(database: Database, table: str, change: str) -> None:
    """A trigger refuses UPDATE and DELETE, so that no program can rewrite the past."""
    _filled(database)

    with (
        pytest.raises(DBAPIError, match=f"{table} is appended to, never edited"),
        database.changing("cheat") as session,
    ):
        session.execute(text(change.format(table)))


def test_replacing_is_refused(sqlite: Database) -> None:
    """SQLite's INSERT OR REPLACE, which deletes without a delete trigger, is refused as well."""
    _filled(sqlite)

    again = "INSERT OR REPLACE INTO act SELECT * FROM act"
    with (
        pytest.raises(DBAPIError, match="act is appended to, never edited"),
        sqlite.changing("cheat") as session,
    ):
        session.execute(text(again))


MOVEMENT = (
    "INSERT INTO movement (act_id, part_id, quantity, from_place_id, to_place_id, cost) VALUES ({})"
)


@pytest.mark.parametrize(
    ("values", "constraint"),
    [
        pytest.param("1, 1, 1, 6, 6, 0", "places_differ", id="from a place to itself"),
        pytest.param("1, 1, 1, NULL, 6, 0", "from_place_id", id="from nowhere"),
        pytest.param("1, 1, 1, 6, NULL, 0", "to_place_id", id="to nowhere"),
        pytest.param("1, 1, -1, 1, 6, 0", "quantity_not_negative", id="below nothing"),
        pytest.param("1, 1, 1, 1, 6, -1", "cost_not_negative", id="cost below nothing"),
        pytest.param("1, 1, 0, 1, 6, 0", "something_moves", id="nothing moves"),
        pytest.param("1, 99, 1, 1, 6, 0", "(?i)foreign key", id="unknown part"),
    ],
)
def test_the_database_refuses_wrong_movements(
    database: Database, values: str, constraint: str
) -> None:
    """What no movement can be is refused by the database itself."""
    stocked_shop(database)

    with pytest.raises(DBAPIError, match=constraint), database.changing("cheat") as session:
        session.execute(text(MOVEMENT.format(values)))


@pytest.mark.parametrize(
    "change",
    [
        pytest.param("UPDATE holding SET quantity = -1", id="quantity"),
        pytest.param("UPDATE holding SET cost = -1", id="cost"),
        pytest.param("UPDATE part SET in_bins = -1", id="in bins"),
        pytest.param("UPDATE part SET grade = 'perfect'", id="grade"),
    ],
)
def test_sums_stay_above_nothing(database: Database, change: str) -> None:
    """A sum below nothing and a word that is none are refused by the database itself."""
    stocked_shop(database)

    with pytest.raises(DBAPIError, match=r"(?i)check"), database.changing("cheat") as session:
        session.execute(text(change))


def test_a_float_is_no_money(database: Database) -> None:
    """A float never reaches an integer column, where SQLite would keep it as it is."""
    made, _ = stocked_shop(database)

    with (
        pytest.raises(Exception, match=r"0\.1 is not a whole number"),
        database.changing("cheat") as session,
    ):
        add_entry(session, made.bike, EntryType.FEE, 0.1, dt.date(2026, 10, 3))  # type: ignore[arg-type] # what the test is about
