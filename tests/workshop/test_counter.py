"""Parts that are sold by themselves, over the counter."""

from __future__ import annotations

import csv
import datetime as dt
from collections.abc import Callable
from pathlib import Path

import pytest

from labels.number import Thing, make
from tests.conftest import Shop

pytestmark = pytest.mark.every_database
TODAY = dt.date.today().isoformat()  # noqa: DTZ011 - the day on the workshop's own wall


def new_part(shop: Shop, kind: str, *more: str) -> str:
    """Add a part to a bin and return its number."""
    return str(shop.asked("part", "add", kind, "--bin", "D1", *more)["part"])


def test_a_part_leaves_with_what_it_cost(shop: Shop) -> None:
    """Bought for 4.50 and sold for 12 at a fee of 1, a part brings 6.50, and is gone."""
    bell = new_part(shop, "bell", "--cost", "4.50")
    sold = shop.asked("part", "sell", bell, "--price", "12", "--fee", "1", "--note", "cash")

    figures = ("part", "from", "to", "cost", "amount", "fee", "profit", "overruled", "caution")
    assert [sold[name] for name in figures] == [
        bell, "bin D1", "sold", "4.50", "12.00", "1.00", "6.50", [], "",
    ]  # fmt: skip
    (place,) = shop.asked("part", "show", bell)["places"]
    assert (place["place"], place["cost"]) == ("sold", "4.50")
    assert "everything adds up" in shop.told("db", "check")


def test_the_books_have_income_cost_and_fee_of_one_day(shop: Shop) -> None:
    """The cost is expense on the day when it is sold for (IAS 2, paragraph 34, from memory)."""
    before = shop.asked("books", "--from", "2026-03-01", "--to", "2026-03-31")
    bell = new_part(shop, "bell", "--cost", "4.50")
    shop.told("part", "sell", bell, "--price", "12", "--fee", "1", "--day", "2026-03-14")
    after = shop.asked("books", "--from", "2026-03-01", "--to", "2026-03-31")

    assert (before["sales"], before["profit"]) == ("0.00", "0.00")
    assert (after["sales"], after["profit"]) == ("12.00", "6.50")
    assert shop.asked("books", "--from", "2026-03-15")["profit"] == "0.00"


def test_postings_name_the_part_and_who_sold_it(shop: Shop, tmp_path: Path) -> None:
    """The accountant's file has three lines of such a sale, with the part and the seller."""
    bell = new_part(shop, "bell", "--cost", "4.50")
    who = ("--who", "Ada Quill")
    shop.told(*who, "part", "sell", bell, "--price", "12", "--fee", "1", "--day", "2026-03-14")
    file = tmp_path / "postings.csv"
    shop.told("books", "--from", "2026-03-14", "--to", "2026-03-14", "--csv", str(file))

    with file.open(newline="") as opened:
        rows = [(r["account"], r["amount"], r["who"]) for r in csv.DictReader(opened)]
    assert rows == [
        ("sale", "12.00", "Ada Quill"),
        ("cost of parts sold", "4.50", "Ada Quill"),
        ("fee", "1.00", "Ada Quill"),
    ]


def test_some_of_a_lot(shop: Shop) -> None:
    """A lot is sold piece by piece, each time with its share of the cost."""
    lot = new_part(shop, "brake_cable", "--grade", "new", "--quantity", "10", "--cost", "15")
    refused = shop.run("part", "sell", lot, "--price", "3")
    assert refused.exit_code == 2
    assert "--quantity" in refused.stderr

    first = shop.asked("part", "sell", lot, "--price", "5", "--quantity", "2")
    second = shop.asked("part", "sell", lot, "--price", "2.50", "--quantity", "1")
    assert [(s["cost"], s["profit"]) for s in (first, second)] == [
        ("3.00", "2.00"),
        ("1.50", "1.00"),
    ]
    too_much = shop.run("part", "sell", lot, "--price", "9", "--quantity", "8")
    assert too_much.exit_code == 1
    assert "cannot take 8" in too_much.stderr
    assert "everything adds up" in shop.told("db", "check")


def test_the_bin_that_holds_enough_comes_first(shop: Shop) -> None:
    """Of a lot in two bins that is taken which holds the quantity."""
    lot = new_part(shop, "brake_cable", "--grade", "new", "--quantity", "10")
    shop.told("part", "move", lot, "A1", "--quantity", "7")
    assert shop.asked("part", "sell", lot, "--price", "9", "--quantity", "5")["from"] == "bin A1"
    assert shop.asked("part", "sell", lot, "--price", "9", "--quantity", "3")["from"] == "bin D1"


