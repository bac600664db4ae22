from __future__ import annotations

import pytest
from sqlalchemy import text

from partsbin.stock.balance import balance
from partsbin.stock.check import CHECKS, check
from partsbin.stock.database import Database
from partsbin.stock.ids import SCRAPPED, SOLD
from partsbin.stock.movements import move
from tests.stock.making import BALLS, add, stocked_shop


def _filled(database: Database) -> None:
    made, part = stocked_shop(database, cost=500)
    with database.changing("fill") as session:
        move(session, part, 1, made.a1, made.slot)
        balls = add(session, made.a1, BALLS, cost=999, lot=True, quantity=10, note="from a tin").id
        move(session, balls, 3, made.a1, SCRAPPED)
        move(session, balls, 2, made.a1, SOLD)
        add(session, made.b2, cost=250)


def test_a_right_record_has_no_faults(database: Database) -> None:
    """A record that was only changed by acts passes every check, and its money adds up."""
    _filled(database)

    with database.reading() as session:
        assert check(session) == []
        sums = balance(session)
    assert (sums.bought, sums.on_bikes, sums.written_off, sums.sold) == (1749, 500, 300, 200)
    assert (sums.in_stock, sums.missing) == (749, 0)


SLOT_TWICE = (
    "INSERT INTO holding (part_id, place_id, quantity, cost) "
    "SELECT 3, place_id, 1, 0 FROM holding WHERE part_id = 1"
)
STRAY_COST = (
    "INSERT INTO movement (act_id, part_id, quantity, from_place_id, to_place_id, cost) "
    "VALUES (1, 2, 0, 1, 2, 5)"
)
SOLD_WITHOUT_LEAVING = (
    "INSERT INTO part_sale (act_id, part_id, quantity, amount, fee, day, note) "
    "SELECT act_id, part_id, quantity + 1, 900, 0, '2026-10-10', '' FROM movement "
    "WHERE to_place_id = 5"
)
FAULTS = [
    ("UPDATE holding SET quantity = quantity + 1 WHERE part_id = 2", "holdings_are_sums"),
    ("UPDATE holding SET cost = cost + 1 WHERE part_id = 2 AND place_id = 6", "holdings_are_sums"),
    ("UPDATE holding SET cost = cost + 1 WHERE part_id = 2 AND place_id = 6", "money_is_conserved"),
    (
        "UPDATE holding SET cost = cost - 1 WHERE part_id = 2 AND place_id = 4",
        "layers_are_holdings",
    ),
    ("DELETE FROM holding WHERE part_id = 2 AND place_id = 5", "layers_are_holdings"),
    ("UPDATE holding SET quantity = 2 WHERE part_id = 1", "single_parts_are_single"),
    (SLOT_TWICE, "slots_hold_one_part"),
    ("UPDATE part SET in_bins = 7 WHERE id = 2", "bins_add_up"),
    ("UPDATE bin_sum SET parts = parts + 1", "bin_sums_add_up"),
    ("UPDATE bin_sum SET cost = cost + 1 WHERE place_id = 6", "bin_sums_add_up"),
    ("DELETE FROM bin_sum WHERE place_id = 7", "bin_sums_add_up"),
    ("INSERT INTO bin_sum (place_id, parts, cost) VALUES (5, 1, 200)", "bin_sums_add_up"),
    ("UPDATE part SET number = '20000141' WHERE id = 1", "numbers_are_valid"),
    ("UPDATE part SET number = '30000135' WHERE id = 1", "numbers_are_valid"),
    ("UPDATE part SET number = '20099962' WHERE id = 1", "numbers_are_valid"),
    ("UPDATE spec SET text = 'nonsense' WHERE id = 1", "specs_are_readable"),
    ("UPDATE spec_value SET number = number + 1", "specs_are_readable"),
    ("DELETE FROM note_word WHERE word = 'tin'", "notes_are_indexed"),
    (STRAY_COST, "clearing_is_empty"),
    (SOLD_WITHOUT_LEAVING, "sold_parts_left"),
    ("INSERT INTO undone_act (act_id, by_act_id) VALUES (1, 2)", "undone_acts_cancel"),
]


@pytest.mark.parametrize(("cheat", "name"), FAULTS)
def test_each_fault_is_found(database: Database, cheat: str, name: str) -> None:
    """A record that was changed past the acts is told of by the check that is for it."""
    _filled(database)
    with database.changing("cheat") as session:
        session.execute(text(cheat))

    with database.reading() as session:
        assert name in {fault.check for fault in check(session)}


def test_every_check_is_tried() -> None:
    """Each check is proven to find something, save two whose faults the database refuses itself."""
    tried = {name for _, name in FAULTS}

    refused_by_the_database = {"nothing_below_zero", "file_is_sound"}
    assert tried | refused_by_the_database == {check.__name__ for check in CHECKS}
