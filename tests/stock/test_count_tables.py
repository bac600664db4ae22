"""Counts and choices of a formula are kept as they were made."""

from __future__ import annotations

import pytest
from sqlalchemy import insert, text
from sqlalchemy.exc import DBAPIError

from partsbin.stock.cost_layers import FOR_ALL, choose_formula
from partsbin.stock.count_tables import (
    AbcClass,
    BinCount,
    CostFormula,
    CountLine,
    FormulaChoice,
    MinimumLevel,
)
from partsbin.stock.database import Database
from partsbin.stock.ledger import act_of
from partsbin.stock.words import Unit
from tests.stock.making import stocked_shop


def _counted(database: Database) -> None:
    made, part = stocked_shop(database)
    with database.changing("count") as session:
        row = insert(BinCount).values(act_id=act_of(session), place_id=made.a1)
        count = session.execute(row.returning(BinCount.id)).scalar_one()
        line = {"bin_count_id": count, "part_id": part, "recorded": 1, "counted": 0}
        session.execute(insert(CountLine).values(**line, abc=AbcClass.C))
        choose_formula(session, FOR_ALL, CostFormula.FIFO)


@pytest.mark.parametrize("table", [BinCount, CountLine, FormulaChoice])
@pytest.mark.parametrize("change", ["UPDATE {} SET id = id + 1000", "DELETE FROM {}"])
def test_the_database_refuses_edits(database: Database, table: type[BinCount], change: str) -> None:
    """A trigger refuses UPDATE and DELETE of what was counted and chosen."""
    _counted(database)
    name = table.__tablename__
    with (
        pytest.raises(DBAPIError, match=f"{name} is appended to, never edited"),
        database.changing("cheat") as session,
    ):
        session.execute(text(change.format(name)))


@pytest.mark.parametrize(
    ("values", "constraint"),
    [
        pytest.param({"minimum": -1}, "minimum_not_negative", id="minimum"),
        pytest.param({"lead_days": -1}, "lead_days_not_negative", id="lead time"),
        pytest.param({"pack": 0}, "pack_holds_something", id="empty pack"),
        pytest.param({"part_id": 1}, "lot_or_spec", id="a lot and a kind"),
        pytest.param({"spec_text": None}, "lot_or_spec", id="of nothing"),
    ],
)
def test_the_database_refuses_wrong_levels(
    database: Database, values: dict[str, object], constraint: str
) -> None:
    """What no minimum level can be is refused by the database itself."""
    stocked_shop(database)
    right = {"minimum": 1, "lead_days": 0, "lead_spread_days": 0, "pack": 1, "spec_text": "{}"}
    with pytest.raises(DBAPIError, match=constraint), database.changing("cheat") as session:
        session.execute(insert(MinimumLevel).values(unit=Unit.PIECE, **{**right, **values}))
