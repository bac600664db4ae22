"""`partsbin books`: what a bike cost and earned."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json

if TYPE_CHECKING:
    from partsbin.workshop.books import Books


@click.command()
@click.argument("bike")
@json_option
def books_command(bike: str, *, as_json: bool) -> None:
    """Say what BIKE cost and, once it is sold, what it earned.

    \b
    Example:
      partsbin books Teasel
    """
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
    return {"bike": account.bike, "state": str(account.state), **lines, "needs": needs}


def _lines(account: Books) -> list[tuple[str, str, int]]:
    """Return the lines of the account: a name for programs, one for people, the amount."""
    lines = [
        ("price", "bought for", account.price),
        ("from_stock", "parts from the bins", account.from_stock),
        ("new_parts", "parts bought for it", account.new_parts),
        ("taken_off", "parts taken off again", -account.taken_off),
        ("labour", f"labour, {account.labour_minutes} minutes", account.labour),
        ("fees", "fees", account.fees),
        ("transport", "transport", account.transport),
        ("cost", "cost so far", account.cost),
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
            click.echo(f"  {text:<24}{show_money(amount):>10}")
    if account.needs:
        needs = ", ".join(f"{slot} ({why})" for slot, why in account.needs)
        click.echo(f"  still needs: {needs}")
