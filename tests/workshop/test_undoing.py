"""Taking acts back: done and undone leaves everything as it was, and both in the record."""

from __future__ import annotations

import datetime as dt
import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import func, select

from partsbin.errors import PartsbinError
from partsbin.stock.balance import balance
from partsbin.stock.check import check
from partsbin.stock.database import Database, open_database
from partsbin.stock.errors import RefusedError
from partsbin.stock.ids import CLEARING, QUARANTINE, SCRAPPED, PartId, PlaceId
from partsbin.stock.models import Bike, BikeEntry, Holding, NoteWord, Part
from partsbin.stock.money import Money
from partsbin.stock.movements import carry_cost, move
from partsbin.stock.parts import edit_part
from partsbin.stock.words import EntryType, Grade
from partsbin.workshop.presale import read_results, record_check
from partsbin.workshop.selling import expect, keep, pay, sell, take_back, work
from partsbin.workshop.stripping import Orders, Split, strip
from partsbin.workshop.undoing import undo
from tests.conftest import Shop
from tests.stock.making import BALLS, add
from tests.stock.making import shop as made_shop

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

DAY = dt.date(2026, 10, 3)
A1, B2, SLOT = PlaceId(6), PlaceId(7), PlaceId(8)
"""The places of the shop that `making` adds, after those that every workshop has."""
ACTS = (
    "add", "lot", "move", "scrap", "split", "grade", "work", "fee", "sell", "return",
    "keep", "check", "expect", "strip",
)  # fmt: skip

ON_THE_BIKE = (("add", 2, 300), ("add", 0, 120))
"""Every run begins with a part on the bike and one in a bin, so that most acts find something."""


def everything(database: Database) -> object:
    """Return all that an act can change: holdings, money, what is known of things, accounts."""
    with database.reading() as session:
        parts = select(
            Part.id, Part.grade, Part.condition, Part.value, Part.note, Part.spec_id, Part.in_bins
        ).where(Part.id.in_(select(Holding.part_id)))
        noted = select(NoteWord.word, NoteWord.part_id)
        accounts = (
            select(
                BikeEntry.bike_id,
                BikeEntry.type,
                func.sum(BikeEntry.amount),
                func.coalesce(func.sum(BikeEntry.minutes), 0),
            )
            .group_by(BikeEntry.bike_id, BikeEntry.type)
            .having(func.sum(BikeEntry.amount) != 0)
        )
        held = select(Holding.part_id, Holding.place_id, Holding.quantity, Holding.cost)
        there = {row.part_id for row in session.execute(held)}
        return (
            sorted(map(tuple, session.execute(held))),
            sorted(map(tuple, session.execute(parts))),
            sorted(tuple(row) for row in session.execute(noted) if row.part_id in there),
            sorted(map(tuple, session.execute(select(Bike.name, Bike.state, Bike.price)))),
            sorted(map(tuple, session.execute(accounts))),
            balance(session),
        )


