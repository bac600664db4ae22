"""`partsbin label`: labels for parts, bins and bikes, as a PDF."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say
from partsbin.errors import UsageError

DEFAULT_STOCK = "a4-3x8-64x34"


@click.command()
@click.argument("things", nargs=-1, metavar="PART|BIN|BIKE...")
@click.option(
    "-o",
    "--output",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE.pdf",
    help="Where the labels go.",
)
@click.option("--stock", default=DEFAULT_STOCK, show_default=True, help="Sheet or roll.")
@click.option("--start", type=click.IntRange(1), default=1, show_default=True, help="First label.")
@click.option("--skip", default="", metavar="3,9", help="Labels of the first sheet that are gone.")
@click.option("--copies", type=click.IntRange(1), default=1, show_default=True)
@click.option("--dpi", default="600", show_default=True, help="203.2, 300, 304.8, 600 or another.")
@click.option(
    "--preview",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE.png",
    help="The first page as a picture too.",
)
@click.option("--stocks", is_flag=True, help="List the label stocks and end.")
@json_option
def label_command(
    things: tuple[str, ...],
    output: Path | None,
    stock: str,
    start: int,
    skip: str,
    copies: int,
    dpi: str,
    preview: Path | None,
    *,
    stocks: bool,
    as_json: bool,
) -> None:
    """Print labels for parts, bins and bikes, named by number or name, to a PDF.

    Print the PDF at 100 %, without "fit to page". What does not fit on the label is refused before
    anything is written.

    \b
    Example:
      partsbin label A1 A2 -o bins.pdf --stock a4-2x4-99x68
      partsbin label 20001420 20001517 -o parts.pdf --start 7
    """
    if stocks:
        _list_stocks(as_json=as_json)
        return
    if not things or output is None:
        raise click.UsageError("name what to label, and with -o the PDF file to write")
    from labels.printer import Printer
    from labels.sheet import preview_png, write_pdf
    from labels.stock import load
    from partsbin.workshop.labelling import label_of

    with opened() as database, database.reading() as session:
        labels = [label_of(session, thing) for thing in things]
    with refusing():
        sheet = load(stock)
        gone = _positions(skip)
        printed = write_pdf(
            labels, sheet, Printer(dpi=dpi), output, start=start, skip=gone, copies=copies
        )
        if preview is not None:
            preview_png(output, preview)
    if as_json:
        held = {"file": str(output), "labels": printed.labels, "pages": printed.pages}
        print_json({**held, "stock": sheet.name, "numbers": [label.number for label in labels]})
    else:
        click.echo(f"{output}: labels {printed.labels}, pages {printed.pages}, stock {sheet.name}")
    for note in printed.notes:
        say(note)


@contextmanager
def refusing() -> Iterator[None]:
    """Turn what the labels refuse into a refusal of the command."""
    from labels.layout import DoesNotFit
    from labels.printer import PrinterError
    from labels.sheet import PrintError
    from labels.stock import StockError

    try:
        yield
    except (StockError, PrinterError, PrintError, DoesNotFit) as fault:
        raise UsageError(str(fault)) from fault


def _positions(text: str) -> list[int]:
    try:
        return [int(figure) for figure in text.replace(",", " ").split()]
    except ValueError:
        raise UsageError(f"{text!r} is no list of labels; type it like 3,9") from None


def _list_stocks(*, as_json: bool) -> None:
    from labels.stock import load, names

    listed = [load(name) for name in names()]
    if as_json:
        print_json([{"stock": s.name, "labels": s.count, "note": s.note} for s in listed])
        return
    for sheet in listed:
        size = f"{sheet.label_width_um / 1000:g} x {sheet.label_height_um / 1000:g} mm"
        click.echo(f"{sheet.name:<26}{sheet.count:>4} of {size}")