def _unsafe(shop: Shop) -> str:
    return new_part(shop, "saddle", "--grade", "unsafe", "--inspected")


def _waiting(shop: Shop) -> str:
    return new_part(shop, "fork")


@pytest.mark.parametrize(
    ("made", "why"),
    [
        pytest.param(_unsafe, "is unsafe", id="unsafe"),
        pytest.param(_waiting, "waits in quarantine for its inspection", id="in quarantine"),
    ],
)
def test_what_is_sold_only_with_a_reason(shop: Shop, made: Callable[[Shop], str], why: str) -> None:
    """A part that must not be ridden stays, unless a reason is told, which is kept."""
    number = made(shop)
    refused = shop.run("part", "sell", number, "--price", "2")
    assert refused.exit_code == 1
    assert why in refused.stderr
    assert shop.run("part", "sell", number, "--price", "2", "--anyway", " ").exit_code == 1

    sold = shop.run("part", "sell", number, "--price", "2", "--anyway", "for a lamp")
    assert sold.exit_code == 0
    assert f"overruled: it {why}" in sold.stderr
    events = shop.asked("history", number)["events"]
    assert {event["why"] for event in events if event["what"] == "part sell"} == {"for a lamp"}


def test_what_can_hurt_someone_is_sold_with_its_caution(shop: Shop) -> None:
    """The caution of the kind is printed for the buyer, and of other kinds nothing is."""
    stem = new_part(shop, "stem", "type=threadless", "--inspected")
    bell = new_part(shop, "bell")
    assert "caution: " in shop.run("part", "sell", stem, "--price", "5").stderr
    assert "caution" not in shop.run("part", "sell", bell, "--price", "5").stderr


def test_a_part_on_a_bike_is_taken_off_first(shop: Shop) -> None:
    """What is mounted, sold or scrapped is in no bin to be sold from."""
    mounted = next(p["number"] for p in shop.asked("bike", "show", "Juniper")["parts"])
    refused = shop.run("part", "sell", mounted, "--price", "5")
    assert refused.exit_code == 1
    assert "taken off first" in refused.stderr

    bell = new_part(shop, "bell")
    shop.told("part", "sell", bell, "--price", "5")
    again = shop.run("part", "sell", bell, "--price", "5")
    assert again.exit_code == 1
    assert "it is sold" in again.stderr


def test_the_history_tells_the_sale(shop: Shop) -> None:
    """A part's history has the movement and what it brought."""
    bell = new_part(shop, "bell", "--cost", "4.50")
    shop.told("part", "sell", bell, "--price", "12", "--fee", "1", "--note", "cash")
    told = shop.told("history", bell)
    assert f"sale on {TODAY}, fee 1.00, cash" in told
    assert "12.00" in told


def test_a_sale_is_undone(shop: Shop) -> None:
    """After an undo the part is in its bin again with its cost, and the books know no sale."""
    bell = new_part(shop, "bell", "--cost", "4.50")
    before = shop.asked("books", "--from", TODAY, "--to", TODAY)
    shop.told("part", "sell", bell, "--price", "12", "--fee", "1")
    assert shop.asked("books", "--from", TODAY, "--to", TODAY) != before

    assert "the sale of a part counts no more" in shop.told("undo")
    assert shop.asked("books", "--from", TODAY, "--to", TODAY) == before
    (place,) = shop.asked("part", "show", bell)["places"]
    assert (place["place"], place["cost"]) == ("bin D1", "4.50")
    assert "everything adds up" in shop.told("db", "check")


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("20000140",), 2, "--price"),
        (("20000140", "--price", "-1"), 2, "--price"),
        (("20000140", "--price", "cheap"), 2, "--price"),
        (("20000140", "--price", "5", "--quantity", "2"), 1, "single part"),
        ((make(Thing.PART, 9_999), "--price", "5"), 1, "no part"),
    ],
    ids=["no price", "below nothing", "no number", "two of one", "unknown"],
)
def test_refusals(shop: Shop, words: tuple[str, ...], code: int, told: str) -> None:
    """What cannot be is refused in one sentence."""
    refused = shop.run("part", "sell", *words)
    assert refused.exit_code == code, refused.output
    assert told in refused.stderr
