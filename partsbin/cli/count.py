"""`partsbin count`: what is really in a bin."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, say
from partsbin.errors import PartsbinError

if TYPE_CHECKING:
    from partsbin.stock.database import Database
    from partsbin.workshop.counting import Count, Line, Seen


@click.command()
@click.argument("bin_name", metavar="BIN", default="")
@click.argument("files", nargs=-1, type=click.Path(), metavar="[PICTURE]...")
@click.option("--keys", "from_keys", is_flag=True, help="Read numbers, typed or scanned, by line.")
@click.option(
    "--quantity",
    "quantities",
    multiple=True,
    metavar="NUMBER=QTY",
    help="How much of a lot is there, beside pictures.",
)
@click.option("--due", is_flag=True, help="List the bins that are to be counted, and end.")
@click.option("--yes", is_flag=True, help="Set the record right without asking.")
@click.option("--leave-missing", is_flag=True, help="Write nothing off; only what is there moves.")
@json_option
def count_command(
    bin_name: str,
    files: tuple[str, ...],
    quantities: tuple[str, ...],
    *,
    from_keys: bool,
    due: bool,
    yes: bool,
    leave_missing: bool,
    as_json: bool,
) -> None:
    """Count BIN: say what is missing, extra and misplaced there, and set the record right on yes.

    Type or scan the number of each part with --keys, a lot as NUMBER=QTY, or photograph the open
    bin. Look twice before a yes: what no picture shows counts as missing and is written off.

    \b
    Example:
      partsbin count --due
      partsbin count A1 --keys
      partsbin count A1 drawer.jpg --quantity 40000194=88
    """
    today = dt.datetime.now(dt.UTC).date()
    if due:
        _due(today, as_json=as_json)
        return
    if not bin_name:
        raise click.UsageError("name the bin, or list with --due which to count")
    if from_keys == bool(files):
        raise click.UsageError("give pictures of the open bin, or --keys to type what is there")
    with opened() as database:
        seen = [*_typed(quantities), *(_keys() if from_keys else _pictures(files))]
        count, written = _count(
            database, bin_name, seen, today, yes=yes, leave_missing=leave_missing, quiet=as_json
        )
    if as_json:
        print_json({**_as_data(count), "written": written})
    elif written:
        click.echo("the record is set right" if count.differs else "the count is kept")
    else:
        say("nothing was written; repeat this with --yes to set the record right")


def _count(
    database: Database,
    bin_name: str,
    seen: list[Seen],
    today: dt.date,
    *,
    yes: bool,
    leave_missing: bool,
    quiet: bool,
) -> tuple[Count, bool]:
    """Show a count and, on yes or where nothing differs, write it; return whether it was."""
    from partsbin.workshop.abc import classes_now
    from partsbin.workshop.count_writing import write
    from partsbin.workshop.counting import check_same, compare, told

    with database.reading() as session:
        abc = classes_now(session, today)
        count = compare(session, bin_name, seen, abc)
    if not quiet:
        _print(count)
    if count.differs and not yes and not _agreed(leave_missing=leave_missing):
        return count, False
    with database.changing("count", told(count)) as session:
        now = compare(session, bin_name, seen, abc)
        check_same(count, now)
        write(session, now, leave_missing=leave_missing)
    return count, True


def _agreed(*, leave_missing: bool) -> bool:
    """Ask on a terminal whether the record is to follow; off a terminal nobody says yes."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    question = "move what was found" if leave_missing else "move what was found, write off the rest"
    return click.confirm(f"set the record right: {question}?")


def _typed(texts: tuple[str, ...]) -> Iterator[Seen]:
    from labels.number import NumberError, validate
    from partsbin.workshop.counting import Seen

    for text in texts:
        number, _, quantity = text.partition("=")
        try:
            yield Seen(validate(number), quantity.strip())
        except NumberError as fault:
            raise click.UsageError(str(fault)) from None


