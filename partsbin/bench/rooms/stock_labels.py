"""Labels as PDF files: of marked things, or of all that is new; what they go on is remembered."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from flask import render_template, request, send_file, session
from flask.typing import ResponseReturnValue

from labels.label import Label, Shape
from labels.printer import Printer
from labels.stock import names
from partsbin.bench.shop import record
from partsbin.bench.telling import plainly
from partsbin.errors import PartsbinError, UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.workshop.labelling import label_of
from partsbin.workshop.print_jobs import due, keep_jobs, list_jobs
from partsbin.workshop.printers import NamedPrinter, list_printers, printer_named
from partsbin.workshop.printing import Order, order, refusing, stock_folder, write

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.stock import LabelStock

STOCKS, PRINTER, NEXT = "label-stocks", "label-printer", "label-next"
"""Where the device's cookie keeps the stock of each shape, the printer, and the next free label."""
DEFAULT_STOCKS = {"part": "a4-3x8-64x34", "bin": "a4-2x4-99x68", "bike": "a4-3x8-64x34"}
AT_ONCE = 240
"""Labels of one file: ten sheets; more is another file."""
SHOWN = 30
"""Labels that are listed of each shape; the others are only counted."""
JOBS = 5
MOST_COPIES = 20
LONGEST_POSITION = 4
"""Digits of a label's place on a sheet; more is a slip of the finger."""
UNPROCESSABLE = 422


@dataclass(frozen=True, slots=True)
class Pile:
    """Labels of one shape and what they would go on."""

    shape: Shape
    labels: Sequence[Label]
    stock: str
    start: int
    """The label of the sheet that is the next free one, as far as this device knows."""


def page() -> ResponseReturnValue:
    """Show what is to be labelled: of these numbers, or all that is new; and the last jobs."""
    asked, new = _numbers(), request.args.get("due") == "yes"
    with record().reading() as reading:
        labels = due(reading) if new else [label_of(reading, number) for number in asked]
    return _page(labels, new=new)


def _page(labels: Sequence[Label], *, new: bool = False, refused: str = "") -> str:
    with record().reading() as reading:
        printers = [one.name for one in list_printers(reading)]
        jobs = list_jobs(reading, JOBS)
    return render_template(
        "stock/labels.html",
        piles=_piles(labels),
        new=new,
        shown=SHOWN,
        at_once=AT_ONCE,
        most_copies=MOST_COPIES,
        stocks=names(stock_folder()),
        printers=printers,
        printer=session.get(PRINTER, ""),
        jobs=jobs,
        refused=refused,
        typed=request.form,
    )


def _piles(labels: Sequence[Label]) -> list[Pile]:
    found = []
    for shape in Shape:
        pile = [label for label in labels if label.shape is shape]
        stock = _stock_for(shape)
        if pile:
            found.append(Pile(shape, pile, stock, session.get(NEXT, {}).get(stock, 1)))
    return found


def _stock_for(shape: Shape) -> str:
    """Return the stock that this device used last for a shape, if there is still one."""
    stock = session.get(STOCKS, {}).get(shape.value, "")
    return stock if stock in names(stock_folder()) else DEFAULT_STOCKS[shape.value]


def labels() -> ResponseReturnValue:
    """Answer with the PDF of these numbers' labels, or ask first what they go on."""
    form = request.form
    numbers = _numbers()
    if not numbers and form.get("due") != "yes":
        raise UsageError("mark what is to be labelled, or give its numbers; nothing was printed")
    with record().reading() as reading:
        found = _wanted(reading, numbers)
        printer = _printer(reading)
    stocks = {shape: form.get("stock", "") or _stock_for(shape) for shape in Shape}
    several = len({stocks[label.shape] for label in found}) > 1
    if form.get("choose") or several or not found:
        return _page(found, new=not numbers)
    try:
        _prove_listed(form.get("stock", ""))
        pdf, one = _printed(found[:AT_ONCE], stocks, printer)
    except PartsbinError as fault:
        return _page(found, new=not numbers, refused=plainly(fault)), UNPROCESSABLE
    _remember(one)
    return send_file(
        pdf, mimetype="application/pdf", as_attachment=True, download_name=one.path.name
    )


def _prove_listed(stock: str) -> None:
    """Raise `UsageError` for a stock that is not listed: the page opens no file by its path."""
    if stock and stock not in (known := names(stock_folder())):
        raise UsageError(f"there is no label stock {stock!r}{nearest(stock, known)}")


def _numbers() -> list[str]:
    """Return the numbers that were marked or typed, each once."""
    typed = " ".join(request.values.getlist("numbers"))
    several = [text.strip() for text in re.split(r"[,;\n\r]+", typed) if text.strip()]
    return list(dict.fromkeys([*request.values.getlist("number"), *several]))


def _wanted(reading: Session, numbers: Sequence[str]) -> list[Label]:
    """Return the labels of the numbers, or those that are due, of one shape if one is named."""
    if numbers:
        return [label_of(reading, number) for number in numbers]
    shape = request.form.get("shape", "")
    return [label for label in due(reading) if shape in ("", label.shape.value)]


def _printer(reading: Session) -> NamedPrinter:
    name = request.form.get("printer", session.get(PRINTER, ""))
    return printer_named(reading, name) if name else NamedPrinter("", Printer())


def _printed(
    wanted: Sequence[Label], stocks: dict[Shape, str], printer: NamedPrinter
) -> tuple[BytesIO, Order]:
    """Return the file of the labels, kept as a print job, and its order."""
    with tempfile.TemporaryDirectory() as folder, refusing():
        orders = order(
            wanted,
            stocks,
            Path(folder) / f"labels-{wanted[0].number}.pdf",
            starts={"": _count("start", 1)},
            skips={"": _skipped()},
            copies=min(_count("copies", 1), MOST_COPIES),
        )
        written = write(orders, printer.printer)
        with record().changing("label") as changing:
            keep_jobs(changing, orders, written, printer, sent=True)
        return BytesIO(orders[0].path.read_bytes()), orders[0]


def _count(name: str, default: int) -> int:
    text = request.form.get(name, "").strip() or str(default)
    if not _is_position(text) or not int(text):
        raise UsageError(f"{text!r} is no number of labels; count from 1 at the top left")
    return int(text)


def _is_position(text: str) -> bool:
    return text.isdecimal() and len(text) <= LONGEST_POSITION


def _skipped() -> tuple[int, ...]:
    texts = request.form.get("skip", "").replace(",", " ").split()
    wrong = next((text for text in texts if not _is_position(text)), None)
    if wrong is not None:
        raise UsageError(f"{wrong!r} is no label of a sheet; type them like 3, 9")
    return tuple(int(text) for text in texts)


def _remember(one: Order) -> None:
    """Keep on this device what was printed on, and which label of the sheet is free next."""
    shapes = {label.shape.value: one.asked for label in one.labels}
    session.permanent = True
    session[STOCKS] = {**session.get(STOCKS, {}), **shapes}
    session[NEXT] = {**session.get(NEXT, {}), one.asked: next_free(one, one.stock)}
    if "printer" in request.form:
        session[PRINTER] = request.form["printer"]


def next_free(one: Order, stock: LabelStock) -> int:
    """Return the first free label of the last sheet of a job, 1 if the sheet is full or a roll."""
    if stock.roll:
        return 1
    free = [at for at in range(one.start, stock.count + 1) if at not in one.skip]
    left = len(one.labels) * one.copies
    if left < len(free):
        return free[left]
    return (left - len(free)) % stock.count + 1
