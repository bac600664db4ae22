"""The CSV file of parts that were sold by themselves; `parts.csv` has them in `sold`."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import TYPE_CHECKING

from partsbin.errors import PartsbinError
from partsbin.stock.ids import PartId
from partsbin.stock.money import NOTHING, Money, read_money, show_money
from partsbin.stock.part_sales import add_part_sale, standing_sales
from partsbin.stock.parts import part_by_number
from partsbin.stock.quantity import read_quantity, show_quantity

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.workshop.csv_files import Row
    from partsbin.workshop.incoming import Incoming

SALES = ("number", "quantity", "amount", "fee", "day", "note")
NEEDED = ("number", "amount", "day")


def take_sales(work: Incoming, rows: list[Row]) -> int:
    """Write down the sales of the rows, of parts that came in with the other files."""
    placed = not work.faults

    def of_row(row: Row) -> None:
        amount = row.read("amount", read_money, NOTHING)
        fee = row.read("fee", read_money, NOTHING)
        day = row.read("day", dt.date.fromisoformat, dt.date.min)
        if placed and not row.faults:
            _write(work.session, row, amount, fee, day)

    return work.take(rows, of_row)


def _write(session: Session, row: Row, amount: Money, fee: Money, day: dt.date) -> None:
    part = row.read("number", lambda text: part_by_number(session, text), None)
    if part is None:
        return
    quantity = row.read("quantity", lambda text: read_quantity(text, part.unit), 1)
    if row.faults:
        return
    note = row.verbatim("note")
    try:
        add_part_sale(session, PartId(part.id), quantity, amount, day, fee=fee, note=note)
    except PartsbinError as fault:
        row.fault("quantity", str(fault))


def sale_lines(session: Session) -> Iterator[tuple[str, ...]]:
    """Yield a line for each sale of a part that was not taken back."""
    for sale, part in standing_sales(session):
        yield (
            part.number,
            show_quantity(sale.quantity, part.unit) if part.lot else "",
            show_money(sale.amount),
            show_money(sale.fee),
            sale.day.isoformat(),
            sale.note,
        )
