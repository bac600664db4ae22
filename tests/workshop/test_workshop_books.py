"""The books of the workshop: its sums, the value of its stock, and the files that it writes."""

from __future__ import annotations

import csv
import datetime as dt
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest
from sqlalchemy import delete, select

from partsbin.stock.balance import balance
from partsbin.stock.database import Database, open_database
from partsbin.stock.ids import SCRAPPED, SOLD
from partsbin.stock.models import RecordedSpec
from partsbin.stock.money import Money, read_money
from partsbin.stock.movements import move
from partsbin.stock.price_tables import Price
from partsbin.workshop.postings import Account
from partsbin.workshop.stock_value import lower_of, net_realisable, value_stock
from partsbin.workshop.workshop_books import workshop_books
from tests.conftest import Shop
from tests.databases import Databases
from tests.stock.making import BALLS, add
from tests.stock.making import shop as made_shop

TODAY = dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
WHY = ("--anyway", "a test of the books")

BIRCH = (
    # quantity, cost and net realisable value of one; ja3.jsfiddle.net/parte/16994628.
    (12, "253", "228"),
    (18, "43", "48"),
    (12, "279", "262"),
    (50, "275", "266"),
    (29, "291", "299"),
)
PLAIN = (
    # quantity, total cost and total net realisable value; answer.ya.guru/questions/57054.
    (59, "1416", "1239"),
    (89, "3471", "4361"),
    (19, "1083", "1159"),
    (79, "2686", "3081"),
    (359, "6821", "5026"),
)


def money(text: str) -> Money:
    """Return an amount."""
    return read_money(text)


@pytest.fixture
def database(databases: Databases) -> Iterator[Database]:
    """Give an empty database, once of each kind."""
    address = databases.new()
    with open_database(address, "tester") as opened:
        yield opened
    databases.drop(address)


@pytest.mark.parametrize(
    ("rows", "lower"),
    [
        pytest.param([(q * money(c), q * money(v)) for q, c, v in BIRCH], "28393", id="five woods"),
        pytest.param([(money(c), money(v)) for _, c, v in PLAIN], "13505", id="five items"),
        # Cost 18, price 24 less 3 to sell, 500 of them: ixambee.com questions 186229.
        pytest.param(
            [(500 * money("18"), net_realisable(money("12000"), money("1500")))],
            "9000",
            id="less the cost to sell",
        ),
    ],
)
def test_lower_of_cost_and_net_realisable_value(rows: list[tuple[int, int]], lower: str) -> None:
    """Stock is worth, item by item, the lower of the two (IAS 2, paragraph 9)."""
    assert sum(lower_of(Money(c), Money(v)) for c, v in rows) == money(lower)


def test_the_stock_is_worth_the_lower(database: Database) -> None:
    """Lots in bins are valued item by item, at their price for each piece."""
    with database.changing("set up") as session:
        made = made_shop(session)
        for quantity, cost, value in BIRCH:
            whole = quantity * money(cost)
            more = {"lot": True, "quantity": quantity, "value": money(value)}
            add(session, made.a1, BALLS, whole, **more)
    with database.reading() as session:
        worth = value_stock(session, TODAY).parts
    assert worth.lower == money("28393")
    assert worth.cost == sum(q * money(c) for q, c, _ in BIRCH)
    assert worth.unpriced == 0


def test_a_price_that_nobody_said(database: Database) -> None:
    """Cost stands where no price is known; what is unsafe is worth nothing."""
    with database.changing("set up") as session:
        made = made_shop(session)
        add(session, made.a1, cost=500)
        add(session, made.a1, cost=700, grade="unsafe")
    with database.reading() as session:
        worth = value_stock(session, TODAY).parts
    assert (worth.cost, worth.lower, worth.unpriced) == (1200, 500, 1)


