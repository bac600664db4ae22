"""`partsbin label`: labels for parts, bins and bikes, as PDFs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click
from click.core import ParameterSource

from partsbin.cli.direct import Direct
from partsbin.cli.label_jobs import jobs
from partsbin.cli.label_printers import printer, printer_for, printers, test
from partsbin.cli.label_stocks import stocks
from partsbin.cli.label_verify import verify
from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say
from partsbin.errors import UsageError

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.label import Label, Shape
    from labels.sheet import Printed
    from partsbin.stock.label_tables import PrintJob
    from partsbin.workshop.printers import NamedPrinter
    from partsbin.workshop.printing import Order

T = TypeVar("T")
DEFAULT_STOCK = "a4-3x8-64x34"
LAST = "last"


@click.group(cls=Direct, direct="print")
def label_command() -> None:
    """Print labels for parts, bins and bikes, named by number or name, to a PDF.

    Print the PDF at 100 %, without "fit to page". What does not fit on a label is refused before
    anything is written. Each file is a job that is kept: --new prints what came in or changed since
    it was last printed, --again repeats a job.

    A bin or bike whose name is one of the commands below is given by its number, or after the word
    "print".

    \b
    Example:
      partsbin label A1 A2 -o bins.pdf --stock a4-2x4-99x68
      partsbin label 2000 1420 -o part.pdf --start 7
      partsbin label --new -o new.pdf --bin-stock a4-2x4-99x68 --bike-stock roll-102x51
      partsbin label --again --from 9 -o rest.pdf
    """


@label_command.command("print", short_help='Print labels; the word "print" may be left out.')
@click.argument("things", nargs=-1, metavar="PART|BIN|BIKE...")
@click.option(
    "-o",
    "--output",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE.pdf",
    help="Where the labels go; with several stocks, a file for each, with its name.",
)
@click.option("--new", is_flag=True, help="All that came in or changed since it was last printed.")
@click.option(
    "--again",
    is_flag=False,
    flag_value=LAST,
    metavar="[JOB]",
    help="Repeat a print job as it was, the last one without its number.",
)
@click.option("--from", "first", type=click.IntRange(1), metavar="N", help="Its label to begin at.")
@click.option(
    "--stock",
    default=DEFAULT_STOCK,
    show_default=True,
    envvar="PARTSBIN_STOCK",
    show_envvar=True,
    help="Sheet or roll, by name or TOML file.",
)
@click.option("--bin-stock", metavar="STOCK", help="That for bins, if it is another.")
@click.option("--bike-stock", metavar="STOCK", help="That for bikes, if it is another.")
@click.option(
    "--start", multiple=True, metavar="[STOCK=]N", help="The first free label of the first sheet."
)
@click.option(
    "--skip", multiple=True, metavar="[STOCK=]3,9", help="Labels of the first sheet that are gone."
)
@click.option("--copies", type=click.IntRange(1), default=1, show_default=True)
@click.option("--dpi", metavar="D", help="Dots per inch: 203.2, 300, 304.8, another; 600 without.")
@click.option(
    "--printer",
    "printer_name",
    metavar="NAME",
    envvar="PARTSBIN_PRINTER",
    show_envvar=True,
    help="A printer that `label printer` keeps: its dots, shift and scale.",
)
@click.option(
    "--preview",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE.png",
    help="The first page as a picture too.",
)
@json_option
@click.pass_context
def print_(
    context: click.Context,
    /,
    things: tuple[str, ...],
    output: Path | None,
    again: str | None,
    first: int | None,
    start: tuple[str, ...],
    skip: tuple[str, ...],
    copies: int,
    preview: Path | None,
    *,
    new: bool,
    as_json: bool,
    **_means: str | None,
) -> None:
    """Print labels; the word "print" may be left out, see `partsbin label --help`.

    \b
    Example:
      partsbin label print test -o bin.pdf
    """
    if bool(things) + new + (again is not None) != 1 or output is None:
        raise click.UsageError(
            "name what to label, or --new, or --again, and with -o the PDF file to write"
        )
    if first is not None and again is None:
        raise click.UsageError("--from goes with --again")
    from partsbin.workshop.print_jobs import due, keep_jobs, labels_of
    from partsbin.workshop.printing import order, refusing, write

    starts, skips = _by_stock(start, _position), _by_stock(skip, _positions)
    with opened() as database, refusing():
        with database.reading() as session:
            job = None if again is None else _job(session, again)
            if job is not None:
                labels = labels_of(session, job, first or 1)
            else:
                labels = due(session) if new else _labels(session, things)
            stocks, printer = _stocks(context, job), _printer(session, context, job)
        orders = order(labels, stocks, output, preview, starts=starts, skips=skips, copies=copies)
        written = write(orders, printer.printer)
        kept: list[int] = []
        if orders:
            with database.changing("label") as session:
                kept = keep_jobs(session, orders, written, printer)
    _tell(orders, written, kept, as_json=as_json)


def _labels(session: Session, things: Sequence[str]) -> list[Label]:
    from partsbin.workshop.labelling import label_of

    return [label_of(session, thing) for thing in things]


def _job(session: Session, text: str) -> PrintJob:
    from partsbin.workshop.print_jobs import job_numbered

    if text == LAST:
        return job_numbered(session, None)
    if not text.isdecimal():
        raise UsageError(f"{text!r} is no print job; give its number, `label jobs` lists them")
    return job_numbered(session, int(text))


def _typed(context: click.Context, option: str) -> bool:
    return context.get_parameter_source(option) is ParameterSource.COMMANDLINE


def _stocks(context: click.Context, job: PrintJob | None) -> dict[Shape, str]:
    """Return the stock for each shape of label: as typed, or that of the job that is repeated."""
    from labels.label import Shape

    typed = context.params
    stock = job.stock if job and not _typed(context, "stock") else typed["stock"]
    return {
        Shape.PART: stock,
        Shape.BIN: typed["bin_stock"] or stock,
        Shape.BIKE: typed["bike_stock"] or stock,
    }


def _printer(session: Session, context: click.Context, job: PrintJob | None) -> NamedPrinter:
    """Return the printer: as typed, or that of the job that is repeated."""
    name, dpi = context.params["printer_name"], context.params["dpi"]
    named = _typed(context, "printer_name")
    if dpi and named:
        raise click.UsageError("a kept printer has its own dots; give --dpi or --printer")
    if job and not dpi and not named:
        name, dpi = job.printer, None if job.printer else job.dpi
    return printer_for(session, None if dpi else name, dpi)


def _by_stock(texts: Sequence[str], read: Callable[[str], T]) -> dict[str, T]:
    """Return values by the stock that is named before each, empty where none is."""
    held = {}
    for text in texts:
        stock, _, value = text.rpartition("=")
        held[stock] = read(value)
    return held


def _position(text: str) -> int:
    if not text.strip().isdecimal():
        raise UsageError(f"{text!r} is no label of a sheet; count from 1 at the top left")
    return int(text)


def _positions(text: str) -> tuple[int, ...]:
    return tuple(_position(figure) for figure in text.replace(",", " ").split())


def _tell(
    orders: Sequence[Order], written: Sequence[Printed], kept: Sequence[int], *, as_json: bool
) -> None:
    done = list(zip(orders, written, kept, strict=True))
    if as_json:
        print_json({"files": [_as_data(*one) for one in done]})
    elif not done:
        say("nothing came in or changed since it was last printed; no file was written")
    for one, printed, job in done:
        if not as_json:
            click.echo(
                f"{one.path}: labels {printed.labels}, pages {printed.pages}, "
                f"stock {one.stock.name}, job {job}"
            )
        for note in printed.notes:
            say(note)


def _as_data(one: Order, printed: Printed, job: int) -> dict[str, Any]:
    return {
        "file": str(one.path),
        "preview": None if one.preview is None else str(one.preview),
        "stock": one.stock.name,
        "labels": printed.labels,
        "pages": printed.pages,
        "job": job,
        "numbers": [label.number for label in one.labels],
    }


for command in (stocks, test, printer, printers, jobs, verify):
    label_command.add_command(command)
