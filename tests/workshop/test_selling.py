"""A bike's account: what it cost, what it brought, and what becomes of it."""

from __future__ import annotations

import pytest

from tests.conftest import Shop

pytestmark = pytest.mark.every_database
WHY = ("--anyway", "a test of the books")


def add_bike(shop: Shop, name: str, price: str) -> None:
    """Add a bike that is a frame."""
    shop.told("bike", "add", name, "--style", "city", "--price", price, "style=city")


def test_worked_purchase(shop: Shop) -> None:
    """Bought for the most that pays, a bike brings the margin that was wanted.

    Worked from target costing (enna.com; xplaind.com/191551): sold for 180 at a fee of 10 %, parts
    22, 2.5 hours at 12 and transport 5, a margin of 30 % of the price leaves 51 for the purchase.
    """
    add_bike(shop, "Vetchling", "51")
    shop.told("part", "add", "saddle", "--bike", "Vetchling", "--slot", "saddle", "--cost", "22")
    shop.told("bike", "work", "Vetchling", "2h30", "--rate", "12")
    shop.told("bike", "transport", "Vetchling", "5")
    shop.told("sell", "Vetchling", "180", "--fee", "18", *WHY)
    books = shop.asked("books", "Vetchling")
    figures = ("price", "new_parts", "labour", "transport", "fees", "cost", "sale", "profit")
    assert [books[name] for name in figures] == [
        "51.00", "22.00", "30.00", "5.00", "18.00", "126.00", "180.00", "54.00",
    ]  # fmt: skip
    assert books["margin_percent"] == "30.0"
    assert books["labour_minutes"] == 150
    assert (books["profit_per_hour"], books["earned_per_hour"]) == ("21.60", "33.60")
    assert "everything adds up" in shop.told("db", "check")


@pytest.mark.parametrize(
    ("cost", "margin", "markup"),
    [
        # Margin m on the price is a markup of m / (1 - m) on the cost: calqoo.com profit margin.
        ("80", "20.0", "25.0"),
        ("60", "40.0", "66.7"),
        ("55", "45.0", "81.8"),
    ],
)
def test_margin_and_markup(shop: Shop, cost: str, margin: str, markup: str) -> None:
    """Margin is on the price and markup on the cost."""
    add_bike(shop, "Vetchling", cost)
    shop.told("sell", "Vetchling", "100", *WHY)
    books = shop.asked("books", "Vetchling")
    assert (books["margin_percent"], books["markup_percent"]) == (margin, markup)


def test_parts_by_source(shop: Shop) -> None:
    """Parts from the bins count at cost, free ones are told, bought ones stand apart."""
    add_bike(shop, "Vetchling", "10")
    bought = shop.asked("part", "add", "saddle", "--bin", "D1", "--cost", "4.50", "--inspected")
    free = shop.asked("part", "add", "seat_clamp", "diameter=31.8", "--bin", "D1")
    shop.told("mount", bought["part"], "Vetchling", "--anyway")
    shop.told("mount", free["part"], "Vetchling", "--anyway")
    shop.told("part", "add", "grips", "--bike", "Vetchling", "--slot", "grips", "--cost", "3")
    books = shop.asked("books", "Vetchling")
    assert (books["from_stock"], books["stock_parts"], books["free_parts"]) == ("4.50", 2, 1)
    assert books["new_parts"] == "3.00"
    shop.told("unmount", "Vetchling", "saddle", "D1")
    books = shop.asked("books", "Vetchling")
    assert (books["stock_parts"], books["free_parts"], books["taken_off"]) == (1, 1, "-4.50")
    assert books["cost"] == "13.00"


def test_what_is_sold_takes_its_cost_along(shop: Shop) -> None:
    """The parts of a sold bike are sold, with what they cost, and money is conserved."""
    sale = shop.asked("sell", "Juniper", "150", *WHY)
    assert sale["cost_of_parts"] == "60.00"
    assert shop.asked("bike", "show", "Juniper")["parts"] == []
    books = shop.asked("books", "Juniper")
    assert (books["state"], books["cost"], books["profit"]) == ("sold", "60.00", "90.00")
    assert books["needs"] == []
    assert "everything adds up" in shop.told("db", "check")


