"""The workshop's printers: their dots, and what their test pages showed, kept and applied."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from labels.printer import Printer
from partsbin.errors import UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.stock.errors import UnknownError
from partsbin.stock.label_tables import RecordedPrinter
from partsbin.stock.places import read_name

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What a test page showed, in micrometres.

    How far the frames lie right of and below the labels' edges, how long the rulers across and
    down came out (None if they were not measured), and how long they should be.
    """

    right_um: int = 0
    down_um: int = 0
    ruler_x_um: int | None = None
    ruler_y_um: int | None = None
    ruler_um: int = 100_000


@dataclass(frozen=True, slots=True)
class NamedPrinter:
    """A printer and what the workshop calls it; the name is empty if only its dots are known."""

    name: str
    printer: Printer


def list_printers(session: Session) -> list[NamedPrinter]:
    """Return the printers by name."""
    rows = session.scalars(select(RecordedPrinter).order_by(RecordedPrinter.name))
    return [_named(row) for row in rows]


def printer_named(session: Session, name: str) -> NamedPrinter:
    """Return the printer of that name. Raises `UnknownError` with the nearest name."""
    row = _row(session, name)
    if row is None:
        names = list(session.scalars(select(RecordedPrinter.name)))
        hint = nearest(name, names) or "; `partsbin label printer NAME --dpi D` adds it"
        raise UnknownError("printer", name.strip(), hint)
    return _named(row)


def keep_printer(
    session: Session,
    name: str,
    *,
    dpi: str | None = None,
    reading: Reading | None = None,
    afresh: bool = False,
) -> NamedPrinter:
    """Keep a printer's dots and take back what its last test page showed; return it as it is now.

    The reading is of a page that was printed with what was kept before, so it adds to that; with
    `afresh` what was kept before is forgotten. Raises `UsageError` for a new printer without its
    dots, and `PrinterError` for a reading that no printer gives.
    """
    row = _row(session, name)
    if row is None:
        if dpi is None:
            raise UsageError(f"{name.strip()!r} is a new printer; give its dots with --dpi")
        row = RecordedPrinter(name=read_name(name, "printer"))
        session.add(row)
        before = Printer(dpi=dpi)
    else:
        known = _named(row).printer
        before = Printer(dpi=dpi or known.dpi) if afresh else _with_dots(known, dpi)
    if reading is not None:
        before = before.corrected(
            right_um=reading.right_um,
            down_um=reading.down_um,
            ruler_x_um=reading.ruler_x_um,
            ruler_y_um=reading.ruler_y_um,
            ruler_um=reading.ruler_um,
        )
    row.dpi = str(before.dots_per_inch)
    row.shift_x_um, row.shift_y_um = before.shift_x_um, before.shift_y_um
    row.scale_x_ppm, row.scale_y_ppm = before.scale_x_ppm, before.scale_y_ppm
    session.flush()
    return _named(row)


def _with_dots(printer: Printer, dpi: str | None) -> Printer:
    return printer if dpi is None else replace(printer, dpi=dpi)


def _row(session: Session, name: str) -> RecordedPrinter | None:
    wanted = func.lower(" ".join(name.split()))
    return session.scalar(select(RecordedPrinter).where(func.lower(RecordedPrinter.name) == wanted))


def _named(row: RecordedPrinter) -> NamedPrinter:
    printer = Printer(
        dpi=row.dpi,
        shift_x_um=row.shift_x_um,
        shift_y_um=row.shift_y_um,
        scale_x_ppm=row.scale_x_ppm,
        scale_y_ppm=row.scale_y_ppm,
    )
    return NamedPrinter(row.name, printer)
