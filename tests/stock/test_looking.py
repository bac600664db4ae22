"""What the common questions find, and that they ask the record no more than they must."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from sqlalchemy.orm import Session

from partsbin.errors import PartsbinError, UsageError
from partsbin.stock.database import Database
from partsbin.stock.errors import UnknownError
from partsbin.stock.ids import SCRAPPED, SUPPLIER
from partsbin.stock.lookup import mounted, shown
from partsbin.stock.models import Part
from partsbin.stock.money import Money
from partsbin.stock.movements import carry_cost, move
from partsbin.stock.places import list_bins
from tests.stock.making import BALLS, add, shop, stocked_shop


def test_a_lot_is_shown_in_each_of_its_places(database: Database) -> None:
    """One look finds all bins of a lot and what was scrapped of it."""
    with database.changing("set up") as session:
        made = shop(session)
        balls = add(session, made.a1, BALLS, cost=1000, lot=True, quantity=10)
        move(session, balls.id, 3, made.a1, made.b2)
        move(session, balls.id, 1, made.a1, SCRAPPED)
        lot = shown(session, balls.number)

    held = {place.place_name: (place.quantity, place.cost) for place in lot.places}
    assert held == {"A1": (6, 600), "B2": (3, 300), "scrapped": (1, 100)}
    assert (lot.spec, lot.grade) == (BALLS, "good")


def test_a_part_in_no_place_is_shown(database: Database) -> None:
    """A part whose coming in was taken back is known still, but is nowhere."""
    made, part = stocked_shop(database)
    with database.changing("back") as session:
        move(session, part, 1, made.a1, SUPPLIER)
        known = shown(session, "2000 0140")

    assert (known.spec.kind, known.grade, known.places) == ("seatpost", "good", [])


@pytest.mark.parametrize(
    ("number", "error", "told"),
    [
        ("20000237", UnknownError, "no part"),
        ("10000119", UsageError, "the number of a bin"),
        ("20000141", UsageError, "check digits"),
    ],
    ids=["of no part", "of a bin", "mistyped"],
)
def test_what_cannot_be_shown(
    database: Database, number: str, error: type[PartsbinError], told: str
) -> None:
    """A number that is no part's is told of as everywhere."""
    with database.reading() as session, pytest.raises(error, match=told):
        shown(session, number)


def test_bins_are_summed_up_as_things_move(database: Database) -> None:
    """A bin counts different parts and what they cost, through every kind of movement."""
    with database.changing("set up") as session:
        made = shop(session)
        post = add(session, made.a1, cost=500).id
        balls = add(session, made.a1, BALLS, cost=1000, lot=True, quantity=10).id

        def sums() -> list[tuple[str, int, int]]:
            return [(held.name, held.parts, held.cost) for held in list_bins(session)]

        assert sums() == [("A1", 2, 1500), ("B2", 0, 0)]
        move(session, balls, 4, made.a1, made.b2)
        assert sums() == [("A1", 2, 1100), ("B2", 1, 400)]
        move(session, balls, 6, made.a1, made.b2)
        assert sums() == [("A1", 1, 500), ("B2", 1, 1000)]
        move(session, post, 1, made.a1, made.slot)
        assert sums() == [("A1", 0, 0), ("B2", 1, 1000)]
        carry_cost(session, balls, made.b2, SCRAPPED, Money(250))
        assert sums() == [("A1", 0, 0), ("B2", 1, 750)]
        move(session, balls, 10, made.b2, SCRAPPED)
        assert sums() == [("A1", 0, 0), ("B2", 0, 0)]


def test_a_part_that_is_at_hand_knows_what_is_in_bins(database: Database) -> None:
    """Who read a part before it moved sees afterwards how much of it is in bins."""
    made, part = stocked_shop(database)
    with database.changing("mount") as session:
        post = session.get_one(Part, part)
        assert post.in_bins == 1
        move(session, part, 1, made.a1, made.slot)
        assert post.in_bins == 0


def _sent(database: Database, ask: Callable[[Session], object]) -> list[str]:
    """Return the statements that reach SQLite when a question is asked again."""
    with database.changing("ask") as session:
        ask(session)
        sent: list[str] = []
        driver = session.connection().connection.driver_connection
        assert driver is not None
        driver.set_trace_callback(sent.append)
        ask(session)
        driver.set_trace_callback(None)
    return sent


def test_a_part_is_shown_with_one_statement(sqlite: Database) -> None:
    """Place, bike, spec and part come in one row."""
    stocked_shop(sqlite)

    assert len(_sent(sqlite, lambda session: shown(session, "20000140"))) == 1


def test_a_bike_is_looked_at_with_one_statement(sqlite: Database) -> None:
    """All that is on a bike comes at once."""
    made, part = stocked_shop(sqlite)
    with sqlite.changing("mount") as session:
        move(session, part, 1, made.a1, made.slot)

    assert len(_sent(sqlite, lambda session: mounted(session, made.bike))) == 1


def test_bins_are_listed_without_adding_up_what_they_hold(sqlite: Database) -> None:
    """The list of bins costs as much as there are bins, however much is in them."""
    stocked_shop(sqlite)

    (statement,) = _sent(sqlite, list_bins)
    assert "holding" not in statement


def test_a_movement_looks_once_before_it_writes(sqlite: Database) -> None:
    """Of a movement from bin to bin one statement reads, whatever the triggers do besides."""
    made, part = stocked_shop(sqlite)
    places = [made.a1, made.b2]

    def there(session: Session) -> None:
        move(session, part, 1, *places)
        places.reverse()

    sent = _sent(sqlite, there)
    assert sum(statement.startswith("SELECT") for statement in sent) == 1


def test_what_only_looks_keeps_nothing(sqlite: Database) -> None:
    """What is set in a session that only reads is gone at its end (PostgreSQL refuses it)."""
    _, part = stocked_shop(sqlite)
    with sqlite.reading() as session:
        session.get_one(Part, part).note = "by mistake"
        session.flush()

    with sqlite.reading() as session:
        assert session.get_one(Part, part).note == ""
