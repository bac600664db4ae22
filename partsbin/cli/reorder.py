"""`partsbin reorder`: minimum levels, and what is to be ordered."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, say


@click.group()
def reorder_command() -> None:
    """Set minimum levels and list what is to be ordered.

    \b
    Example:
      partsbin reorder set tube bsd=622 --minimum 6 --lead-days 5 --pack 10
      partsbin reorder list --csv order.csv
    """


@reorder_command.command("set")
@click.argument("what", metavar="KIND|LOT")
@click.argument("attributes", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--minimum", default="", help="What is always to be there: 6, or 10 m of housing.")
@click.option("--lead-days", type=int, help="Days from the order until it is there.")
@click.option("--lead-spread", type=int, help="By how many days that varies (deviation).")
@click.option("--pack", default="", help="How much a pack holds.")
@json_option
def set_(
    what: str,
    attributes: tuple[str, ...],
    minimum: str,
    lead_days: int | None,
    lead_spread: int | None,
    pack: str,
    *,
    as_json: bool,
) -> None:
    """Set the minimum level of a LOT by its number, or of a KIND, or of those with attributes.

    \b
    Example:
      partsbin reorder set tube bsd=622 --minimum 6 --lead-days 5 --pack 10
    """
    from partsbin.stock.quantity import show_quantity
    from partsbin.workshop.reordering import Wanted, level_title, set_level

    wanted = Wanted(what, attributes, minimum, lead_days, lead_spread, pack)
    with opened() as database, database.changing("reorder set") as session:
        row = set_level(session, wanted)
        title = level_title(session, row)
    least, holds = (show_quantity(n, row.unit) for n in (row.minimum, row.pack))
    if as_json:
        held = {"what": title, "minimum": least, "pack": holds, "lead_days": row.lead_days}
        print_json({**held, "lead_spread_days": row.lead_spread_days})
        return
    click.echo(f"{title}: at least {least}, packs of {holds}, there in {row.lead_days} days")


@reorder_command.command("drop")
@click.argument("what", metavar="KIND|LOT")
@click.argument("attributes", nargs=-1, metavar="[NAME=VALUE]...")
@json_option
def drop(what: str, attributes: tuple[str, ...], *, as_json: bool) -> None:
    """Remove a minimum level, named as it was set.

    \b
    Example:
      partsbin reorder drop tube bsd=622
    """
    from partsbin.workshop.reordering import Wanted, drop_level

    with opened() as database, database.changing("reorder drop") as session:
        title = drop_level(session, Wanted(what, attributes))
    if as_json:
        print_json({"dropped": title})
    else:
        click.echo(f"{title}: no minimum level any more")


@reorder_command.command("list")
@click.option("--all", "everything", is_flag=True, help="Also what need not be ordered.")
@click.option(
    "--csv",
    "file",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE.csv",
    help="Write the list for a spreadsheet.",
)
@json_option
def list_(file: Path | None, *, everything: bool, as_json: bool) -> None:
    """List what is below its minimum, or down to its reorder point, and how much to order.

    The reorder point is what the lead time uses and a safety stock that keeps 95 of 100 lead times
    free of a shortage, reckoned from what was used in a year at most. The order is in whole packs
    and includes what is used until it comes.

    \b
    Example:
      partsbin reorder list
      partsbin reorder list --csv order.csv
    """
    from partsbin.workshop.reordering import as_table, levels

    with opened() as database, database.reading() as session:
        listed = levels(session, dt.datetime.now(dt.UTC).date())
    shown = as_table([level for level in listed if everything or level.order])
    if file is not None:
        _write(file, shown)
    if as_json:
        print_json([{k.replace(" ", "_"): text for k, text in row.items()} for row in shown])
    elif shown:
        print_columns(tuple(shown[0]), [tuple(row.values()) for row in shown])
    elif listed:
        say("enough of everything is there")
    else:
        say("no minimum level is set; set one with partsbin reorder set")


def _write(file: Path, rows: list[dict[str, str]]) -> None:
    """Write the list as CSV with a head line, also where nothing is to be ordered."""
    import csv

    from partsbin.workshop.reordering import COLUMNS

    with file.open("w", encoding="utf-8", newline="") as target:
        writer = csv.DictWriter(target, COLUMNS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
