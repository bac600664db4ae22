"""`partsbin sell`, `keep` and `return`: what becomes of a bike."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say
from partsbin.cli.types import DAY, MONEY

if TYPE_CHECKING:
    from datetime import datetime

    from partsbin.workshop.selling import Sale


@click.command()
@click.argument("bike")
@click.argument("price", type=MONEY)
@click.option("--fee", type=MONEY, default="0", help="What the selling place or the bank takes.")
@click.option("--day", type=DAY, help="When, if not today.")
@click.option("--note", default="", help="Who bought it, how it was paid.")
@click.option("--anyway", metavar="REASON", default="", help="Sell what is not ready, and why.")
@json_option
def sell_command(
    bike: str,
    price: int,
    fee: int,
    day: datetime | None,
    note: str,
    anyway: str,
    *,
    as_json: bool,
) -> None:
    """Sell BIKE for PRICE: its parts leave the workshop with what they cost.

    A bike that is not ready is refused, unless --anyway says why; the reason is kept.

    \b
    Example:
      partsbin sell Teasel 140 --fee 7
    """
    from partsbin.stock.money import Money
    from partsbin.workshop.selling import sell

    with opened() as database, database.changing("sell", anyway.strip()) as session:
        sale = sell(
            session,
            bike,
            Money(price),
            fee=Money(fee),
            day=day.date() if day else None,
            note=note,
            anyway=anyway,
        )
    _tell(sale, "sold", as_json=as_json)
    if sale.overruled:
        say(f"overruled: {'; '.join(sale.overruled)}")
    say(f"next: partsbin books '{sale.bike}'")


@click.command()
@click.argument("bike")
@click.option("--refund", type=MONEY, help="What was paid back, if not the whole price.")
@click.option("--fee-back", type=MONEY, default="0", help="What came back of the fee.")
@click.option("--day", type=DAY, help="When, if not today.")
@click.option("--note", default="", help="Why it came back.")
@json_option
def return_command(
    bike: str,
    refund: int | None,
    fee_back: int,
    day: datetime | None,
    note: str,
    *,
    as_json: bool,
) -> None:
    """Take the sale of BIKE back: its parts return with what they cost, the price is paid out.

    It was out of the workshop, so every check before a sale must be made again.

    \b
    Example:
      partsbin return Teasel --note "saddle too high for the rider"
    """
    from partsbin.stock.money import Money
    from partsbin.workshop.selling import take_back

    with opened() as database, database.changing("return", note) as session:
        sale = take_back(
            session,
            bike,
            refund=None if refund is None else Money(refund),
            fee_back=Money(fee_back),
            day=day.date() if day else None,
            note=note,
        )
    _tell(sale, "returned", as_json=as_json)


@click.command()
@click.argument("bike")
@json_option
def keep_command(bike: str, *, as_json: bool) -> None:
    """Take BIKE into the workshop's own fleet at what it cost.

    \b
    Example:
      partsbin keep Juniper
    """
    from partsbin.stock.money import show_money
    from partsbin.workshop.books import books
    from partsbin.workshop.selling import keep

    with opened() as database, database.changing("keep") as session:
        kept = keep(session, bike)
        cost = books(session, kept.number).cost
    if as_json:
        print_json({"bike": kept.name, "state": str(kept.state), "cost": show_money(cost)})
    else:
        click.echo(f"{kept.name} is kept, at a cost of {show_money(cost)}")


def _tell(sale: Sale, word: str, *, as_json: bool) -> None:
    from partsbin.stock.money import show_money

    if as_json:
        print_json(
            {
                "bike": sale.bike,
                "amount": show_money(sale.amount),
                "fee": show_money(sale.fee),
                "parts": sale.parts,
                "cost_of_parts": show_money(sale.cost),
                "overruled": list(sale.overruled),
            }
        )
        return
    fee = f", fee {show_money(sale.fee)}" if sale.fee else ""
    click.echo(
        f"{sale.bike} {word} for {show_money(abs(sale.amount))}{fee}: "
        f"{sale.parts} parts that cost {show_money(sale.cost)}"
    )
