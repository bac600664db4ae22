"""`partsbin books`: what a bike, or the whole workshop in a period, cost and earned."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say
from partsbin.cli.types import DAY, MONEY

if TYPE_CHECKING:
    import datetime as dt

    from partsbin.workshop.books import Books
    from partsbin.workshop.workshop_books import WorkshopBooks

HUNDRED = 100_00
"""All of a price, in hundredths of a percent, as two decimals are read."""


@click.command()
@click.argument("bike", required=False)
@click.option("--from", "start", type=DAY, help="First day; else the first of the record.")
@click.option("--to", "end", type=DAY, help="Last day; else today.")
@click.option(
    "--selling",
    type=MONEY,
    default="0",
    metavar="PERCENT",
    help="What a sale costs in percent of its price, for the value of the stock.",
)
@click.option("--csv", "table", type=click.Path(path_type=Path), help="Every posting, as CSV.")
@click.option("--pdf", "page", type=click.Path(path_type=Path), help="One page with plots.")
@json_option
def books_command(
    bike: str | None,
    start: dt.datetime | None,
    end: dt.datetime | None,
    selling: int,
    table: Path | None,
    page: Path | None,
    *,
    as_json: bool,
) -> None:
    """Say what BIKE cost and earned, or without one the whole workshop in a period.

    The stock is worth the lower of its cost and of what can be had for it (IAS 2).

    \b
    Example:
      partsbin books Teasel
      partsbin books --from 2026-10-01 --to 2026-12-31 --csv postings.csv --pdf books.pdf
    """
    if bike is not None:
        if start or end or table or page:
            raise click.UsageError("a period and files are for the whole workshop; name no BIKE")
        _bike_books(bike, as_json=as_json)
        return
    if selling > HUNDRED:
        raise click.BadParameter("a sale costs at most 100 percent", param_hint="--selling")
    import datetime as dt
    from decimal import Decimal

    from partsbin.cli.books_table import print_workshop
    from partsbin.workshop.books_files import as_data
    from partsbin.workshop.workshop_books import ever, workshop_books

    today = dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    with opened() as database, database.reading() as session:
        first = start.date() if start else min(ever(session), end.date() if end else today)
        last = end.date() if end else today
        kept = workshop_books(session, first, last, Decimal(selling).scaleb(-2))
    if as_json:
        print_json(as_data(kept))
    else:
        print_workshop(kept)
    _write(kept, table, page)


def _write(kept: WorkshopBooks, table: Path | None, page: Path | None) -> None:
    if table is not None:
        from partsbin.workshop.books_files import write_postings

        say(f"{table}: {write_postings(kept, table)} postings")
    if page is not None:
        from partsbin.workshop.books_page import write_page

        write_page(kept, page)
        say(f"{page}: one page")


def _bike_books(bike: str, *, as_json: bool) -> None:
    from partsbin.workshop.books import books

    with opened() as database, database.reading() as session:
        account = books(session, bike)
    if as_json:
        print_json(_as_data(account))
    else:
        _print(account)


def _as_data(account: Books) -> dict[str, object]:
    from partsbin.stock.money import show_money

    lines = {name: show_money(amount) for name, _, amount in _lines(account)}
    needs = [{"slot": slot, "why": why} for slot, why in account.needs]
    hourly = {
        "profit_per_hour": account.profit_per_hour,
        "earned_per_hour": account.earned_per_hour,
    }
    percents = {"margin_percent": account.margin, "markup_percent": account.markup}
    return {
        "bike": account.bike,
        "state": str(account.state),
        **lines,
        "stock_parts": account.stock_parts,
        "free_parts": account.free_parts,
        "labour_minutes": account.labour_minutes,
        **{name: None if held is None else str(held) for name, held in percents.items()},
        **{name: None if held is None else show_money(held) for name, held in hourly.items()},
        "needs": needs,
    }


def _lines(account: Books) -> list[tuple[str, str, int]]:
    """Return the lines of the account: a name for programs, one for people, the amount."""
    bins = "parts from the bins"
    if account.stock_parts:
        free = f", {account.free_parts} of them free" if account.free_parts else ""
        bins += f" ({account.stock_parts}{free})"
    lines = [
        ("price", "bought for", account.price),
        ("from_stock", bins, account.from_stock),
        ("new_parts", "parts bought for it", account.new_parts),
        ("taken_off", "parts taken off again", -account.taken_off),
        ("labour", f"labour, {account.labour_minutes} minutes", account.labour),
        ("fees", "fees", account.fees),
        ("transport", "transport", account.transport),
        ("cost", "cost so far" if account.sale is None else "cost", account.cost),
    ]
    if account.written_off:
        lines.append(("written_off", "of that written off", account.written_off))
    if account.sale is not None and account.profit is not None:
        lines += [("sale", "sold for", account.sale), ("profit", "profit", account.profit)]
    return lines


def _print(account: Books) -> None:
    from partsbin.stock.money import show_money

    click.echo(f"{account.bike}, {account.state}")
    always = {"price", "from_stock", "cost"}
    for name, text, amount in _lines(account):
        if amount or name in always:
            click.echo(f"  {text:<34}{show_money(amount):>10}")
    if account.margin is not None:
        click.echo(f"  {'margin, profit in the price':<34}{account.margin:>9}%")
    if account.profit_per_hour is not None and account.earned_per_hour is not None:
        click.echo(f"  {'profit per hour':<34}{show_money(account.profit_per_hour):>10}")
        earned = show_money(account.earned_per_hour)
        click.echo(f"  {'an hour of work brought':<34}{earned:>10}")
    if account.needs:
        needs = ", ".join(f"{slot} ({why})" for slot, why in account.needs)
        click.echo(f"  still needs: {needs}")
