"""Counting a bin: what was scanned or typed against the record, and on a yes the record follows."""

from __future__ import annotations

import datetime as dt
import hashlib
from typing import TYPE_CHECKING

from flask import flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import NumberError, grouped, validate
from partsbin.bench.answers import Mode, Orders
from partsbin.bench.rooms.scan_page import CONFLICT, scanner
from partsbin.bench.shop import record
from partsbin.errors import UsageError
from partsbin.stock.quantity import show_quantity
from partsbin.workshop.abc import classes_now
from partsbin.workshop.count_writing import write as write_count
from partsbin.workshop.counting import Count, Finding, Seen, check_same, compare, told
from partsbin.workshop.counts_due import Accuracy

if TYPE_CHECKING:
    from collections.abc import Mapping

    from partsbin.stock.count_tables import AbcClass

MOST_LINES = 5000
"""Of a list; every line is looked up."""
UNSURE = "?"
"""At the end of a number that only one look at a photograph gave."""


def count() -> ResponseReturnValue:
    """Show what a count found beside what the record has; nothing is changed."""
    text, bin_name = request.form.get("lines", ""), _bin()
    if request.form.get("more"):
        return scanner(Orders(Mode.COUNT, bin_name), lines=text)
    seen, faults = read_lines(text)
    found, _ = _compared(bin_name, seen)
    return _page(found, text, faults)


def write() -> ResponseReturnValue:
    """Set the record right by a count, if it still is what was shown."""
    text, bin_name = request.form.get("lines", ""), _bin()
    seen, faults = read_lines(text)
    found, abc = _compared(bin_name, seen)
    if _mark(found) != request.form.get("shown", ""):
        fault = "the record changed meanwhile, or this was never shown; look again"
        return _page(found, text, [fault, *faults]), CONFLICT
    with record().changing("count", told(found)) as session:
        now = compare(session, bin_name, seen, abc)
        check_same(found, now)
        write_count(session, now, leave_missing=request.form.get("leave_missing") == "yes")
    flash("the record is set right" if found.differs else "the count is kept", "done")
    return redirect(url_for("scan.page", mode=Mode.COUNT, to=found.bin))


def read_lines(text: str) -> tuple[list[Seen], list[str]]:
    r"""Return what a list of numbers says was seen, and what of it is none, in words.

    >>> read_lines("2001 2362\n40000182 = 12")[0]
    [Seen(number='20012362', quantity='', sure=True), Seen(number='40000182', quantity='12',
     sure=True)]
    """
    lines = text.splitlines()
    if len(lines) > MOST_LINES:
        raise UsageError(f"count at most {MOST_LINES} lines at a time")
    seen, faults = [], []
    for line in filter(str.strip, lines):
        number, _, quantity = line.partition("=")
        sure = UNSURE not in number
        try:
            seen.append(Seen(validate(number.replace(UNSURE, "")), quantity.strip(), sure))
        except NumberError as fault:
            faults.append(str(fault))
    return seen, faults


def _bin() -> str:
    named = request.form.get("to", "").strip()
    if not named:
        raise UsageError("say which bin is counted")
    return named


def _compared(bin_name: str, seen: list[Seen]) -> tuple[Count, Mapping[str, AbcClass]]:
    with record().reading() as session:
        abc = classes_now(session, dt.datetime.now(dt.UTC).date())
        return compare(session, bin_name, seen, abc), abc


def _mark(found: Count) -> str:
    """Return what tells a count from any other: the yes is to what was shown."""
    lines = [
        (line.part, line.recorded, line.counted, line.finding, line.elsewhere, line.source)
        for line in found.lines
    ]
    return hashlib.sha256(repr((found.place, lines)).encode()).hexdigest()


def _page(found: Count, text: str, faults: list[str]) -> str:
    rows = [
        (
            line,
            show_quantity(line.recorded, line.unit),
            show_quantity(line.counted, line.unit),
        )
        for line in sorted(found.lines, key=lambda line: line.finding is Finding.RIGHT)
    ]
    return render_template(
        "scan/count.html",
        count=found,
        rows=rows,
        percent=Accuracy(found.right, len(found.lines)).percent,
        lines=text,
        faults=[*faults, *found.ignored, *map(_uncounted, found.uncounted)],
        shown=_mark(found),
    )


def _uncounted(number: str) -> str:
    return f"{grouped(validate(number))} is there, but was not counted; add {number}=QUANTITY"
