"""What is edited is kept: which field, what it was and what it became, and who did it."""

from __future__ import annotations

import datetime as dt

import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DBAPIError

from partsbin.kinds.spec import Spec
from partsbin.stock.bikes import NewBike, add_bike
from partsbin.stock.check_tables import Edit, UndoneAct
from partsbin.stock.database import Database
from partsbin.stock.edits import read_field
from partsbin.stock.ids import BikeId
from partsbin.stock.models import Act, Bike
from partsbin.stock.money import Money
from partsbin.stock.movements import move
from partsbin.stock.parts import edit_part
from partsbin.stock.undone import stands
from partsbin.stock.words import BikeState, Grade
from partsbin.workshop.presale import read_results, record_check
from partsbin.workshop.selling import expect
from partsbin.workshop.undoing import undo
from tests.stock.making import stocked_shop

WIDE = Spec.read("seatpost", {"diameter_mm": "31.6"})


def edits(database: Database) -> list[tuple[str, str | None, str | None]]:
    """Return all edits of parts in their order."""
    query = select(Edit).where(Edit.part_id.is_not(None)).order_by(Edit.id)
    with database.reading() as session:
        return [(edit.field, edit.before, edit.after) for edit in session.scalars(query)]


def test_each_field_that_changes_is_kept(database: Database) -> None:
    """Every field that an act sets to something else is an edit, and no other."""
    _, part = stocked_shop(database)
    with database.changing("edit") as session:
        edit_part(session, part, grade=Grade.POOR, value=Money(1250), note="", spec=WIDE)
    found = {field: (before, after) for field, before, after in edits(database)}
    assert found["grade"] == ("good", "poor")
    assert found["value"] == (None, "1250")
    assert set(found) == {"grade", "value", "spec_id"}


def test_movements_are_no_edits(database: Database) -> None:
    """How much is in bins is a sum, not something that somebody edited."""
    made, part = stocked_shop(database)
    with database.changing("move") as session:
        move(session, part, 1, made.a1, made.slot)
    assert edits(database) == []


def test_a_bike_comes_in_with_its_state(database: Database) -> None:
    """That a bike came into the record is an edit with nothing before it."""
    with database.changing("add") as session:
        bike = add_bike(session, NewBike(name="Sorrel", style="mtb")).id
    with database.changing("work") as session:
        session.get_one(Bike, bike).state = BikeState.IN_WORK
    query = select(Edit).where(Edit.bike_id == bike).order_by(Edit.id)
    with database.reading() as session:
        told = [(edit.field, edit.before, edit.after) for edit in session.scalars(query)]
    assert told == [("state", None, "bought"), ("state", "bought", "in work")]


@pytest.mark.parametrize(
    ("field", "kept", "value"),
    [
        ("grade", "poor", Grade.POOR),
        ("state", "in work", BikeState.IN_WORK),
        ("value", "1250", 1250),
        ("value", None, None),
        ("serial_checked", "yes", True),
        ("serial_checked", "no", False),
        ("bought_on", "2026-10-03", dt.date(2026, 10, 3)),
        ("note", "1250", "1250"),
    ],
)
def test_fields_are_read_again(field: str, kept: str | None, value: object) -> None:
    """What an edit keeps as text is read as what the field holds."""
    assert read_field(field, kept) == value


def test_an_act_stands_until_it_is_undone(database: Database) -> None:
    """Neither an undone act nor the one that undid it stands."""
    made, part = stocked_shop(database)
    with database.changing("move") as session:
        move(session, part, 1, made.a1, made.b2)
    with database.changing("undo") as session:
        undo(session)
    with database.reading() as session:
        standing = list(session.scalars(select(Act.what).where(stands(Act.id))))
        undone = session.scalars(select(UndoneAct)).one()
        pair = [session.get_one(Act, act).what for act in (undone.act_id, undone.by_act_id)]
    assert standing == ["set up"]
    assert pair == ["move", "undo"]


@pytest.mark.parametrize("table", ["edit", "undone_act", "bike_check", "bike_estimate"])
@pytest.mark.parametrize("change", ["UPDATE {} SET id = id + 1000", "DELETE FROM {}"])
def test_the_tables_are_appended_to(database: Database, table: str, change: str) -> None:
    """A trigger refuses UPDATE and DELETE: what was checked and undone cannot be rewritten."""
    made, part = stocked_shop(database)
    with database.changing("edit") as session:
        edit_part(session, part, grade=Grade.POOR)
        name = session.get_one(Bike, BikeId(made.bike)).name
        record_check(session, name, read_results(["brakes=ok"]), "Ada Quill")
        expect(session, name, Money(9000), Money(0))
    with database.changing("move") as session:
        move(session, part, 1, made.a1, made.b2)
    with database.changing("undo") as session:
        undo(session)
    with (
        pytest.raises(DBAPIError, match=f"{table} is appended to, never edited"),
        database.changing("cheat") as session,
    ):
        session.execute(text(change.format(table)))
