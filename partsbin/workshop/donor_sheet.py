"""A teardown as a CSV file: what came off each slot, how good it is, and where it goes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import Spec, kind_named
from partsbin.stock.bikes import bike_named
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.stock.money import read_money
from partsbin.stock.places import bin_named
from partsbin.stock.words import Grade
from partsbin.workshop.assignments import read_spec, split
from partsbin.workshop.csv_files import Fault, FaultsError, Row, read_rows
from partsbin.workshop.donor import kind_in

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.money import Money
    from partsbin.workshop.stripping import Orders

COLUMNS = (
    *("slot", "kind", "attributes", "grade", "inspected"),
    *("bin", "value", "cost", "keep", "note"),
)
"""Only the slot may not be empty; what is empty follows the record and the command's options."""
YES_NO = ("yes", "no")


@dataclass(frozen=True, slots=True)
class Told:
    """What one row says of a slot; None or empty where it says nothing."""

    slot: str
    spec: Spec | None
    grade: Grade | None
    inspected: bool | None
    bin: str
    value: Money | None
    cost: Money | None
    keep: bool
    note: str


def read_sheet(session: Session, bike_name: str, path: Path, orders: Orders) -> Orders:
    """Return the orders with what a CSV file says of each slot, which goes before the options.

    Raises `FaultsError` with every fault by line and column, `UnknownError` for an unknown bike.
    """
    bike = bike_named(session, bike_name)
    on_bike = {part.slot: part.spec for part in mounted(session, BikeId(bike.id))}
    told: dict[str, Told] = {}
    faults: list[Fault] = []
    for row in read_rows(path, COLUMNS, ("slot",)):
        read = _told(session, row, on_bike)
        if read is not None and read.slot in told:
            row.fault("slot", f"{read.slot} is on a line before")
        faults += row.faults
        if read is not None:
            told[read.slot] = read
    if faults:
        raise FaultsError(faults)
    return merged(orders, told)


def merged(orders: Orders, told: Mapping[str, Told]) -> Orders:
    """Return the orders with what is told of each slot before what they say of it."""
    rows = told.values()
    return replace(
        orders,
        stated={**orders.stated, **{t.slot: t.spec for t in rows if t.spec is not None}},
        grades={**orders.grades, **{t.slot: t.grade for t in rows if t.grade is not None}},
        inspections={
            **orders.inspections,
            **{t.slot: t.inspected for t in rows if t.inspected is not None},
        },
        bins={**orders.bins, **{t.slot: t.bin for t in rows if t.bin}},
        values={**orders.values, **{t.slot: t.value for t in rows if t.value is not None}},
        costs={**orders.costs, **{t.slot: t.cost for t in rows if t.cost is not None}},
        keep=(*orders.keep, *(t.slot for t in rows if t.keep)),
        notes={**orders.notes, **{t.slot: t.note for t in rows if t.note}},
    )


def _told(session: Session, row: Row, on_bike: Mapping[str, Spec]) -> Told | None:
    slot = row.read("slot", lambda text: slot_named(text).name, "")
    if not slot:
        return None
    inspected = row.word("inspected", YES_NO, "")
    grade = row.word("grade", tuple(Grade), "")
    return Told(
        slot=slot,
        spec=_spec(row, slot, on_bike),
        grade=Grade(grade) if grade else None,
        inspected=inspected == "yes" if inspected else None,
        bin=row.read("bin", lambda name: bin_named(session, name).name, ""),
        value=row.read("value", read_money, None),
        cost=row.read("cost", read_money, None),
        keep=row.word("keep", YES_NO, "no") == "yes",
        note=row.text("note"),
    )


def _spec(row: Row, slot: str, on_bike: Mapping[str, Spec]) -> Spec | None:
    """Return what a row states of the part in a slot, None if it only speaks of a recorded one."""
    if slot in on_bike and not row.text("kind") and not row.text("attributes"):
        return None
    word = row.read("kind", lambda text: kind_named(text).word, "")
    if row.text("kind") and not word:
        return None
    try:
        kind = kind_in(slot, word, on_bike)
    except UsageError as fault:
        row.fault("kind", str(fault))
        return None
    return row.read("attributes", lambda text: read_spec(kind, split(text)), Spec(kind))