def test_all_that_was_sold_is_a_cost(database: Database) -> None:
    """A part that is sold without a bike is a cost of sales too, so that the balance is met."""
    with database.changing("set up") as session:
        made = made_shop(session)
        part = add(session, made.a1, cost=500).id
        move(session, add(session, made.a1, cost=70).id, 1, made.a1, SCRAPPED)
    with database.changing("sold over the counter") as session:
        move(session, part, 1, made.a1, SOLD)
    with database.reading() as session:
        costs = dict(workshop_books(session, TODAY, TODAY).result.costs)
        sums = balance(session)
    assert (costs[Account.PARTS], costs[Account.WRITE_OFF]) == (sums.sold, sums.written_off)
    assert sums.sold == 500


@pytest.mark.parametrize(
    ("price", "to_complete", "selling", "realisable"),
    [
        # Price less cost to complete less cost to sell (IAS 2, paragraph 6); worked by hand.
        ("100", "15", "10", "75.00"),
        ("100", "0", "0", "100.00"),
        ("20", "15", "50", "0.00"),
        ("9.99", "0", "10", "8.99"),
    ],
)
def test_net_realisable_value(price: str, to_complete: str, selling: str, realisable: str) -> None:
    """What can be had is never below nothing, and rounded to a minor unit."""
    found = net_realisable(money(price), money(to_complete), Decimal(selling))
    assert found == money(realisable)