def _keys() -> Iterator[Seen]:
    """Yield what is typed or scanned; a line that is no number is told and left out."""
    from labels.number import NumberError, validate
    from labels.reading.sources import keys
    from partsbin.workshop.counting import Seen

    if sys.stdin.isatty():
        say("scan or type each number, a lot as NUMBER=QTY; Ctrl-D ends")
    for line in keys(sys.stdin):
        number, _, quantity = line.partition("=")
        try:
            yield Seen(validate(number), quantity.strip())
        except NumberError as fault:
            say(str(fault))


def _pictures(files: tuple[str, ...]) -> Iterator[Seen]:
    from labels.reading.reader import Reader
    from labels.reading.sources import pictures
    from partsbin.workshop.counting import Seen

    with _refusing(), Reader() as reader, pictures(files) as frames:
        for frame in frames:
            readings = reader.read(frame)
            say(f"{frame.name}: labels {len(readings)}")
            for reading in readings:
                sure = len(reading.symbols) > 1 or len(reading.decoders) > 1
                yield Seen(reading.number, sure=sure)


@contextmanager
def _refusing() -> Iterator[None]:
    from labels.reading.errors import ReadingError

    try:
        yield
    except ReadingError as fault:
        raise PartsbinError(str(fault)) from fault


def _as_data(count: Count) -> dict[str, Any]:
    from partsbin.workshop.counting import Finding

    return {
        "bin": count.bin,
        "items": len(count.lines),
        "right": count.right,
        "accuracy": _accuracy(count),
        **{
            finding.value.replace(" ", "_"): [_line(line) for line in count.found(finding)]
            for finding in Finding
            if finding is not Finding.RIGHT
        },
        "uncounted": list(count.uncounted),
        "ignored": list(count.ignored),
    }


def _accuracy(count: Count) -> str:
    from partsbin.workshop.counts_due import Accuracy

    return Accuracy(count.right, len(count.lines)).percent


def _line(line: Line) -> dict[str, str]:
    from partsbin.stock.quantity import show_quantity

    return {
        "number": line.number,
        "what": line.spec.brief,
        "recorded": show_quantity(line.recorded, line.unit),
        "counted": show_quantity(line.counted, line.unit),
        "class": str(line.abc),
        "elsewhere": line.elsewhere,
    }


def _print(count: Count) -> None:
    from labels.number import grouped
    from partsbin.stock.quantity import show_quantity
    from partsbin.workshop.counting import Finding

    rows = [
        (
            str(line.finding),
            grouped(line.number),
            show_quantity(line.recorded, line.unit),
            show_quantity(line.counted, line.unit),
            line.elsewhere,
            line.spec.brief,
        )
        for line in count.lines
        if line.finding is not Finding.RIGHT
    ]
    if rows:
        heads = ("found", "number", "recorded", "counted", "recorded where", "what")
        print_columns(heads, rows)
    click.echo(
        f"bin {count.bin}: {count.right} of {len(count.lines)} items right"
        f" (accuracy {_accuracy(count)} %)"
    )
    for number in count.uncounted:
        say(f"{grouped(number)} is there, but was not counted; of a lot give {number}=QUANTITY")
    for text in count.ignored:
        say(text)


def _due(today: dt.date, *, as_json: bool) -> None:
    from labels.number import grouped
    from partsbin.workshop.counts_due import TARGET_PERCENT, accuracy_of_year, bins_due

    with opened() as database, database.reading() as session:
        due = bins_due(session, today)
        year = accuracy_of_year(session, today)
    if as_json:
        bins = [
            {
                "bin": one.bin,
                "number": one.number,
                "class": str(one.abc),
                "last": one.last and one.last.isoformat(),
                "due": one.due and one.due.isoformat(),
                "items": one.items,
            }
            for one in due
        ]
        print_json({"bins": bins, "accuracy": {"right": year.right, "counted": year.counted}})
        return
    rows = [
        (
            one.bin,
            grouped(one.number),
            str(one.abc),
            one.last.isoformat() if one.last else "never",
            one.due.isoformat() if one.due else "",
            str(one.items),
        )
        for one in due
    ]
    print_columns(("bin", "number", "class", "counted", "due since", "items"), rows)
    if year.counted:
        click.echo(
            f"counts of the year: {year.right} of {year.counted} items right,"
            f" {year.percent} % (wanted {TARGET_PERCENT} %)"
        )
