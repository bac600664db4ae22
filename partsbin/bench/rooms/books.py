"""The books: what a period earned, what the stock is worth, what to order."""

from __future__ import annotations

import csv
import datetime as dt
import tempfile
from collections.abc import Callable
from decimal import Decimal
from io import BytesIO, StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from flask import Blueprint, Response, render_template, request, send_file
from flask.typing import ResponseReturnValue

from partsbin.bench.drawing.plots import lying, standing
from partsbin.bench.kept import Kept, kept
from partsbin.bench.shop import record
from partsbin.errors import UsageError
from partsbin.workshop.books_page import (
    MATCHED,
    WORTH,
    age_bars,
    bike_bars,
    over_time,
    saved_bars,
    staircase,
    stock_bars,
)
from partsbin.workshop.offer_words import read_share
from partsbin.workshop.workshop_books import WorkshopBooks, workshop_books

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

room = Blueprint("books", __name__, url_prefix="/books")
room.record_once(lambda state: Kept.hold(state.app))
MOST_LINES = 20
"""Rows that a table shows; the file has all."""
UNPROCESSABLE = 422


def periods(today: dt.date) -> list[tuple[str, dt.date, dt.date]]:
    """Return the periods that are mostly asked for, by name.

    >>> [name for name, *_ in periods(dt.date(2026, 1, 15))]
    ['this month', 'last month', 'this quarter', 'this year', 'last year']
    """
    month = today.replace(day=1)
    last_month = month - dt.timedelta(days=1)
    year = today.replace(month=1, day=1)
    quarter = today.replace(month=3 * ((today.month - 1) // 3) + 1, day=1)
    return [
        ("this month", month, today),
        ("last month", last_month.replace(day=1), last_month),
        ("this quarter", quarter, today),
        ("this year", year, today),
        ("last year", year.replace(year=year.year - 1), year - dt.timedelta(days=1)),
    ]


@room.get("/")
def page() -> ResponseReturnValue:
    """Show the books of a period, this year's if none is asked for."""
    today = dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    status, fault = 200, ""
    try:
        books = _books()
    except UsageError as wrong:
        status, fault = UNPROCESSABLE, str(wrong)
        books = _reckoned(today.replace(month=1, day=1), today, Decimal(0))
    return render_template(
        "books/page.html",
        kept=books,
        fault=fault,
        periods=periods(today),
        address=_address(books),
        selling=request.args.get("selling", ""),
        plots=_plots(books),
        dearest=sorted(books.write_offs, key=lambda line: -line.amount)[:MOST_LINES],
        bikes=books.bikes[:MOST_LINES],
        matched=MATCHED,
        worth=WORTH,
    ), status


def _books() -> WorkshopBooks:
    """Return the books of the period that the address asks for."""
    today = dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    start = _day("from", today.replace(month=1, day=1))
    selling = request.args.get("selling", "").strip()
    percent = read_share(selling) * 100 if selling else Decimal(0)
    return _reckoned(start, _day("to", today), percent)


def _reckoned(start: dt.date, end: dt.date, selling: Decimal) -> WorkshopBooks:
    today = dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    with record().reading() as session:
        return kept(session, _on_a_day, today, start, end, selling)


def _on_a_day(
    session: Session, _today: dt.date, start: dt.date, end: dt.date, selling: Decimal
) -> WorkshopBooks:
    """Return the books as they are on a day: parts grow older though nothing changes."""
    return workshop_books(session, start, end, selling)


def _day(name: str, default: dt.date) -> dt.date:
    text = request.args.get(name, "").strip()
    try:
        return dt.date.fromisoformat(text) if text else default
    except ValueError:
        raise UsageError(f"{text!r} is no day; type it like 2026-03-31") from None


def _address(books: WorkshopBooks) -> dict[str, str]:
    """Return the period as an address holds it."""
    held = {"from": str(books.start), "to": str(books.end)}
    if request.args.get("selling"):
        held["selling"] = request.args["selling"]
    return held


def _plots(books: WorkshopBooks) -> list[dict[str, Any]]:
    """Return the plots of the page, each with its title and what it shows."""
    name, bars = over_time(books)
    saved = f"{books.saved.parts} parts fitted, {books.saved.known} with a known new price"
    told = [
        ("From sales to profit", "each cost takes its step off", list(staircase(books.result))),
        ("What each bike brought", "profit, and an hour of work", bike_bars(books.bikes)),
        ("How old the parts are", "their cost, by days in stock", age_bars(books.stock)),
        (f"The stock on {books.stock.day}", "cost and worth", list(stock_bars(books.stock))),
        ("What the bins saved", saved, saved_bars(books.saved)),
    ]
    plots = [
        {"title": title, "what": what, "svg": lying(title, lines)} for title, what, lines in told
    ]
    title = f"Profit by {name}"
    plots.insert(1, {"title": title, "what": "in whole units", "svg": standing(title, bars)})
    return plots


@room.get("/postings.csv")
def postings() -> ResponseReturnValue:
    """Send every posting of the period, for an accountant."""
    from partsbin.workshop.books_files import write_postings

    return _file(write_postings, "postings.csv", "text/csv")


@room.get("/books.pdf")
def pdf() -> ResponseReturnValue:
    """Send the books of the period on one page."""
    from partsbin.workshop.books_page import write_page

    return _file(write_page, "books.pdf", "application/pdf")


def _file(write: Callable[[WorkshopBooks, Path], Any], name: str, type_: str) -> Response:
    books = _books()
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / name
        write(books, file)
        content = BytesIO(file.read_bytes())
    told = f"{books.start}-{books.end}-{name}"
    return send_file(content, mimetype=type_, as_attachment=True, download_name=told)


@room.get("/reorder")
def reorder() -> ResponseReturnValue:
    """Show what is to be ordered, or with `all` every minimum level."""
    from partsbin.workshop.reordering import COLUMNS

    rows, some = _to_order()
    return render_template("books/reorder.html", columns=COLUMNS, rows=rows, some=some)


@room.get("/reorder.csv")
def reorder_csv() -> ResponseReturnValue:
    """Send the list of what is to be ordered, for a spreadsheet."""
    from partsbin.workshop.reordering import COLUMNS

    rows, _ = _to_order()
    out = StringIO(newline="")
    writer = csv.DictWriter(out, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    headers = {"Content-Disposition": "attachment; filename=order.csv"}
    return Response(out.getvalue(), mimetype="text/csv", headers=headers)


def _to_order() -> tuple[list[dict[str, str]], bool]:
    """Return the rows that are asked for, and whether any level is set at all."""
    from partsbin.workshop.reordering import as_table, levels

    with record().reading() as session:
        listed = levels(session, dt.datetime.now(dt.UTC).date())
    every = request.args.get("all") == "yes"
    return as_table([level for level in listed if every or level.order]), bool(listed)
