"""The books on the page are those of the command, and so are their files."""

from __future__ import annotations

import csv
import datetime as dt
from io import BytesIO, StringIO

import pypdfium2
import pytest

from partsbin.bench.drawing.plots import lying, standing
from partsbin.bench.rooms.books import periods
from partsbin.workshop.plots import Bar
from tests.bench_page.conftest import BenchClient
from tests.conftest import Shop

TODAY = dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
WHY = ("--anyway", "a test of the books")
PERIOD = {"from": "2026-01-01", "to": str(TODAY)}


@pytest.fixture
def trading(client: BenchClient) -> BenchClient:
    """Return the page of a workshop that sold two bikes, one at a loss, and scrapped a part."""
    shop = client.shop
    shop.told("sell", "Juniper", "150", "--fee", "7", *WHY)
    shop.told("sell", "Yarrow", "15", *WHY)
    shop.told("part", "scrap", "20000334", "--reason", "bent")
    return client


def asked(shop: Shop, *more: str) -> dict[str, object]:
    """Return the command's books of the period."""
    told = shop.asked("books", "--from", PERIOD["from"], "--to", PERIOD["to"], *more)
    assert isinstance(told, dict)
    return told


def test_the_same_figures_as_the_command(trading: BenchClient) -> None:
    """Profit, sales, stock, bikes and write-offs are the command's to the last digit."""
    told = trading.shop.asked("books", "--from", PERIOD["from"], "--to", PERIOD["to"])
    answer = trading.get("/books/", query_string=PERIOD)
    page = answer.get_data(as_text=True)
    assert f"<dt>profit</dt><dd>{told['profit']}</dd>" in page
    assert f"<dt>sales</dt><dd>{told['sales']}</dd>" in page
    assert f"<dt>stock is worth</dt><dd>{told['stock']['all']['value']}</dd>" in page
    assert f"{told['margin_percent']} % of the sales" in page
    for bike in told["bikes"]:
        assert f'<th scope="row">{bike["bike"]}</th><td class="amount">{bike["sales"]}</td>' in page
        assert f'<td class="amount">{bike["profit"]}</td>' in page
    assert "<td>bent</td>" in page
    assert 'class="loss"' not in page


def test_a_change_is_in_the_books_at_once(trading: BenchClient) -> None:
    """Books are kept until the record changes, and not longer."""
    first = trading.get("/books/", query_string=PERIOD).get_data(as_text=True)
    assert trading.get("/books/", query_string=PERIOD).get_data(as_text=True) == first
    trading.shop.told("sell", "Teasel", "90", *WHY)
    after = trading.shop.asked("books", "--from", PERIOD["from"], "--to", PERIOD["to"])
    page = trading.get("/books/", query_string=PERIOD).get_data(as_text=True)
    assert f"<dt>sales</dt><dd>{after['sales']}</dd>" in page


def test_what_a_sale_costs_lowers_the_stock(trading: BenchClient) -> None:
    """The percent that a sale costs is taken off what the stock is worth, as with --selling."""
    told = trading.shop.asked(
        "books", "--from", PERIOD["from"], "--to", PERIOD["to"], "--selling", "90"
    )
    page = trading.get("/books/", query_string={**PERIOD, "selling": "90"}).get_data(as_text=True)
    assert f"<dt>stock is worth</dt><dd>{told['stock']['all']['value']}</dd>" in page


def test_the_postings_as_csv(trading: BenchClient) -> None:
    """Every posting of the period is in the file, and they add up to the profit that is shown."""
    answer = trading.get("/books/postings.csv", query_string=PERIOD)
    assert answer.mimetype == "text/csv"
    rows = list(csv.DictReader(StringIO(answer.get_data(as_text=True))))
    cents = [
        round(100 * float(row["amount"])) * (1 if row["account"] == "sale" else -1)
        for row in rows
        if row["account"] != "bought"
    ]
    told = trading.shop.asked("books", "--from", PERIOD["from"], "--to", PERIOD["to"])
    assert sum(cents) == round(100 * float(told["profit"]))