def do(session: Session, act: str, number: int, amount: int) -> None:
    """Do one of the acts with a thing and an amount; what cannot be done is refused."""
    place = (A1, B2, SLOT, QUARANTINE)[number % 4]
    count = session.scalar(select(func.count()).select_from(Part)) or 0
    part = PartId(number % count + 1) if count else PartId(1)
    where = session.scalar(select(Holding.place_id).where(Holding.part_id == part)) or A1
    acts: dict[str, Callable[[], object]] = {
        "add": lambda: add(session, place, cost=amount, value=Money(amount)),
        "lot": lambda: add(session, A1, BALLS, amount, lot=True, quantity=number + 1),
        "move": lambda: move(session, part, 1 + amount % 2, where, place),
        "scrap": lambda: move(session, part, 1, where, SCRAPPED),
        "split": lambda: split(session, part, where, Money(1 + amount // 3)),
        "grade": lambda: edit(session, part, [*Grade][number % 6], amount),
        "work": lambda: work(session, "Sorrel", 1 + number, Money(amount), DAY),
        "fee": lambda: pay(session, "Sorrel", EntryType.FEE, Money(amount), DAY),
        "sell": lambda: sell(session, "Sorrel", Money(amount), fee=Money(3), day=DAY, anyway="y"),
        "return": lambda: take_back(session, "Sorrel", day=DAY),
        "keep": lambda: keep(session, "Sorrel"),
        "check": lambda: record_check(session, "Sorrel", read_results([], all_ok=True), "A"),
        "expect": lambda: expect(session, "Sorrel", Money(amount), Money(0)),
        "strip": lambda: strip(session, "Sorrel", Orders(into="A1", split=Split.ZERO)),
    }
    acts[act]()


def edit(session: Session, part: PartId, grade: Grade, amount: int) -> None:
    """Change what is known of a part; what would change nothing is refused."""
    row = session.get(Part, part)
    if row is not None and (row.grade, row.value) == (grade, amount):
        raise RefusedError("all of this is so already")
    edit_part(session, part, grade=grade, value=Money(amount), note=f"seen {amount}")


def split(session: Session, part: PartId, where: PlaceId, cost: Money) -> None:
    """Take a cost off a part and put it onto the first one that is in bin A1."""
    taker = session.scalar(select(Holding.part_id).where(Holding.place_id == A1).limit(1))
    if taker is None:
        raise RefusedError("nothing is there to take the cost")
    carry_cost(session, part, where, CLEARING, cost)
    carry_cost(session, taker, CLEARING, A1, cost)


@pytest.fixture(scope="module")
def started() -> Iterator[Path]:
    """Give a database with two bins and a bike, not to be changed."""
    folder = Path(tempfile.mkdtemp())
    with (
        open_database(str(folder / "record.db"), "maker") as database,
        database.changing("set up") as session,
    ):
        made_shop(session)
    yield folder / "record.db"
    shutil.rmtree(folder)


@given(
    acts=st.lists(
        st.tuples(st.sampled_from(ACTS), st.integers(0, 9), st.integers(0, 500)),
        min_size=1,
        max_size=14,
    )
)
@settings(max_examples=25, deadline=None)
def test_done_and_undone_is_as_before(started: Path, acts: list[tuple[str, int, int]]) -> None:
    """Undone one by one, any acts leave each time what was there before, to the last cent.

    The law of an undo: for every act, undo after act is nothing.
    """
    with tempfile.TemporaryDirectory() as folder:
        file = shutil.copy(started, folder)
        with open_database(str(file), "tester") as database:
            before = []
            for act, number, amount in (*ON_THE_BIKE, *acts):
                state = everything(database)
                try:
                    with database.changing(act) as session:
                        do(session, act, number, amount)
                        session.flush()
                except PartsbinError:
                    continue
                before.append(state)
            for state in reversed(before):
                with database.changing("undo") as session:
                    undo(session)
                assert everything(database) == state
            with database.reading() as session:
                assert check(session) == []
            with (
                pytest.raises(PartsbinError, match="nothing that could be taken back"),
                database.changing("undo") as session,
            ):
                undo(session)


@pytest.mark.every_database
class TestCommand:
    """The command, in each kind of database."""

    def test_says_what_it_did(self, shop: Shop) -> None:
        """An undone move is the opposite move, and both are in the history."""
        shop.told("part", "move", "20000625", "D1")
        undone = shop.asked("undo", "--reason", "wrong bin")
        assert undone["what"] == "part move"
        assert [(m["from"], m["to"]) for m in undone["movements"]] == [("bin D1", "bin A1")]
        events = shop.asked("history", "20000625")["events"]
        assert [event["to"] for event in events] == ["bin A1", "bin D1", "bin A1"]
        assert events[-1]["why"] == "wrong bin"
        assert events[1]["undone_by"] == events[2]["act"]
        assert "everything adds up" in shop.told("db", "check")

    def test_goes_further_back(self, shop: Shop) -> None:
        """Undoing again undoes the act before, not the undoing."""
        shop.told("part", "move", "20000625", "D1")
        shop.told("part", "edit", "20000625", "--grade", "poor")
        assert shop.asked("undo")["what"] == "part edit"
        assert shop.asked("undo")["what"] == "part move"
        (place,) = shop.asked("part", "show", "20000625")["places"]
        assert (place["grade"], place["place"]) == ("good", "bin A1")

    def test_only_if_nothing_came_after(self, shop: Shop) -> None:
        """What somebody else did with the same part since then stands in the way, by name."""
        shop.told("part", "move", "20000625", "D1")
        shop.told("--who", "Ben Ash", "part", "move", "20000625", "D2")
        refused = shop.run("undo")
        assert refused.exit_code == 1
        assert "by Ben Ash" in refused.stderr
        assert "nothing was changed" in refused.stderr
        shop.told("--who", "Ben Ash", "undo")
        assert shop.asked("undo")["what"] == "part move"

    def test_others_things_do_not_stand_in_the_way(self, shop: Shop) -> None:
        """What came after for other parts is left alone."""
        shop.told("part", "move", "20000625", "D1")
        shop.told("--who", "Ben Ash", "part", "move", "20000431", "D1")
        assert shop.asked("undo")["what"] == "part move"
        events = shop.asked("history", "20000431")["events"]
        assert events[-1]["to"] == "bin D1"

    def test_only_ones_own(self, shop: Shop) -> None:
        """Nobody undoes what another did, by number or without."""
        shop.told("--who", "Ben Ash", "part", "move", "20000625", "D1")
        assert "has done nothing" in shop.run("--who", "Ada Quill", "undo").stderr
        act = shop.asked("history", "20000625")["events"][-1]["act"]
        refused = shop.run("--who", "Ada Quill", "undo", "--act", str(act))
        assert "is not yours" in refused.stderr
        assert shop.run("--who", "Ada Quill", "undo", "--act", "9999").exit_code == 1

    def test_an_older_act_by_its_number(self, shop: Shop) -> None:
        """An act that is not the last can be undone by its number, once."""
        shop.told("part", "move", "20000625", "D1")
        act = str(shop.asked("history", "20000625")["events"][-1]["act"])
        shop.told("part", "move", "20000431", "D1")
        assert str(shop.asked("undo", "--act", act)["act"]) == act
        assert "undone already" in shop.run("undo", "--act", act).stderr

    def test_what_changed_nothing(self, shop: Shop) -> None:
        """An act without a movement, edit or entry has no opposite and is refused by name."""
        shop.told("bin", "add", "Q1")
        refused = shop.run("undo")
        assert refused.exit_code == 1
        assert "'bin add'" in refused.stderr

    def test_a_sale(self, shop: Shop) -> None:
        """An undone sale is no sale: parts, state, checks and account are as before."""
        before = shop.asked("bike", "show", "Juniper"), shop.asked("books", "Juniper")
        shop.told("sell", "Juniper", "150", "--fee", "5", "--anyway", "test")
        shop.told("undo")
        assert (shop.asked("bike", "show", "Juniper"), shop.asked("books", "Juniper")) == before

    def test_a_donor_is_whole_again(self, shop: Shop) -> None:
        """An undone teardown puts every part back, with the price back on the frame."""
        before = shop.asked("bike", "show", "Bracken")
        shop.told("bike", "strip", "Bracken", "--inspected", "--grade", "saddle=poor")
        shop.told("undo")
        assert shop.asked("bike", "show", "Bracken") == before
        assert "everything adds up" in shop.told("db", "check")

    def test_a_bike_that_should_not_have_come(self, shop: Shop) -> None:
        """Its parts go back to the supplier and its name is free for the right one."""
        shop.told("bike", "add", "Vetchling", "--price", "99", "style=city")
        shop.told("undo")
        shop.told("bike", "add", "Vetchling", "--price", "9", "style=city")
        assert shop.asked("books", "Vetchling")["price"] == "9.00"
        assert "everything adds up" in shop.told("db", "check")

    def test_checks_no_longer_count(self, shop: Shop) -> None:
        """An undone check is as if nobody had looked."""
        shop.told("bike", "check", "Teasel", "--all-ok", "--by", "Ada Quill")
        shop.told("undo")
        items = shop.asked("bike", "check", "Teasel")["items"]
        assert {item["state"] for item in items} == {"open"}

    def test_undoing_a_change_lets_a_check_count_again(self, shop: Shop) -> None:
        """A part that was never really off leaves the check of its item as it was."""
        shop.told("bike", "check", "Teasel", "--all-ok", "--by", "Ada Quill")
        shop.told("unmount", "Teasel", "front tyre", "D1")
        shop.told("undo")
        items = shop.asked("bike", "check", "Teasel")["items"]
        assert {item["state"] for item in items} == {"ok"}

    def test_a_bike_that_others_worked_on(self, shop: Shop) -> None:
        """A sale is not undone over work that was entered after it."""
        shop.told("sell", "Juniper", "150", "--anyway", "test")
        shop.told("--who", "Ben Ash", "bike", "work", "Juniper", "10", "--rate", "9")
        assert "'bike work' by Ben Ash" in shop.run("undo").stderr


def test_history_of_an_edit(shop: Shop) -> None:
    """An edit says what was and what became, and who did it."""
    shop.told("--who", "Ben Ash", "part", "edit", "20000625", "--grade", "poor", "speeds=9")
    told = {e["told"] for e in shop.asked("history", "20000625")["events"] if e["who"] == "Ben Ash"}
    assert "grade: good -> poor" in told
    assert any("speeds 8" in text and "speeds 9" in text for text in told)


def test_bikes_entries_are_in_their_history(shop: Shop) -> None:
    """Work, fees, checks and states of a bike stand between its movements, in order."""
    shop.told("bike", "work", "Juniper", "45", "--rate", "12", "--note", "wheels")
    shop.told("bike", "check", "Juniper", "brakes=ok", "--by", "Ada Quill")
    shop.told("keep", "Juniper")
    told = [event["told"] for event in shop.asked("history", "Juniper")["events"]][-3:]
    assert told[0].startswith("labour, 45 minutes at 12.00 an hour")
    assert told[1:] == ["brakes ok, looked at by Ada Quill", "state: in work -> kept"]


def test_history_of_a_bin(shop: Shop) -> None:
    """A bin's history shows what came and what went, and can be cut to the last lines."""
    shop.told("part", "move", "20000625", "D1")
    events = shop.asked("history", "A1", "--last", "1")["events"]
    assert [(e["part"], e["from"], e["to"]) for e in events] == [("20000625", "bin A1", "bin D1")]


def test_history_of_nothing(shop: Shop) -> None:
    """What is not in the record is offered the nearest name."""
    refused = shop.run("history", "Teazel")
    assert refused.exit_code == 1
    assert "did you mean 'Teasel'?" in refused.stderr
