from __future__ import annotations

from collections.abc import Callable

import pytest
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from partsbin.errors import PartsbinError, UsageError
from partsbin.stock.bikes import costs_of, slot_place
from partsbin.stock.check import check
from partsbin.stock.database import Database
from partsbin.stock.errors import (
    AlreadyThereError,
    NotThereError,
    RefusedError,
    SlotFilledError,
    UnknownError,
)
from partsbin.stock.ids import CLEARING, QUARANTINE, SCRAPPED, SOLD, SUPPLIER, PartId, PlaceId
from partsbin.stock.lookup import mounted, where_is
from partsbin.stock.models import Act, Movement, Part
from partsbin.stock.money import Money
from partsbin.stock.movements import carry_cost, move
from partsbin.stock.words import Unit
from tests.stock.making import BALLS, Shop, add, shop, stocked_shop


def test_a_movement_takes_its_cost_along(database: Database) -> None:
    """A single part carries all that it cost, onto a bike and off it again."""
    made, part = stocked_shop(database, cost=500)

    with database.changing("mount") as session:
        assert move(session, part, 1, made.a1, made.slot) == 500

    with database.reading() as session:
        assert [(m.slot, m.cost) for m in mounted(session, made.bike)] == [("seatpost", 500)]
        assert costs_of(session, made.bike).from_stock == 500
        assert check(session) == []


def test_the_act_says_who_what_and_why(database: Database) -> None:
    """Each movement belongs to an act with the user's name and the reason."""
    made, part = stocked_shop(database)
    with database.changing("move", "bin was full") as session:
        move(session, part, 1, made.a1, made.b2)

    with database.reading() as session:
        act = session.scalars(select(Act).order_by(Act.id.desc())).first()

    assert act is not None
    assert (act.who, act.what, act.reason) == ("tester", "move", "bin was full")
    assert act.at.tzinfo is not None


REFUSALS = [
    pytest.param(
        lambda s, shop, part: move(s, part, 1, shop.b2, shop.a1),
        NotThereError,
        "cannot take 1 of seatpost 2000 0140 from bin B2: it is not there, it is in bin A1; "
        "nothing was changed",
        id="not there",
    ),
    pytest.param(
        lambda s, shop, part: move(s, part, 2, shop.a1, shop.b2),
        RefusedError,
        "seatpost 2000 0140 is a single part, 2 of it cannot move; nothing was changed",
        id="two of a single part",
    ),
    pytest.param(
        lambda s, shop, part: move(s, part, 0, shop.a1, shop.b2),
        UsageError,
        "0 is no quantity to move; give 1 or more",
        id="nothing",
    ),
    pytest.param(
        lambda s, shop, part: move(s, part, 1, shop.a1, shop.a1),
        RefusedError,
        "seatpost 2000 0140 is in bin A1 already; nothing was changed",
        id="from a place to itself",
    ),
    pytest.param(
        lambda s, shop, part: move(s, part, 1, SUPPLIER, shop.b2, cost=Money(1)),
        AlreadyThereError,
        "seatpost 2000 0140 cannot arrive: it is in bin A1 already; nothing was changed",
        id="a single part twice",
    ),
    pytest.param(
        lambda s, shop, part: move(s, part, 1, shop.a1, PlaceId(999)),
        UnknownError,
        "there is no place '999' in the record",
        id="unknown place",
    ),
    pytest.param(
        lambda s, shop, _: move(s, PartId(999), 1, shop.a1, shop.b2),
        UnknownError,
        "there is no part '999' in the record",
        id="unknown part",
    ),
    pytest.param(
        lambda s, shop, part: move(s, part, 1, shop.a1, shop.b2, cost=Money(1)),
        RefusedError,
        "seatpost 2000 0140 holds another cost than is to go with it; nothing was changed",
        id="the last takes all the cost",
    ),
    pytest.param(
        lambda s, shop, part: carry_cost(s, part, shop.a1, CLEARING, Money(501)),
        RefusedError,
        "seatpost 2000 0140 did not cost that much; nothing was changed",
        id="more cost than there is",
    ),
    pytest.param(
        lambda s, shop, part: carry_cost(s, part, shop.a1, shop.b2, Money(1)),
        RefusedError,
        "seatpost 2000 0140 is not in bin B2; nothing was changed",
        id="a cost where nothing is",
    ),
]


@pytest.mark.parametrize(("act", "error", "told"), REFUSALS)
def test_refuses_and_changes_nothing(
    database: Database,
    act: Callable[[Session, Shop, PartId], object],
    error: type[PartsbinError],
    told: str,
) -> None:
    """What cannot be is refused in one sentence, and the whole act is taken back."""
    made, part = stocked_shop(database, cost=500)
    before = _rows(database)

    def after_another() -> None:
        with database.changing("try") as session:
            move(session, add(session, made.b2).id, 1, made.b2, made.a1)
            act(session, made, part)

    with pytest.raises(error) as refused:
        after_another()

    assert str(refused.value) == told
    assert _rows(database) == before


def _rows(database: Database) -> tuple[int | None, ...]:
    with database.reading() as session:
        return tuple(
            session.scalar(select(func.count()).select_from(table))
            for table in (Act, Movement, Part)
        )


