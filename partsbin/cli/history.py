"""`partsbin history`: what happened to a part, in a bin or to a bike."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json

if TYPE_CHECKING:
    from partsbin.workshop.history import Event


@click.command()
@click.argument("thing", metavar="PART|BIN|BIKE")
@click.option("--last", type=click.IntRange(1), metavar="N", help="Only the last N lines.")
@json_option
def history_command(thing: str, last: int | None, *, as_json: bool) -> None:
    """Show every movement, edit and entry of a part, a bin or a bike: when, who, what, why.

    \b
    Example:
      partsbin history 20000140
      partsbin history A1 --last 20
    """
    from partsbin.workshop.history import history

    with opened() as database, database.reading() as session:
        told = history(session, thing)
    events = told.events[-last:] if last else told.events
    if as_json:
        print_json({"of": told.title, "events": [_as_data(event) for event in events]})
        return
    click.echo(told.title)
    act = 0
    for event in events:
        if event.act != act:
            act = event.act
            why = f": {event.why}" if event.why else ""
            gone = f" (undone by act {event.undone_by})" if event.undone_by else ""
            when = f"{event.at.astimezone():%Y-%m-%d %H:%M}"
            click.echo(f"{when}  act {act}, {event.who}, {event.what}{why}{gone}")
        click.echo(f"  {_words(event)}")


def _words(event: Event) -> str:
    from labels.number import grouped
    from partsbin.stock.money import show_money

    if event.number is None:
        amount = "" if event.cost is None else f"  {show_money(event.cost)}"
        return event.told + amount
    cost = "" if event.cost is None else f" (cost {show_money(event.cost)})"
    quantity = "" if event.quantity == "1" else f"{event.quantity} of "
    way = f"{event.source} -> {event.target}"
    return f"{quantity}{grouped(event.number)} {event.told}: {way}{cost}"


def _as_data(event: Event) -> dict[str, object]:
    from partsbin.stock.money import show_money

    return {
        "act": event.act,
        "at": event.at.isoformat(),
        "who": event.who,
        "what": event.what,
        "why": event.why,
        "told": event.told,
        "part": event.number,
        "quantity": event.quantity,
        "from": event.source,
        "to": event.target,
        "cost": None if event.cost is None else show_money(event.cost),
        "undone_by": event.undone_by,
    }