def test_a_sale_that_is_taken_back(shop: Shop) -> None:
    """After a return the same parts are in the same slots at the same cost, the price is paid."""
    before = shop.asked("bike", "show", "Juniper")["parts"]
    shop.told("sell", "Juniper", "150", "--fee", "6", *WHY)
    back = shop.asked("return", "Juniper", "--fee-back", "2", "--note", "too small")
    assert (back["amount"], back["fee"]) == ("-150.00", "-2.00")
    assert shop.asked("bike", "show", "Juniper")["parts"] == before
    books = shop.asked("books", "Juniper")
    assert books["state"] == "in work"
    assert "profit" not in books
    assert books["fees"] == "4.00"
    assert "everything adds up" in shop.told("db", "check")


def test_part_of_a_price_that_is_kept(shop: Shop) -> None:
    """What was not paid back of a price stays income of the bike, and more is not paid back."""
    shop.told("sell", "Juniper", "150", *WHY)
    refused = shop.run("return", "Juniper", "--refund", "151")
    assert refused.exit_code == 2
    assert "sold for 150.00" in refused.stderr
    shop.told("return", "Juniper", "--refund", "140")
    assert shop.asked("books", "Juniper")["sale"] == "10.00"


def test_sold_again_and_taken_back_again(shop: Shop) -> None:
    """A second sale is the one that a second return takes back."""
    shop.told("sell", "Juniper", "150", *WHY)
    shop.told("return", "Juniper")
    shop.told("sell", "Juniper", "120", *WHY)
    assert shop.asked("books", "Juniper")["sale"] == "120.00"
    assert shop.asked("return", "Juniper")["amount"] == "-120.00"
    assert "everything adds up" in shop.told("db", "check")


def test_kept_at_cost(shop: Shop) -> None:
    """A bike that is kept is the workshop's own at what it cost; nothing is earned."""
    shop.told("bike", "work", "Juniper", "30", "--rate", "12")
    kept = shop.asked("keep", "Juniper")
    assert kept == {"bike": "Juniper", "state": "kept", "cost": "66.00"}
    assert "profit" not in shop.asked("books", "Juniper")
    assert shop.run("keep", "Juniper").exit_code == 1


@pytest.mark.parametrize(
    ("time", "minutes"), [("45min", 45), ("1h30", 90), ("1,5 h", 90), ("2 hours", 120), ("20", 20)]
)
def test_times_as_people_type_them(shop: Shop, time: str, minutes: int) -> None:
    """Work is entered in hours, minutes or both."""
    assert shop.asked("bike", "work", "Juniper", time, "--rate", "10")["minutes"] == minutes


def test_the_rate_is_kept(shop: Shop) -> None:
    """The rate is asked for once, and then that of the last work holds."""
    refused = shop.run("bike", "work", "Juniper", "30")
    assert refused.exit_code == 2
    assert "--rate" in refused.stderr
    shop.told("bike", "work", "Juniper", "30", "--rate", "12")
    assert shop.asked("bike", "work", "Teasel", "20")["cost"] == "4.00"


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("bike", "work", "Juniper", "soon", "--rate", "9"), 2, "45min"),
        (("bike", "work", "Juniper", "0", "--rate", "9"), 2, "45min"),
        (("bike", "work", "Juniper", "9" * 5000, "--rate", "9"), 2, "45min"),
        (("bike", "work", "Juniper", "h", "--rate", "9"), 2, "45min"),
        (("return", "Juniper"), 1, "not sold"),
        (("sell", "Juniper", "150"), 1, "not ready"),
        (("sell", "Juniper", "150", "--anyway", " "), 1, "not ready"),
        (("sell", "Nobody", "150"), 1, "no bike"),
        (("keep", "Nobody"), 1, "no bike"),
    ],
)
def test_refusals(shop: Shop, words: tuple[str, ...], code: int, told: str) -> None:
    """What cannot be is refused in one sentence."""
    refused = shop.run(*words)
    assert refused.exit_code == code
    assert told in refused.stderr


def test_sold_bikes_and_donors_are_not_sold(shop: Shop) -> None:
    """What is gone cannot be sold, whatever the reason."""
    shop.told("sell", "Juniper", "150", *WHY)
    assert "sold already" in shop.run("sell", "Juniper", "150", *WHY).stderr
    shop.told("bike", "strip", "Bracken", "--inspected")
    assert "stripped already" in shop.run("sell", "Bracken", "150", *WHY).stderr


def test_nothing_is_put_onto_what_is_sold(shop: Shop) -> None:
    """A bike that is gone takes no part."""
    shop.told("sell", "Juniper", "150", *WHY)
    refused = shop.run("mount", "20000625", "Juniper", "rear shifter")
    assert refused.exit_code == 1
    assert "Juniper is sold" in refused.stderr
