"""`partsbin bike work`, `fee`, `transport`, `expect`: the account of a bike besides its parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json
from partsbin.cli.types import DAY, MONEY

if TYPE_CHECKING:
    from datetime import datetime


@click.command("work")
@click.argument("name")
@click.argument("time")
@click.option("--rate", type=MONEY, help="What an hour costs; else what it cost the last time.")
@click.option("--day", type=DAY, help="When, if not today.")
@click.option("--note", default="", help="What was done.")
@json_option
def work(
    name: str, time: str, rate: int | None, day: datetime | None, note: str, *, as_json: bool
) -> None:
    """Enter TIME of work on the bike of that NAME, like 45min or 1h30.

    \b
    Example:
      partsbin bike work Teasel 45min --rate 12 --note "trued both wheels"
    """
    from partsbin.stock.money import Money, show_money
    from partsbin.workshop.selling import read_minutes
    from partsbin.workshop.selling import work as enter

    minutes = read_minutes(time)
    with opened() as database, database.changing("bike work", note) as session:
        entry = enter(
            session,
            name,
            minutes,
            None if rate is None else Money(rate),
            day.date() if day else None,
            note,
        )
        held = {
            "bike": name,
            "minutes": minutes,
            "rate": show_money(entry.rate or 0),
            "cost": show_money(entry.amount),
        }
    if as_json:
        print_json(held)
    else:
        click.echo(f"{name}: {minutes} minutes at {held['rate']} an hour, {held['cost']}")


@click.command("fee")
@click.argument("name")
@click.argument("amount", type=MONEY)
@click.option("--day", type=DAY, help="When, if not today.")
@click.option("--note", default="", help="What for.")
@json_option
def fee(name: str, amount: int, day: datetime | None, note: str, *, as_json: bool) -> None:
    """Enter a fee that was paid for the bike of that NAME: an advertisement, a register.

    \b
    Example:
      partsbin bike fee Teasel 2.50 --note "advertisement"
    """
    _pay("fee", name, amount, day, note, as_json=as_json)


@click.command("transport")
@click.argument("name")
@click.argument("amount", type=MONEY)
@click.option("--day", type=DAY, help="When, if not today.")
@click.option("--note", default="", help="From where to where.")
@json_option
def transport(name: str, amount: int, day: datetime | None, note: str, *, as_json: bool) -> None:
    """Enter what it cost to fetch or bring the bike of that NAME.

    \b
    Example:
      partsbin bike transport Teasel 5 --note "fetched by train"
    """
    _pay("transport", name, amount, day, note, as_json=as_json)


@click.command("expect")
@click.argument("name")
@click.argument("price", type=MONEY)
@click.option("--to-complete", type=MONEY, default="0", help="What it will cost until then.")
@json_option
def expect(name: str, price: int, to_complete: int, *, as_json: bool) -> None:
    """Record what the bike of that NAME should sell for, so that `books` can value it.

    \b
    Example:
      partsbin bike expect Teasel 140 --to-complete 15
    """
    from partsbin.stock.money import Money, show_money
    from partsbin.workshop.selling import expect as record

    with opened() as database, database.changing("bike expect") as session:
        record(session, name, Money(price), Money(to_complete))
    held = {"bike": name, "price": show_money(price), "to_complete": show_money(to_complete)}
    if as_json:
        print_json(held)
    else:
        left = f", with {held['to_complete']} still to spend" if to_complete else ""
        click.echo(f"{name} is expected to sell for {held['price']}{left}")


def _pay(
    word: str, name: str, amount: int, day: datetime | None, note: str, *, as_json: bool
) -> None:
    from partsbin.stock.money import Money, show_money
    from partsbin.stock.words import EntryType
    from partsbin.workshop.selling import pay

    date = day.date() if day else None
    with opened() as database, database.changing(f"bike {word}", note) as session:
        pay(session, name, EntryType(word), Money(amount), date, note)
    if as_json:
        print_json({"bike": name, "type": word, "amount": show_money(amount)})
    else:
        click.echo(f"{name}: {word} {show_money(amount)}")
