"""`partsbin undo`: the last act taken back."""

from __future__ import annotations

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json


@click.command()
@click.option("--act", type=click.IntRange(1), metavar="N", help="An older act of yours instead.")
@click.option("--reason", default="", help="Why, for the history.")
@json_option
def undo_command(act: int | None, reason: str, *, as_json: bool) -> None:
    """Take back the last thing that you did, if nothing came after it for the same parts or bike.

    Nothing is erased: opposite movements and entries are added. Undoing again goes further back.

    \b
    Example:
      partsbin undo --reason "scanned the wrong bin"
    """
    from partsbin.stock.money import show_money
    from partsbin.workshop.undoing import undo

    with opened() as database, database.changing("undo", reason) as session:
        undone = undo(session, act)
    if as_json:
        moved = [
            {
                "part": back.part,
                "quantity": back.quantity,
                "from": back.source,
                "to": back.target,
                "cost": show_money(back.cost),
            }
            for back in undone.movements
        ]
        held = {"act": undone.act, "what": undone.what, "who": undone.who}
        print_json({**held, "movements": moved, "others": list(undone.others)})
        return
    when = f"{undone.at.astimezone():%Y-%m-%d %H:%M}"
    click.echo(f"undone: act {undone.act}, {undone.what}, of {when}")
    for back in undone.movements:
        what = "" if back.quantity else "only the cost of "
        cost = f" (cost {show_money(back.cost)})"
        click.echo(f"  {what}{back.part}: {back.source} -> {back.target}{cost}")
    for sentence in undone.others:
        click.echo(f"  {sentence}")
