"""`partsbin label test`, `printer` and `printers`: test pages, and what they showed."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, print_wrapped, say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy.orm import Session

    from partsbin.workshop.printers import NamedPrinter

UM_PER_MM = 1000
PPM_PER_PERCENT = 10_000
HEADS = ("printer", "dpi", "moved right mm", "down mm", "wider %", "higher %")


class MillimetresType(click.ParamType[int]):
    """A length in millimetres with a decimal point or comma, kept in micrometres."""

    name = "mm"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """Return the length in micrometres."""
        if isinstance(value, int):
            return value
        try:
            length = Decimal(value.strip().removesuffix("mm").strip().replace(",", "."))
        except InvalidOperation:
            length = Decimal("NaN")
        if not length.is_finite() or abs(length) > UM_PER_MM:
            self.fail(f"{value!r} is no length in millimetres; type it like 0.4", param, ctx)
        return round(length * UM_PER_MM)


MM = MillimetresType()


def printer_for(session: Session, name: str | None, dpi: str | None) -> NamedPrinter:
    """Return the printer of that name, or one of so many dots per inch, 600 if none are given."""
    from labels.printer import Printer
    from partsbin.workshop.printers import NamedPrinter, printer_named

    if name:
        return printer_named(session, name)
    return NamedPrinter("", Printer(dpi=dpi) if dpi else Printer())


@click.command("test", short_help="Write a page that shows where a printer prints.")
@click.option("--stock", required=True, help="Sheet or roll, by name or TOML file.")
@click.option("--printer", "name", metavar="NAME", help="A printer that is kept already.")
@click.option("--dpi", metavar="D", help="Dots per inch of another printer; 600 without.")
@click.option(
    "-o",
    "--output",
    type=click.Path(dir_okay=False, path_type=Path),
    required=True,
    metavar="FILE.pdf",
    help="Where the page goes.",
)
@json_option
def test(stock: str, name: str | None, dpi: str | None, output: Path, *, as_json: bool) -> None:
    """Write a page of frames, scales and rulers, to see where a printer really prints.

    Print it at 100 % on the labels themselves, and tell `partsbin label printer` what it shows.

    \b
    Example:
      partsbin label test --stock a4-3x8-70x37 -o test.pdf
      partsbin label test --stock roll-57x32 --printer roll -o test.pdf
    """
    if name and dpi:
        raise click.UsageError("a kept printer has its own dots; give --dpi or --printer")
    from labels.trial import write_test_page
    from partsbin.workshop.printing import refusing, stock_named

    with opened() as database, refusing():
        with database.reading() as session:
            printer = printer_for(session, name, dpi)
        sheet = stock_named(stock)
        ruler = write_test_page(sheet, printer.printer, output)
    if as_json:
        print_json({"file": str(output), "stock": sheet.name, "ruler_mm": ruler})
        return
    click.echo(f"{output}: a test page of {sheet.name} with rulers of {ruler} mm")
    dots = "" if printer.name else f" --dpi {printer.printer.dpi}"
    side = "" if ruler == 100 else f" --ruler {ruler}"
    print_wrapped(
        "Print it at 100 % on the labels. On the first label (or the last, where the printer does "
        "not reach the paper's edge), read on the scale across the label's left edge how far right "
        "of the edge the nought stands, and on that across its top edge how far below; left and "
        "above are less than nothing. Measure both rulers. Then, for instance:"
    )
    click.echo(
        f"  partsbin label printer {printer.name or 'NAME'}{dots} --right 0.4 --down -0.2"
        f" --ruler-x {ruler - 0.2:g} --ruler-y {ruler}{side}"
    )


@click.command("printer", short_help="Keep what a printer's test page showed.")
@click.argument("name")
@click.option("--dpi", metavar="D", help="Its dots per inch: 203.2, 300, 304.8, 600 or another.")
@click.option("--right", type=MM, help="How far right of the labels' edges the noughts stand.")
@click.option("--down", type=MM, help="How far below the labels' edges the noughts stand.")
@click.option("--ruler-x", type=MM, help="How long the ruler across the page came out.")
@click.option("--ruler-y", type=MM, help="How long the ruler down the page came out.")
@click.option(
    "--ruler", type=MM, default="100", show_default=True, help="How long they should have been."
)
@click.option("--afresh", is_flag=True, help="Forget the earlier readings of this printer.")
@json_option
def printer(
    name: str,
    dpi: str | None,
    right: int | None,
    down: int | None,
    ruler_x: int | None,
    ruler_y: int | None,
    ruler: int,
    *,
    afresh: bool,
    as_json: bool,
) -> None:
    """Keep what a test page of the printer called NAME showed; every later print is put right.

    Without options it shows what is kept. A second reading is of a second test page, printed with
    --printer, so it adds to the first.

    \b
    Example:
      partsbin label printer laser --dpi 600 --right 0.4 --down -0.2 --ruler-x 99.8
      partsbin label printer laser
    """
    from partsbin.workshop.printers import Reading, keep_printer, printer_named
    from partsbin.workshop.printing import refusing

    measured = [length for length in (right, down, ruler_x, ruler_y) if length is not None]
    with opened() as database, refusing():
        if not (measured or dpi or afresh):
            with database.reading() as session:
                kept = printer_named(session, name)
        else:
            shown = Reading(
                right_um=right or 0,
                down_um=down or 0,
                ruler_x_um=ruler_x,
                ruler_y_um=ruler_y,
                ruler_um=ruler,
            )
            with database.changing("label printer") as session:
                kept = keep_printer(session, name, dpi=dpi, reading=shown, afresh=afresh)
    _show([kept], as_json=as_json)
    if measured:
        say(f"print another test page with --printer {kept.name} to see what is left")


@click.command("printers", short_help="List the printers that are kept.")
@json_option
def printers(*, as_json: bool) -> None:
    """List the printers that are kept, with how each print is moved and spread.

    \b
    Example:
      partsbin label printers
    """
    from partsbin.workshop.printers import list_printers

    with opened() as database, database.reading() as session:
        kept = list_printers(session)
    if not kept and not as_json:
        say("no printer is kept yet; `partsbin label printer NAME --dpi D` adds one")
        return
    _show(kept, as_json=as_json)


def _show(kept: Sequence[NamedPrinter], *, as_json: bool) -> None:
    """Print printers with what is applied to each print: how it is moved, and how much spread."""
    if as_json:
        print_json([_as_data(one) for one in kept])
        return
    rows = [
        (
            one.name,
            str(one.printer.dots_per_inch),
            f"{one.printer.shift_x_um / UM_PER_MM:+.2f}",
            f"{one.printer.shift_y_um / UM_PER_MM:+.2f}",
            f"{one.printer.scale_x_ppm / PPM_PER_PERCENT:+.2f}",
            f"{one.printer.scale_y_ppm / PPM_PER_PERCENT:+.2f}",
        )
        for one in kept
    ]
    print_columns(HEADS, rows)


def _as_data(one: NamedPrinter) -> dict[str, Any]:
    return {
        "printer": one.name,
        "dpi": str(one.printer.dots_per_inch),
        "right_um": one.printer.shift_x_um,
        "down_um": one.printer.shift_y_um,
        "wider_ppm": one.printer.scale_x_ppm,
        "higher_ppm": one.printer.scale_y_ppm,
    }