@pytest.mark.every_database
class TestCommand:
    """The command, in each kind of database."""

    def test_profit_of_the_period(self, shop: Shop) -> None:
        """Costs of a bike meet its sale; what is not sold yet is no cost of the period."""
        shop.told("bike", "work", "Juniper", "1h", "--rate", "12")
        shop.told("bike", "transport", "Juniper", "4")
        shop.told("bike", "work", "Teasel", "2h")
        held = shop.asked("books")
        assert (held["profit"], held["labour"]) == ("0.00", "0.00")
        shop.told("sell", "Juniper", "150", "--fee", "7", *WHY)
        held = shop.asked("books")
        figures = ("sales", "cost_of_parts_sold", "labour", "transport", "fee", "profit")
        assert [held[name] for name in figures] == [
            "150.00", "60.00", "12.00", "4.00", "7.00", "67.00",
        ]  # fmt: skip
        assert held["earned_per_hour"] == "79.00"
        assert [bike["bike"] for bike in held["bikes"]] == ["Juniper"]
        assert held["bikes"][0]["profit"] == shop.asked("books", "Juniper")["profit"]

    def test_a_returned_sale_leaves_no_trace_in_the_profit(self, shop: Shop) -> None:
        """Sale and return in one period add up to the fees that were not paid back."""
        shop.told("bike", "work", "Juniper", "1h", "--rate", "12")
        shop.told("sell", "Juniper", "150", "--fee", "7", *WHY)
        shop.told("return", "Juniper")
        held = shop.asked("books")
        assert (held["sales"], held["cost_of_parts_sold"], held["labour"], held["profit"]) == (
            "0.00", "0.00", "0.00", "-7.00",
        )  # fmt: skip

    def test_an_undone_sale_leaves_none_at_all(self, shop: Shop) -> None:
        """An undone act is not in the books."""
        before = shop.asked("books")
        shop.told("sell", "Juniper", "150", "--fee", "7", *WHY)
        shop.told("undo")
        assert shop.asked("books") == before

    def test_work_after_the_sale(self, shop: Shop) -> None:
        """What is entered after a sale is a cost at once."""
        shop.told("sell", "Juniper", "150", *WHY)
        shop.told("bike", "transport", "Juniper", "4", "--note", "brought to the buyer")
        assert shop.asked("books")["transport"] == "4.00"

    def test_periods_add_up(self, shop: Shop) -> None:
        """Two periods have together the profit of both, each sale in its own."""
        days = ("2026-03-31", "2026-04-01")
        shop.told("sell", "Juniper", "150", "--day", days[0], *WHY)
        shop.told("sell", "Teasel", "90", "--day", days[1], *WHY)
        first = shop.asked("books", "--from", "2026-01-01", "--to", days[0])
        second = shop.asked("books", "--from", days[1], "--to", "2026-12-31")
        both = shop.asked("books", "--from", "2026-01-01", "--to", "2026-12-31")
        profits = [Decimal(held["profit"]) for held in (first, second, both)]
        assert profits == [Decimal("90.00"), Decimal("60.00"), Decimal("150.00")]
        assert [month["month"] for month in first["months"]] == ["2026-01", "2026-02", "2026-03"]

    def test_write_offs(self, shop: Shop) -> None:
        """What was scrapped lessens the profit by what it cost, and says why."""
        made = shop.asked("part", "add", "saddle", "--bin", "D1", "--cost", "6", "--inspected")
        shop.told("part", "scrap", made["part"], "--reason", "rails cracked")
        held = shop.asked("books")
        assert held["write_off"] == "6.00"
        (line,) = held["write_offs"]
        assert (line["cost"], line["why"]) == ("6.00", "rails cracked")

    def test_stock_of_bikes(self, shop: Shop) -> None:
        """A bike costs what its parts, work and transport cost; its value is what it will bring."""
        before = shop.asked("books")["stock"]["bikes"]
        shop.told("bike", "transport", "Juniper", "10")
        shop.told("bike", "expect", "Juniper", "70", "--to-complete", "20")
        after = shop.asked("books", "--selling", "10")["stock"]["bikes"]
        assert Decimal(after["cost"]) - Decimal(before["cost"]) == 10
        assert after["write_down"] == "27.00"  # 70 against 70 - 20 - 7
        shop.told("keep", "Juniper")
        kept = shop.asked("books")["stock"]
        assert (kept["own_fleet"], kept["bikes"]["count"]) == ("70.00", before["count"] - 1)

    def test_the_stock_adds_up_with_the_balance(self, shop: Shop) -> None:
        """What stock and own fleet cost is what was bought and is neither sold nor written off."""
        shop.told("sell", "Juniper", "150", *WHY)
        shop.told("bike", "strip", "Bracken", "--inspected", "--split", "zero")
        shop.told("keep", "Teasel")
        stock = shop.asked("books")["stock"]
        with open_database(shop.address) as database, database.reading() as session:
            sums = balance(session)
        there = Decimal(stock["all"]["cost"]) + Decimal(stock["own_fleet"])
        assert there.scaleb(2) == sums.in_stock + sums.on_bikes

    def test_the_stock_of_an_earlier_day(self, shop: Shop) -> None:
        """Before the record began there was nothing."""
        stock = shop.asked("books", "--from", "2020-01-01", "--to", "2020-12-31")["stock"]
        assert stock["all"]["count"] == 0
        assert stock["all"]["cost"] == "0.00"

    def test_what_the_bins_saved(self, shop: Shop) -> None:
        """A part from a bin saves what a new one of its kind costs, less what it cost."""
        made = shop.asked("part", "add", "bell", "--bin", "D1", "--cost", "1.50")
        with (
            open_database(shop.address) as database,
            database.changing("price of a new bell") as session,
        ):
            spec = session.scalar(select(RecordedSpec.id).where(RecordedSpec.kind == "bell"))
            session.execute(delete(Price).where(Price.spec_id == spec))
            session.add(Price(spec_id=spec, named="", price=Money(600), lead_days=None, note=""))
        shop.told("mount", made["part"], "Juniper", "bell")
        saved = shop.asked("books")["saved"]
        assert saved == {
            "parts": 1, "known": 1, "new_price": "6.00", "cost": "1.50", "saved": "4.50",
        }  # fmt: skip
        shop.told("unmount", "Juniper", "bell", "D1")
        assert shop.asked("books")["saved"]["parts"] == 0

    def test_the_postings_are_the_books(self, shop: Shop, tmp_path: Path) -> None:
        """The CSV for the accountant adds up, account by account, to what is shown."""
        made = shop.asked("part", "add", "saddle", "--bin", "D1", "--cost", "6", "--inspected")
        shop.told("part", "scrap", made["part"])
        shop.told("bike", "work", "Juniper", "1h", "--rate", "12")
        shop.told("sell", "Juniper", "150", "--fee", "7", "--note", "=cash()", *WHY)
        file = tmp_path / "postings.csv"
        held = shop.asked("books", "--csv", str(file))
        with file.open(encoding="utf-8", newline="") as lines:
            rows = list(csv.DictReader(lines))
        sums: Counter[str] = Counter()
        for row in rows:
            sums[row["account"]] += read_money(row["amount"])
        names = {"sale": "sales", "cost of parts sold": "cost_of_parts_sold", "labour": "labour"}
        names |= {"fee": "fee", "write-off": "write_off", "bought": "bought"}
        assert dict(sums) == {n: read_money(held[shown]) for n, shown in names.items()}
        assert "'=cash()" in {row["note"] for row in rows}