def test_the_page_as_pdf(trading: BenchClient) -> None:
    """The books come as one page of PDF with the figures in it."""
    answer = trading.get("/books/books.pdf", query_string=PERIOD)
    assert answer.mimetype == "application/pdf"
    with pypdfium2.PdfDocument(BytesIO(answer.get_data())) as pdf:
        assert len(pdf) == 1
        text = pdf[0].get_textpage().get_text_range()
    assert "Juniper" in text


@pytest.mark.parametrize(
    ("asked_for", "told"),
    [
        pytest.param({"from": "yesterday"}, "is no day", id="no day"),
        pytest.param(
            {"from": "2026-05-01", "to": "2026-04-01"}, "before it begins", id="backwards"
        ),
        pytest.param({"from": "0001-01-01"}, "check the years", id="another age"),
        pytest.param({"selling": "lots"}, "is no share", id="no share"),
    ],
)
def test_a_wrong_period_is_told(client: BenchClient, asked_for: dict[str, str], told: str) -> None:
    """A period that cannot be is told on the page, and refused for the files."""
    answer = client.get("/books/", query_string=asked_for)
    assert answer.status_code == 422
    assert told in answer.get_data(as_text=True)
    assert client.get("/books/postings.csv", query_string=asked_for).status_code == 400


def test_an_empty_period(client: BenchClient) -> None:
    """Where nothing was sold the page says so, with nothing to divide by."""
    page = client.read("/books/?from=2020-01-01&to=2020-12-31")
    assert "No bike was sold in this period." in page
    assert "<dt>profit</dt><dd>0.00</dd>" in page


@pytest.mark.parametrize(
    ("today", "name", "days"),
    [
        ("2026-01-15", "last month", ("2025-12-01", "2025-12-31")),
        ("2026-03-31", "this quarter", ("2026-01-01", "2026-03-31")),
        ("2026-04-01", "this quarter", ("2026-04-01", "2026-04-01")),
        ("2024-02-29", "last year", ("2023-01-01", "2023-12-31")),
        ("2024-03-31", "last month", ("2024-02-01", "2024-02-29")),
    ],
)
def test_periods(today: str, name: str, days: tuple[str, str]) -> None:
    """The periods begin and end on the right days, in leap years too. By the calendar."""
    found = {
        told: (str(start), str(end)) for told, start, end in periods(dt.date.fromisoformat(today))
    }
    assert found[name] == days


def test_what_to_order(client: BenchClient) -> None:
    """The list is that of `reorder list`, on the page and as CSV."""
    assert "No minimum level is set" in client.read("/books/reorder")
    client.shop.told("reorder", "set", "tube", "--minimum", "20", "--pack", "10")
    told = client.shop.asked("reorder", "list")
    page = client.read("/books/reorder")
    for row in told:
        assert f'<th scope="row">{row["what"]}</th>' in page
        assert f'<td class="amount">{row["order"]}</td>' in page
    rows = list(csv.DictReader(StringIO(client.read("/books/reorder.csv"))))
    assert [row["what"] for row in rows] == [row["what"] for row in told]


def test_enough_is_there(client: BenchClient) -> None:
    """Levels with enough in stock are shown only when all are asked for."""
    client.shop.told("reorder", "set", "tube", "--minimum", "1")
    assert "Enough of everything is there." in client.read("/books/reorder")
    assert '<th scope="row">tube</th>' in client.read("/books/reorder?all=yes")


def test_plots_say_their_figures() -> None:
    """A plot's bars are drawn, coloured by class only, and told in words for who cannot see it."""
    drawn = lying("Sales & costs", [Bar("sales", 12000), Bar("fee", -700, start=12000)])
    assert drawn.count("<rect") == 2
    assert 'class="gain"' in drawn
    assert 'class="cost"' in drawn
    assert "style=" not in drawn
    assert 'aria-label="Sales &amp; costs: sales 120.00; fee \N{MINUS SIGN}7.00"' in drawn
    assert "nothing in this period" in lying("Bikes", [])
    assert 'aria-label="Profit: 05 5.00"' in standing("Profit", [("05", "", 500), ("06", "", 0)])
