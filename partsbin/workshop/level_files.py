"""CSV files of minimum levels, as the import and the export know them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from sqlalchemy import select

from partsbin.errors import PartsbinError
from partsbin.stock.count_tables import MinimumLevel
from partsbin.stock.models import Part
from partsbin.stock.places import looks_like_number
from partsbin.stock.quantity import read_quantity, show_quantity
from partsbin.stock.specs import spec_of
from partsbin.workshop.assignments import split, written
from partsbin.workshop.csv_files import Row
from partsbin.workshop.incoming import Incoming
from partsbin.workshop.intake import unit_of
from partsbin.workshop.reordering import Wanted, read_lead_days, set_level

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

LEVELS = ("what", "attributes", "minimum", "pack", "lead days", "lead spread days")
"""`what` is a kind or the number of a lot, as in `partsbin reorder set`."""
NEEDED = ("what",)


def take_levels(work: Incoming, rows: list[Row]) -> int:
    """Set the minimum levels of the rows; the lots that they name must be in the record."""

    def of_row(row: Row) -> None:
        wanted = Wanted(
            row.text("what"),
            row.read("attributes", split, []),
            row.text("minimum"),
            row.read("lead days", read_lead_days, None),
            row.read("lead spread days", read_lead_days, None),
            row.text("pack"),
        )
        _check_amounts(row, wanted)
        if row.faults:
            return
        try:
            set_level(work.session, wanted)
        except PartsbinError as fault:
            row.fault("what", str(fault))

    return work.take(rows, of_row)


def _check_amounts(row: Row, wanted: Wanted) -> None:
    """Note amounts that say nothing in the unit of their kind; a lot knows its own unit."""
    if looks_like_number(wanted.what):
        return
    unit = unit_of(wanted.what, wanted.minimum or wanted.pack)
    for column in ("minimum", "pack"):
        row.read(column, lambda text: read_quantity(text, unit), 0)


def written_levels(session: Session) -> Iterator[Sequence[str]]:
    """Yield a line for each minimum level, in the order of `LEVELS`."""
    query = select(MinimumLevel, Part.number).outerjoin(Part, Part.id == MinimumLevel.part_id)
    for level, number in session.execute(query.order_by(MinimumLevel.id)):
        spec = None if level.spec_text is None else spec_of(level.spec_text)
        yield (
            number if spec is None else spec.kind,
            "" if spec is None else written(spec),
            show_quantity(level.minimum, level.unit) if level.minimum else "",
            show_quantity(level.pack, level.unit),
            str(level.lead_days),
            str(level.lead_spread_days),
        )
