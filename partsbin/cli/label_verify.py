"""`partsbin label verify`: how well labels are printed, estimated from a picture."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from partsbin.cli.printing import json_option, print_columns, print_json, print_wrapped, say
from partsbin.errors import PartsbinError

if TYPE_CHECKING:
    from labels.reading.verify import PrintGrade
    from labels.reading.verify_square import SquareGrade


@click.command("verify", short_help="Grade how well labels are printed, from a picture.")
@click.argument("picture", type=click.Path())
@json_option
def verify(picture: str, *, as_json: bool) -> None:
    """Grade the bars and the QR of every label in a photograph or scan, and say what to change.

    All measures are shown of a label that is alone in the picture; --json has them for each. A
    scan at 600 dpi, or a sharp photograph of one label from near, tells most. The grades follow
    published limits but are an estimate: a picture is no calibrated verifier.

    \b
    Example:
      partsbin label verify scan.png
    """
    from labels.reading.errors import ReadingError
    from labels.reading.verify import ESTIMATE, grade_bars, read
    from labels.reading.verify_square import grade_squares

    try:
        grey, readings = read(picture)
    except ReadingError as fault:
        raise PartsbinError(str(fault)) from fault
    bars = grade_bars(grey, readings)
    squares = grade_squares(grey, readings)
    if not bars and not squares:
        raise PartsbinError(
            f"{picture}: no bars or QR could be graded; take it sharper, nearer and straight on"
        )
    if as_json:
        graded = [_as_data(one) for one in bars]
        found = [_square_as_data(one) for one in squares]
        print_json({"estimate": ESTIMATE, "labels": graded, "squares": found})
        return
    for reading in readings:
        closely = len(readings) == 1
        for one in bars:
            if one.number == reading.number:
                _show(one, "bars", closely=closely)
        for square in squares:
            if square.number == reading.number:
                _show(square, "QR", closely=closely)
    say(ESTIMATE)


def _show(one: PrintGrade | SquareGrade, symbol: str, *, closely: bool) -> None:
    """Print a symbol's grade and what to change; all its measures, or of many the weakest."""
    from labels.number import grouped

    weakest = min(one.qualities, key=lambda quality: quality.grade)
    told = "" if closely or weakest.grade == 4 else f", weakest: {weakest.name} {weakest.value:.0%}"
    click.echo(
        f"{grouped(one.number)}  {symbol:<4}  {one.letter} ({one.grade:.1f} of 4), "
        f"{one.pixels_per_module:.1f} pixels a module{told}"
    )
    if closely:
        rows = [(f"  {q.name}", f"{q.value:.0%}", f"{q.grade:.1f}") for q in one.qualities]
        print_columns(("  measure", "measured", "grade"), rows)
    for sentence in one.advice:
        print_wrapped(sentence, 2)


def _square_as_data(one: SquareGrade) -> dict[str, Any]:
    return {
        "number": one.number,
        "grade": one.grade,
        "letter": one.letter,
        "measures": {q.name: {"value": round(q.value, 3), "grade": q.grade} for q in one.qualities},
        "pixels_per_module": round(one.pixels_per_module, 2),
        "wrong_modules": one.wrong,
        "wrong_fixed_modules": one.wrong_fixed,
        "advice": list(one.advice),
    }


def _as_data(one: PrintGrade) -> dict[str, Any]:
    return {
        "number": one.number,
        "grade": one.grade,
        "letter": one.letter,
        "measures": {q.name: {"mean": round(q.value, 3), "grade": q.grade} for q in one.qualities},
        "pixels_per_module": round(one.pixels_per_module, 2),
        "growth": round(one.growth, 3),
        "advice": list(one.advice),
    }
