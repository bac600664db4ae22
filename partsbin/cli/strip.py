"""`partsbin bike strip`: taking a bike apart by options, from a CSV file, or asked slot by slot."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, say
from partsbin.cli.types import FOR_SLOT

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.database import Database
    from partsbin.workshop.stripping import Orders, Stripped

ForSlots = tuple[tuple[str, str], ...]


@click.command("strip")
@click.argument("name")
@click.option("--into", default="", metavar="BIN", help="One bin for all; else each kind's own.")
@click.option(
    "--split",
    type=click.Choice(["value", "zero", "hand"]),
    default="value",
    show_default=True,
    help="How the price is split: by sales value, not at all, or by --cost.",
)
@click.option("--inspected", is_flag=True, help="The inspections that the kinds need were made.")
@click.option("--grade", "grades", type=FOR_SLOT, multiple=True, help="Grade of what comes off.")
@click.option("--value", "values", type=FOR_SLOT, multiple=True, help="What it would sell for.")
@click.option("--cost", "costs", type=FOR_SLOT, multiple=True, help="Its share, split by hand.")
@click.option("--bin", "bins", type=FOR_SLOT, multiple=True, help="The bin for what comes off.")
@click.option(
    "--found",
    type=FOR_SLOT,
    multiple=True,
    metavar="SLOT=KIND;...",
    help="What the record lacks: 'rear shifter=shifter; speeds=8'.",
)
@click.option("--keep", multiple=True, metavar="SLOT", help="Leave this on the bike.")
@click.option(
    "--like", default="", metavar="ERA", help="The template it is like; see kinds --eras."
)
@click.option(
    "--from",
    "sheet",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    metavar="FILE.csv",
    help="A line for each slot; it goes before the options.",
)
@click.option("--ask/--no-ask", default=None, help="Ask slot by slot, as a terminal does anyway.")
@click.option(
    "--labels",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE.pdf",
    help="Print the labels of what came off.",
)
@click.option("--stock", default="", envvar="PARTSBIN_STOCK", help="The label sheet or roll.")
@click.option("--start", type=click.IntRange(1), default=1, help="Its first free label.")
@json_option
def strip(
    name: str,
    into: str,
    split: str,
    grades: ForSlots,
    values: ForSlots,
    costs: ForSlots,
    bins: ForSlots,
    found: ForSlots,
    keep: tuple[str, ...],
    like: str,
    sheet: Path | None,
    labels: Path | None,
    stock: str,
    start: int,
    *,
    inspected: bool,
    ask: bool | None,
    as_json: bool,
) -> None:
    """Take the bike of that NAME apart: its parts go into bins, its price is split over them.

    What is not stated of a part is filled in from the bike's other parts, and from the template
    that it is like, as assumed. Dead and unsafe parts are scrapped. Kinds that can hurt someone
    wait in quarantine unless they were inspected; `partsbin kinds KIND` says what to look at.

    The CSV file has the columns slot, kind, attributes, grade, inspected, bin, value, cost, keep
    and note, of which only slot may not be empty. On a terminal, and without a file, each slot is
    asked for.

    \b
    Example:
      partsbin bike strip Bracken --inspected --grade saddle=fair --keep fork
      partsbin bike strip Bracken --from bracken.csv --labels bracken.pdf
    """
    from partsbin.workshop.donor import read_stated
    from partsbin.workshop.donor_sheet import read_sheet
    from partsbin.workshop.stripping import read_orders
    from partsbin.workshop.stripping import strip as strip_bike

    orders = read_orders(
        into=into,
        split=split,
        inspected=inspected,
        grades=dict(grades),
        values=dict(values),
        costs=dict(costs),
        bins=dict(bins),
        keep=keep,
        like=like,
    )
    with opened() as database:
        if found:
            with database.reading() as session:
                orders = orders.with_stated(read_stated(session, name, dict(found)))
        if _asks(ask, sheet, as_json=as_json):
            orders = _asked(database, name, orders)
        with database.changing("bike strip") as session:
            if sheet is not None:
                orders = read_sheet(session, name, sheet, orders)
            stripped = strip_bike(session, name, orders)
            if labels is not None:
                _print_labels(session, stripped, labels, stock, start)
    if as_json:
        _tell_scripts(stripped)
    else:
        _tell(stripped)


def _asks(ask: bool | None, sheet: Path | None, *, as_json: bool) -> bool:
    if ask and sheet is not None:
        raise click.UsageError("--ask and --from cannot both be done")
    terminal = sys.stdin.isatty() and sys.stdout.isatty()
    return ask if ask is not None else terminal and sheet is None and not as_json


def _asked(database: Database, name: str, orders: Orders) -> Orders:
    """Return the orders with what a person answers slot by slot."""
    from partsbin.cli.strip_walk import walk

    with database.reading() as session:
        return walk(session, name, orders)


def _print_labels(session: Session, stripped: Stripped, file: Path, stock: str, start: int) -> None:
    """Write the labels of what came off and is kept into one file, as a print job."""
    from labels.label import Shape
    from partsbin.cli.label import DEFAULT_STOCK
    from partsbin.cli.label_printers import printer_for
    from partsbin.workshop.labelling import label_of
    from partsbin.workshop.print_jobs import keep_jobs
    from partsbin.workshop.printing import WHOLE_JOB, order, refusing, write

    kept = [done.number for done in stripped.parts if done.target != "scrapped"]
    labels = [label_of(session, number) for number in kept]
    stocks = dict.fromkeys(Shape, stock or DEFAULT_STOCK)
    printer = printer_for(session, None, None)
    with refusing():
        orders = order(labels, stocks, file, starts={WHOLE_JOB: start})
        written = write(orders, printer.printer)
    keep_jobs(session, orders, written, printer)
    for printed in written:
        say(f"{file}: labels {printed.labels}, pages {printed.pages}")
        for note in printed.notes:
            say(note)


def _tell_scripts(stripped: Stripped) -> None:
    from partsbin.cli.telling import done_as_data
    from partsbin.stock.money import show_money

    parts = [done_as_data(done) for done in stripped.parts]
    off = show_money(stripped.written_off)
    print_json({"bike": stripped.bike, "parts": parts, "written_off": off})


def _tell(stripped: Stripped) -> None:
    from labels.number import grouped
    from partsbin.stock.money import show_money

    print_columns(
        ("number", "from", "to", "cost", "what"),
        [
            (
                grouped(done.number),
                done.source.removeprefix(f"{stripped.bike}, "),
                done.target,
                show_money(done.cost),
                done.spec.brief,
            )
            for done in stripped.parts
        ],
    )
    if stripped.written_off:
        click.echo(f"written off: {show_money(stripped.written_off)}")
    if stripped.uninspected:
        say(f"in quarantine until inspected: {', '.join(stripped.uninspected)}")
        say("then: partsbin part move NUMBER BIN --inspected")