def test_a_slot_takes_one_part(database: Database) -> None:
    """A filled slot refuses a second part and names the first."""
    made, part = stocked_shop(database)
    with database.changing("mount") as session:
        move(session, part, 1, made.a1, made.slot)
        other = add(session, made.a1).id

    with pytest.raises(SlotFilledError) as refused, database.changing("mount") as session:
        move(session, other, 1, made.a1, made.slot)

    assert str(refused.value) == (
        "Sorrel's seatpost slot is filled by seatpost 2000 0140; take that off first, "
        "nothing was changed"
    )


def test_two_arrivals_for_one_slot(database: Database) -> None:
    """A slot refuses a new part that comes in while it is filled."""
    made, _ = stocked_shop(database)
    with database.changing("add") as session:
        add(session, made.slot)

    with pytest.raises(SlotFilledError), database.changing("add") as session:
        add(session, made.slot)


def test_a_lot_is_averaged_and_the_last_takes_the_rest(database: Database) -> None:
    """Three pieces of 10.00 leave as 3.33, 3.34 and 3.33: nothing is lost to rounding."""
    with database.changing("buy") as session:
        made = shop(session)
        balls = add(session, made.a1, BALLS, cost=1000, lot=True, quantity=3).id
    with database.changing("use") as session:
        carried = [move(session, balls, 1, made.a1, SCRAPPED) for _ in range(3)]

    assert (carried, sum(carried)) == ([333, 334, 333], 1000)
    with database.reading() as session:
        assert check(session) == []


def test_weighted_average_after_each_receipt(database: Database) -> None:
    """A lot that is bought again at another price goes out at the new average.

    The receipts and the figures are those of the worked example on IAS 2, paragraphs 25 to 27, at
    wp.cuong.cc: cost of sales 13,727.37 and closing stock 4,902.63.
    """
    receipts = ((300, 950), (200, 970), (400, 960))
    with database.changing("buy") as session:
        made = shop(session)
        lot = add(session, made.a1, BALLS, cost=1_000_000, lot=True, quantity=1000).id
        for quantity, price in receipts:
            move(session, lot, quantity, SUPPLIER, made.a1, cost=Money(quantity * price))
    with database.changing("sell") as session:
        sold = move(session, lot, 1400, made.a1, SOLD)

    with database.reading() as session:
        left = {row.place: (row.quantity, row.cost) for row in where_is(session, lot)}
    assert sold == 1_372_737
    assert left == {made.a1: (500, 490_263), SOLD: (1400, 1_372_737)}


def test_a_lot_may_lie_in_two_bins(database: Database) -> None:
    """Cable is moved by the millimetre and may be in several places."""
    with database.changing("buy") as session:
        made = shop(session)
        cable = add(session, made.a1, cost=900, lot=True, unit=Unit.MM, quantity=30_000).id
        move(session, cable, 1700, made.a1, made.b2)

    with database.reading() as session:
        held = {row.place: (row.quantity, row.cost) for row in where_is(session, cable)}
        assert session.get_one(Part, cable).in_bins == 30_000
    assert held == {made.a1: (28_300, 849), made.b2: (1700, 51)}


def test_a_price_passes_through_clearing(database: Database) -> None:
    """A donor's price leaves the frame and lands on what came off, to the last cent."""
    made, frame = stocked_shop(database, cost=20_000)
    shares = (5000, 6250, 8750)
    with database.changing("strip") as session:
        carry_cost(session, frame, made.a1, CLEARING, Money(20_000))
        for cost in shares:
            part = add(session, made.b2).id
            carry_cost(session, part, CLEARING, made.b2, Money(cost))

    with database.reading() as session:
        assert check(session) == []
        assert where_is(session, frame)[0].cost == 0


def test_clearing_must_be_empty_in_the_end(database: Database) -> None:
    """An act that keeps a cost in clearing is a fault of the program, and is not kept."""
    made, part = stocked_shop(database, cost=500)

    with (
        pytest.raises(RuntimeError, match="the act left 500 minor units in clearing"),
        database.changing("strip") as session,
    ):
        carry_cost(session, part, made.a1, CLEARING, Money(500))

    with database.reading() as session:
        assert where_is(session, part)[0].cost == 500


def test_only_a_changing_session_moves(database: Database) -> None:
    """Without an act there is no movement."""
    made, part = stocked_shop(database)

    with (
        pytest.raises(RuntimeError, match=r"only a session of Database\.changing"),
        database.reading() as session,
    ):
        move(session, part, 1, made.a1, made.b2)


@pytest.mark.parametrize("place", [QUARANTINE, SCRAPPED, SOLD])
def test_what_left_the_bins_is_not_counted_there(database: Database, place: PlaceId) -> None:
    """How much is in bins follows each movement in and out."""
    made, part = stocked_shop(database)

    with database.changing("out") as session:
        move(session, part, 1, made.a1, place)
        assert session.scalar(select(Part.in_bins)) == 0
    with database.changing("back") as session:
        move(session, part, 1, place, made.b2)
        assert session.scalar(select(Part.in_bins)) == 1


def test_an_unknown_slot_offers_the_nearest(database: Database) -> None:
    """A misspelt slot is refused with the nearest name."""
    made, _ = stocked_shop(database)

    with (
        pytest.raises(UsageError, match="unknown slot 'seetpost'; did you mean 'seatpost'"),
        database.changing("mount") as session,
    ):
        slot_place(session, made.bike, "seetpost")
