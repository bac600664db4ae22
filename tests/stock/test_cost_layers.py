"""What leaves a lot costs what its formula says, and the layers are always what is held."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from partsbin.stock.check import check
from partsbin.stock.cost_layers import FOR_ALL, Layer, choose_formula, layers_of, taken
from partsbin.stock.count_tables import CostFormula
from partsbin.stock.database import Database
from partsbin.stock.ids import SCRAPPED, SOLD, SUPPLIER, PartId, PlaceId
from partsbin.stock.lookup import where_is
from partsbin.stock.money import Money
from partsbin.stock.movements import move
from tests.stock.making import BALLS, add, shop

PURCHASES = ((1000, "10"), (300, "9.5"), (200, "9.7"), (400, "9.6"))
"""Pieces and price of each. Source: wp.cuong.cc, Cost formulas under IAS 2."""
SOLD_PIECES = 1400


def _bought(database: Database, formula: CostFormula) -> tuple[PartId, PlaceId]:
    """Return a lot into which the purchases went one after the other, in thousandths of cents."""
    with database.changing("set up") as session:
        choose_formula(session, "bearing_balls", formula)
        a1 = shop(session).a1
        (first, price), *others = PURCHASES
        cost = int(first * Decimal(price) * 100)
        part = add(session, a1, BALLS, cost, lot=True, quantity=first).id
    for quantity, price in others:
        with database.changing("buy") as session:
            cost = int(quantity * Decimal(price) * 100)
            move(session, part, quantity, SUPPLIER, a1, cost=Money(cost))
    return part, a1


@pytest.mark.parametrize(
    ("formula", "sold", "left"),
    [
        # wp.cuong.cc, Cost formulas: FIFO leaves a stock of 4,810 after a cost of sales of 13,820.
        pytest.param(CostFormula.FIFO, 13_820_00, 4_810_00, id="first in, first out"),
        # The weighted average of the same figures is 9.80526: 13,727.37 and 4,902.63.
        pytest.param(CostFormula.AVERAGE, 13_727_37, 4_902_63, id="weighted average"),
    ],
)
def test_worked_figures(database: Database, formula: CostFormula, sold: int, left: int) -> None:
    """1,400 of 1,900 pieces cost what the published example says, by either formula."""
    part, a1 = _bought(database, formula)
    with database.changing("sell") as session:
        assert move(session, part, SOLD_PIECES, a1, SOLD) == sold

    with database.reading() as session:
        held = {row.place: row.cost for row in where_is(session, part)}
        assert held == {a1: left, SOLD: sold}
        assert check(session) == []


def test_layers_are_oldest_first(database: Database) -> None:
    """What is left of each purchase is kept apart, and a move to another bin keeps its age."""
    part, a1 = _bought(database, CostFormula.FIFO)
    with database.changing("move") as session:
        b2 = PlaceId(a1 + 1)
        move(session, part, 1200, a1, b2)
        move(session, part, 1100, b2, SOLD)

    with database.reading() as session:
        layers = layers_of(session, part)
    assert [(one.quantity, one.cost) for one in layers[b2]] == [(100, 950_00)]
    assert [(one.quantity, one.cost) for one in layers[a1]] == [
        (100, 950_00),
        (200, 1_940_00),
        (400, 3_840_00),
    ]


def test_a_kind_goes_before_all_others(database: Database) -> None:
    """The formula of a kind counts for its lots whatever is chosen for all; the last one counts."""
    with database.changing("choose") as session:
        choose_formula(session, FOR_ALL, CostFormula.FIFO)
    part, a1 = _bought(database, CostFormula.AVERAGE)
    with database.changing("use") as session:
        # 18,630.00 for 1,900 pieces are 9.8053 each.
        assert move(session, part, 1, a1, SCRAPPED) == 981
        choose_formula(session, "bearing_balls", CostFormula.FIFO)
        assert move(session, part, 1, a1, SCRAPPED) == 981


def test_a_formula_changes_from_now_on(database: Database) -> None:
    """What was taken at the average makes one layer of the rest; later purchases are new layers."""
    part, a1 = _bought(database, CostFormula.AVERAGE)
    with database.changing("use") as session:
        move(session, part, 1400, a1, SCRAPPED)
        choose_formula(session, "bearing_balls", CostFormula.FIFO)
        move(session, part, 100, SUPPLIER, a1, cost=Money(1_200_00))
    with database.changing("use") as session:
        # The 500 left cost 4,902.63 together: 12.00 each is only for what comes after them.
        assert move(session, part, 500, a1, SCRAPPED) == 4_902_63
        assert move(session, part, 100, a1, SCRAPPED) == 1_200_00

    with database.reading() as session:
        assert check(session) == []


LAYERS = st.lists(st.tuples(st.integers(1, 50), st.integers(0, 999)), min_size=1, max_size=8)


@given(bought=LAYERS, parts=st.lists(st.integers(1, 60), max_size=30))
def test_taking_loses_nothing(bought: list[tuple[int, int]], parts: list[int]) -> None:
    """Taken bit by bit, layers give out all their pieces and every cent, the oldest first."""
    left = [Layer(age, quantity, Money(cost)) for age, (quantity, cost) in enumerate(bought)]
    out: list[Layer] = []
    for quantity in parts:
        gone, left = taken(left, quantity)
        out += gone

    pieces = sum(quantity for quantity, _ in bought)
    assert sum(one.quantity for one in out) == min(sum(parts), pieces)
    assert sum(one.cost for one in [*out, *left]) == sum(cost for _, cost in bought)
    ages = [one.age for one in out]
    assert ages == sorted(ages)
    assert all(one.cost >= 0 for one in [*out, *left])


STEP = st.sampled_from(["buy", "use", "move", "back", "average"])
STEPS = st.lists(st.tuples(STEP, st.integers(1, 40)), max_size=25)


@given(steps=STEPS)
@settings(max_examples=25, deadline=None)
def test_layers_are_what_is_held(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[str, int]]
) -> None:
    """After any purchases, uses, moves and changes of the formula the record checks out."""
    from partsbin.errors import PartsbinError
    from partsbin.stock.database import open_database

    file = tmp_path_factory.mktemp("layers") / "record.db"
    with open_database(str(file), "tester") as database:
        part, a1 = _bought(database, CostFormula.FIFO)
        b2 = PlaceId(a1 + 1)
        ways = {"use": (a1, SCRAPPED), "move": (a1, b2), "back": (b2, a1)}
        for step, quantity in steps:
            try:
                with database.changing(step) as session:
                    if step == "buy":
                        move(session, part, quantity, SUPPLIER, a1, cost=Money(quantity * 37))
                    elif step == "average":
                        formula = (CostFormula.AVERAGE, CostFormula.FIFO)[quantity % 2]
                        choose_formula(session, "bearing_balls", formula)
                    else:
                        move(session, part, quantity, *ways[step])
            except PartsbinError:
                assert step == "back"
        with database.reading() as session:
            assert check(session) == []