def test_ages(shop: Shop) -> None:
    """Parts that came today are in the first band, and every part is in one."""
    stock = shop.asked("books")["stock"]
    assert [age["from_days"] for age in stock["ages"]] == [0, 30, 90, 180, 365]
    assert stock["ages"][0]["parts"] == stock["parts"]["count"]
    assert stock["ages"][0]["cost"] == stock["parts"]["cost"]


def test_the_page(shop: Shop, tmp_path: Path) -> None:
    """The PDF is one page of vectors that shows the figures of the books."""
    import pypdfium2

    shop.told("bike", "work", "Juniper", "1h", "--rate", "12")
    shop.told("sell", "Juniper", "150", "--fee", "7", *WHY)
    shop.told("sell", "Teasel", "9", *WHY)
    file = tmp_path / "books.pdf"
    held = shop.asked("books", "--pdf", str(file))
    with pypdfium2.PdfDocument(file) as document:
        assert len(document) == 1
        words = document[0].get_textpage().get_text_range()
        kinds = {item.type for item in document[0].get_objects()}
    assert 3 not in kinds  # FPDF_PAGEOBJ_IMAGE of the library's fpdf_edit.h
    for figure in (held["sales"], held["stock"]["all"]["value"], "(83.00 an hour)"):
        assert figure in words
    for title in ("From sales to profit", "What each bike brought", "Juniper", "How old the parts"):
        assert title in words
    assert not (tmp_path / "books.pdf.part").exists()


def test_the_page_of_an_empty_workshop(empty_shop: Shop, tmp_path: Path) -> None:
    """Nothing in the record makes a page all the same."""
    file = tmp_path / "books.pdf"
    empty_shop.told("books", "--pdf", str(file))
    assert file.read_bytes().startswith(b"%PDF")


def test_the_tables(shop: Shop) -> None:
    """A person sees the profit, the bikes, the stock and what was written off."""
    shop.told("sell", "Juniper", "150", "--fee", "7", *WHY)
    told = shop.told("books")
    for words in ("profit", "bikes sold", "Juniper", "stock on", "age of the parts"):
        assert words in told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("books", "--from", "2026-05-02", "--to", "2026-05-01"), "ends before it begins"),
        (("books", "Juniper", "--csv", "a.csv"), "name no BIKE"),
        (("books", "--selling", "110"), "100 percent"),
        (("books", "--selling", "nan"), "nan"),
        (("books", "--from", "May"), "May"),
        (("books", "--from", "0001-01-01"), "check the years"),
        (("books", "--to", "9999-12-31"), "check the years"),
    ],
)
def test_refusals(shop: Shop, words: tuple[str, ...], told: str) -> None:
    """What cannot be is refused in one sentence."""
    refused = shop.run(*words)
    assert refused.exit_code == 2
    assert told in refused.stderr
