"""`partsbin prices`: what generic new parts and adapters cost."""

from __future__ import annotations

from pathlib import Path

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, say


@click.group(name="prices")
def prices_command() -> None:
    """Take in and show the price list of new parts, from which plans buy.

    \b
    Example:
      partsbin prices import prices.csv
    """


@prices_command.command(name="import")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--dry-run", is_flag=True, help="Only say what is wrong with the file.")
@json_option
def import_command(file: Path, *, dry_run: bool, as_json: bool) -> None:
    """Put a CSV FILE in the place of the price list.

    Its columns are kind, adapter, attributes, price, lead days and note. Attributes stand in one
    cell, as in `speeds=8; side=rear`; an adapter that is no kind has only the words that name it.

    \b
    Example:
      partsbin prices import prices.csv --dry-run
    """
    from partsbin.workshop.pricing import import_prices, read_prices

    if dry_run:
        lines = read_prices(file)
    else:
        with opened() as database, database.changing("prices import") as session:
            lines = import_prices(session, file)
    if as_json:
        print_json({"prices": len(lines), "taken_in": not dry_run})
    else:
        would = "would be" if dry_run else "are"
        click.echo(f"{len(lines)} prices {would} in the list")


@prices_command.command(name="list")
@json_option
def list_command(*, as_json: bool) -> None:
    """Show the price list.

    \b
    Example:
      partsbin prices list
    """
    from partsbin.stock.money import show_money
    from partsbin.workshop.planning.making import price_items

    with opened() as database, database.reading() as session:
        items = price_items(session)
    if as_json:
        print_json(
            [
                {
                    "kind": item.spec.kind if item.spec else "",
                    "adapter": item.named,
                    "attributes": item.spec.plain() if item.spec else {},
                    "price": show_money(item.price),
                    "lead_days": item.lead_days,
                    "note": item.note,
                }
                for item in items
            ]
        )
    elif not items:
        say("the price list is empty; take one in with: partsbin prices import FILE")
    else:
        rows = [
            (
                show_money(item.price),
                "" if item.lead_days is None else str(item.lead_days),
                str(item.spec) if item.spec else item.named,
                item.note,
            )
            for item in items
        ]
        print_columns(("price", "days", "what", "note"), rows)
