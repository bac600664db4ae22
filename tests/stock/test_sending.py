"""Statements that are compiled once, on both databases."""

from __future__ import annotations

import datetime as dt

import pytest
from sqlalchemy import bindparam, func, insert, select, text, update

from partsbin.stock.check import check
from partsbin.stock.database import Database, open_database
from partsbin.stock.errors import UnreachableError
from partsbin.stock.holdings import ADD_TO_HOLDING
from partsbin.stock.ids import SOLD
from partsbin.stock.lookup import where_is
from partsbin.stock.models import Act, Bike, Part, Place
from partsbin.stock.movements import move
from partsbin.stock.sending import Change, Question, named
from partsbin.stock.words import BikeState, Grade
from tests.databases import Databases
from tests.stock.making import add, shop, stocked_shop

BY_NUMBER = Question(
    select(Part.number, Part.grade, Part.lot, Part.value).where(Part.number == bindparam("number"))
)
ALL_NAMES = Question(select(Place.name).order_by(Place.id))
TOTAL = Question(select(func.sum(Part.value)))
NEW_ACT = Question(insert(Act).values(named("at", "who", "what", "reason")).returning(Act.at))
SET_GRADE = Change(
    update(Part).where(Part.grade == bindparam("before")).values(grade=bindparam("after"))
)
SET_BIN = Change(update(Place).where(Place.id == bindparam("place")).values(name=bindparam("text")))
SET_NOTE = Change(update(Part).where(Part.id == bindparam("part")).values(note=bindparam("text")))


def test_rows_are_what_the_columns_say(database: Database) -> None:
    """A row holds the values of the record's types: words of an enumeration, truths, nothing."""
    stocked_shop(database)

    with database.reading() as session:
        assert BY_NUMBER.rows(session, number="20000140") == [("20000140", "good", False, None)]
        row = BY_NUMBER.first(session, number="20000140")

    assert row is not None
    assert isinstance(row[1], Grade)
    assert row[2] is False


def test_nothing_found(database: Database) -> None:
    """Of what is not there the rows are none, and the first row and the value are None."""
    with database.reading() as session:
        assert BY_NUMBER.rows(session, number="20000140") == []
        assert BY_NUMBER.first(session, number="20000140") is None
        assert TOTAL.value(session) is None


def test_a_sum_is_a_whole_number(database: Database) -> None:
    """A sum is an int on both databases, although PostgreSQL brings it as a decimal number."""
    with database.changing("set up") as session:
        made = shop(session)
        for value in (800, 450):
            add(session, made.a1, value=value)
        total = TOTAL.value(session)

    assert (total, type(total)) == (1250, int)


def test_a_moment_goes_in_and_comes_out(database: Database) -> None:
    """A moment is stored in UTC and has its zone again when it is read."""
    summer = dt.timezone(dt.timedelta(hours=2))
    noon = dt.datetime(2026, 7, 1, 14, tzinfo=summer)
    with database.changing("set up") as session:
        stored = NEW_ACT.value(session, at=noon, who="ada", what="test", reason="")

    assert stored == noon
    assert stored is not None
    assert stored.tzinfo == dt.UTC


def test_how_many_rows_were_changed(database: Database) -> None:
    """A change says how many rows it changed."""
    with database.changing("set up") as session:
        made = shop(session)
        for _ in range(3):
            add(session, made.a1)
        assert SET_GRADE.send(session, before=Grade.GOOD, after=Grade.FAIR) == 3
        assert SET_GRADE.send(session, before=Grade.GOOD, after=Grade.FAIR) == 0


def test_many_at_once(database: Database) -> None:
    """A change can be made for many rows of values, and for none."""
    with database.changing("set up") as session:
        made = shop(session)
        parts = [add(session, made.a1).id for _ in range(3)]
        SET_NOTE.send_all(session, [{"part": part, "text": f"no {part}"} for part in parts[:2]])
        SET_NOTE.send_all(session, [])

    with database.reading() as session:
        notes = session.scalars(select(Part.note).order_by(Part.id)).all()
    assert notes == ["no 1", "no 2", ""]


def test_what_the_session_changed_is_seen(database: Database) -> None:
    """What was set on an object of the session is written before a question is asked."""
    with database.changing("set up") as session:
        made = shop(session)
        session.get_one(Bike, made.bike).state = BikeState.KEPT
        states = Question(select(Bike.state)).rows(session)

    assert states == [(BikeState.KEPT,)]


def test_a_value_that_is_missing(database: Database) -> None:
    """A statement that lacks a value is not sent."""
    with database.reading() as session, pytest.raises(KeyError, match="number"):
        BY_NUMBER.rows(session)


def test_an_act_that_was_taken_back_goes_no_further(database: Database) -> None:
    """After a rollback nothing more is written, which would then stay for itself."""

    def go_on() -> None:
        with database.changing("set up") as session:
            made = shop(session)
            session.rollback()
            SET_BIN.send(session, place=made.a1, text="A9")

    with pytest.raises(RuntimeError, match="only a session that Database gave"):
        go_on()

    with database.reading() as session:
        assert len(ALL_NAMES.rows(session)) == SOLD


def test_no_question_after_the_session_has_ended(database: Database) -> None:
    """A session that was given back cannot be asked."""
    with database.reading() as session:
        ALL_NAMES.rows(session)

    with pytest.raises(RuntimeError, match="until it ends"):
        ALL_NAMES.rows(session)


def test_a_connection_that_is_lost(postgresql: Databases) -> None:
    """If the server goes away amid an act it is told in one sentence, and the next act goes on."""
    address = postgresql.new()
    backend, end = text("SELECT pg_backend_pid()"), text("SELECT pg_terminate_backend(:pid)")
    with open_database(address, "ada") as database, open_database(address, "bo") as other:

        def go_on() -> None:
            with database.changing("set up") as session:
                shop(session)
                pid = session.scalar(backend)
                with other.reading() as killing:
                    killing.execute(end, {"pid": pid})
                ALL_NAMES.rows(session)

        with pytest.raises(UnreachableError, match="cannot be reached"):
            go_on()
        with database.reading() as session:
            assert len(ALL_NAMES.rows(session)) == SOLD
    postgresql.drop(address)


def test_what_the_database_refuses_takes_all_back(database: Database) -> None:
    """A change that breaks a rule of the record raises, and nothing of its act is kept."""
    made, part = stocked_shop(database)

    def go_on() -> None:
        with database.changing("cheat") as session:
            move(session, part, 1, made.a1, made.b2)
            ADD_TO_HOLDING.send(session, part=part, place=made.b2, more=-2, dearer=0)

    with pytest.raises(Exception, match=r"(?i)quantity_not_negative"):
        go_on()

    with database.reading() as session:
        assert [place.place_name for place in where_is(session, part)] == ["A1"]
        assert check(session) == []
