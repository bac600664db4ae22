"""`partsbin label stocks`: the sheets and rolls that labels come on, and the user's own."""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from partsbin.cli.direct import Direct
from partsbin.cli.printing import WIDEST, json_option, print_json, say
from partsbin.errors import NotFoundError, PartsbinError, UsageError

if TYPE_CHECKING:
    from labels.stock import LabelStock

GAP = 4
"""Blanks between drawings that stand side by side."""
EIGHT_DIGITS = 8


@click.group("stocks", cls=Direct, direct="list", short_help="Draw or check label stocks.")
def stocks() -> None:
    """List the label stocks with a drawing of each, or check one of your own.

    Your own are TOML files in the folder `stocks` of your configuration folder; one there goes
    before the program's of the same name.

    \b
    Example:
      partsbin label stocks
      partsbin label stocks roll
      partsbin label stocks check my-sheet.toml
    """


@stocks.command("list", short_help='Draw the stocks; the word "list" may be left out.')
@click.argument("names", nargs=-1, metavar="[NAME]...")
@json_option
def list_(names: tuple[str, ...], *, as_json: bool) -> None:
    """Draw the stocks of these names, or whose names begin like this; all without a name.

    Of a single stock it is also told what goes on its labels.

    \b
    Example:
      partsbin label stocks list a4-3x8
    """
    from partsbin.workshop.printing import refusing

    with refusing():
        shown = _meant(names)
    if as_json:
        print_json([_as_data(stock) for stock in shown])
    elif len(shown) == 1:
        click.echo("\n".join(_drawn(shown[0])))
        click.echo(shown[0].note)
        for line in _goes_on(shown[0]):
            click.echo(line)
    else:
        _print_drawings(shown)


@stocks.command("check", short_help="Check a stock of your own.")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@json_option
def check_(file: Path, *, as_json: bool) -> None:
    """Check a label stock of your own in FILE and tell each fault with its line.

    \b
    Example:
      partsbin label stocks check my-sheet.toml
    """
    from labels.stock import check, load
    from partsbin.workshop.printing import stock_folder

    if file.suffix != ".toml":
        raise UsageError(f"{file} is no name of a label stock; call it like a4-3x8-70x37.toml")
    if not file.exists():
        raise NotFoundError(f"there is no file {file}; check its name")
    faults = check(file)
    if as_json:
        listed = [{"line": fault.line, "fault": fault.sentence} for fault in faults]
        print_json({"file": str(file), "faults": listed})
    for fault in () if as_json else faults:
        click.echo(f"{file}, line {fault.line}: {fault.sentence}")
    if faults:
        raise PartsbinError(f"{file} describes no label stock; put right what is told above")
    if as_json:
        return
    stock = load(file)
    click.echo("\n".join(_drawn(stock)))
    for line in _goes_on(stock):
        click.echo(line)
    say(f"it can be used: --stock {file}, or put it into {stock_folder()}")


def _meant(wanted: Sequence[str]) -> list[LabelStock]:
    """Return the stocks of these names or beginnings; one of the user's that is faulty is said."""
    from labels.stock import StockError, names
    from partsbin.workshop.printing import stock_folder, stock_named

    found = []
    every = names(stock_folder())
    for word in wanted or [""]:
        alike = [name for name in every if name.startswith(word)]
        chosen = [word] if word in every else alike or [word]
        for name in chosen:
            try:
                found.append(stock_named(name))
            except StockError as fault:
                if len(chosen) == 1:
                    raise
                say(str(fault))
    return found


def _drawn(stock: LabelStock) -> list[str]:
    """Return the name of a stock and its drawing, line by line."""
    from labels.sketch import sketch

    # The line of its measures is broken, so that more drawings stand side by side.
    drawing = sketch(stock).replace(" on a sheet", "\non a sheet")
    return [click.style(stock.name, bold=True), *drawing.splitlines()]


def _print_drawings(shown: Sequence[LabelStock]) -> None:
    """Print drawings side by side, as many as the terminal holds."""
    room = min(shutil.get_terminal_size((WIDEST, 24)).columns, WIDEST)
    for row in _rows([_drawn(stock) for stock in shown], room):
        wide = [max(map(_width, block)) for block in row]
        for at in range(max(map(len, row))):
            cells = (block[at] if at < len(block) else "" for block in row)
            padded = (
                cell + " " * (width - _width(cell)) for cell, width in zip(cells, wide, strict=True)
            )
            click.echo((" " * GAP).join(padded).rstrip())
        click.echo()


def _rows(blocks: Sequence[list[str]], room: int) -> Iterator[list[list[str]]]:
    """Yield the drawings that go into one row."""
    row: list[list[str]] = []
    used = 0
    for block in blocks:
        width = max(map(_width, block)) + GAP
        if row and used + width - GAP > room:
            yield row
            row, used = [], 0
        row.append(block)
        used += width
    if row:
        yield row


def _width(line: str) -> int:
    return len(click.unstyle(line))


def _goes_on(stock: LabelStock) -> Iterator[str]:
    """Yield a line for each shape of label: what is on it at 600 dots per inch."""
    from labels.label import Shape
    from labels.layout import DoesNotFit, plan_for
    from labels.printer import Printer

    for shape in Shape:
        try:
            plan = plan_for(stock, Printer(), shape, EIGHT_DIGITS, False)
        except DoesNotFit:
            yield f"{shape.value + ':':<6}does not fit"
            continue
        held = ("QR", plan.bars and "bars", "number", plan.words and "words")
        yield f"{shape.value + ':':<6}{', '.join(str(one) for one in held if one)}"


def _as_data(stock: LabelStock) -> dict[str, Any]:
    return {
        "stock": stock.name,
        "media": "roll" if stock.roll else "sheet",
        "labels": stock.count,
        "columns": stock.columns,
        "rows": stock.rows,
        "label_um": [stock.label_width_um, stock.label_height_um],
        "page_um": [stock.page_width_um, stock.page_height_um],
        "note": stock.note,
    }
