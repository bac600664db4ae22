"""Takes in a workshop from CSV files: all of it, or nothing and every fault by line.

A folder may hold `bins.csv`, `parts.csv`, `bikes.csv` and `mounted.csv`; their columns are the
constants below. Attributes stand in one cell, as in `speeds=8; side=rear`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import Spec, kind_named
from partsbin.stock.bikes import NewBike, add_bike, slot_place
from partsbin.stock.ids import BikeId, PlaceId
from partsbin.stock.money import NOTHING, Money, read_money
from partsbin.stock.parts import NewPart, add_parts
from partsbin.stock.places import add_bin, bin_named
from partsbin.stock.quantity import read_quantity
from partsbin.stock.words import BikeState, Condition, Grade
from partsbin.workshop.assignments import read_spec, split
from partsbin.workshop.csv_files import Fault, FaultsError, Row, read_rows
from partsbin.workshop.intake import unit_of

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

BINS = ("name", "note", "location")
PARTS = ("kind", "bin", "grade", "quantity", "cost", "value", "origin", "attributes", "note")
BIKES = (
    *("name", "style", "state", "price", "bought"),
    *("seller note", "serial number", "serial checked", "note"),
)
MOUNTED = ("bike", "slot", "kind", "grade", "condition", "value", "attributes", "note")


T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Imported:
    """How much was taken in."""

    bins: int
    parts: int
    bikes: int
    mounted: int


@dataclass(slots=True)
class _Import:
    """One import as it goes on: the session, and the faults so far."""

    session: Session
    faults: list[Fault] = field(default_factory=list)
    prices: dict[BikeId, Money] = field(default_factory=dict)
    bike_ids: dict[str, BikeId] = field(default_factory=dict)

    def each(
        self, path: Path, columns: Sequence[str], needed: Sequence[str], take: Callable[[Row], T]
    ) -> list[T]:
        """Return what is made of each row of a file; an absent file has none."""
        if not path.exists():
            return []
        taken = []
        try:
            for row in read_rows(path, columns, needed):
                made = take(row) if not row.faults else None
                self.faults += row.faults
                if made is not None and not row.faults:
                    taken.append(made)
        except FaultsError as faults:
            self.faults += faults.faults
        return taken

    def bin(self, row: Row) -> PlaceId | None:
        """Make the bin of a row."""
        note, location = row.text("note"), row.text("location")
        made = row.read("name", lambda name: add_bin(self.session, name, note, location), None)
        return PlaceId(made.id) if made else None

    def part(self, row: Row) -> NewPart:
        """Return the part or lot of a row; with a quantity it is a lot."""
        spec = _spec(row)
        place = row.read("bin", lambda name: bin_named(self.session, name).id, 0)
        unit = unit_of(spec.kind)
        return NewPart(
            spec=spec,
            place=PlaceId(place),
            grade=Grade(row.word("grade", tuple(Grade), "good")),
            lot=bool(row.text("quantity")),
            unit=unit,
            quantity=row.read("quantity", lambda text: read_quantity(text, unit), 1),
            cost=row.read("cost", read_money, NOTHING),
            value=row.read("value", read_money, None),
            origin=row.text("origin"),
            note=row.text("note"),
        )

    def bike(self, row: Row) -> BikeId | None:
        """Make the bike of a row."""
        new = NewBike(
            name=row.text("name"),
            style=row.text("style"),
            state=BikeState(row.word("state", tuple(BikeState), "bought")),
            price=row.read("price", read_money, NOTHING),
            bought_on=row.read("bought", dt.date.fromisoformat, None),
            seller_note=row.text("seller note"),
            serial_number=row.text("serial number"),
            serial_checked=row.word("serial checked", ("yes", "no"), "no") == "yes",
            note=row.text("note"),
        )
        made = row.read("name", lambda _: add_bike(self.session, new), None)
        if made is None:
            return None
        bike = BikeId(made.id)
        self.bike_ids[made.name.lower()] = bike
        self.prices[bike] = new.price
        return bike

    def mounted(self, row: Row) -> NewPart | None:
        """Return the part of a row in its slot; the frame carries the price of its bike."""
        bike = self.bike_ids.get(row.text("bike").lower())
        if bike is None:
            row.fault("bike", f"{row.text('bike')!r} is not a bike of bikes.csv")
            return None
        slot = row.read("slot", slot_named, None)
        spec = _spec(row)
        if slot is not None and not row.faults and spec.kind not in slot.kinds:
            row.fault("kind", f"{slot.name} takes {' or '.join(slot.kinds)}")
        if slot is None or row.faults:
            return None
        cost = self.prices.pop(bike, NOTHING) if slot.name == "frame" else NOTHING
        return NewPart(
            spec=spec,
            place=slot_place(self.session, bike, slot.name),
            grade=Grade(row.word("grade", tuple(Grade), "good")),
            condition=Condition(row.word("condition", tuple(Condition), "sound")),
            cost=cost,
            value=row.read("value", read_money, None),
            origin=f"came with {row.text('bike')}",
            note=row.text("note"),
        )


def import_folder(session: Session, folder: Path) -> Imported:
    """Take in the CSV files of a folder and return how much it was.

    Raises `FaultsError` with every fault of every file; the act must then be rolled back.
    """
    work = _Import(session)
    bins = work.each(folder / "bins.csv", BINS, ("name",), work.bin)
    parts = work.each(folder / "parts.csv", PARTS, ("kind", "bin"), work.part)
    bikes = work.each(folder / "bikes.csv", BIKES, ("name",), work.bike)
    needed = ("bike", "slot", "kind")
    mounted = work.each(folder / "mounted.csv", MOUNTED, needed, work.mounted)
    unpaid = [bike for bike, price in work.prices.items() if price]
    if unpaid and not work.faults:
        reason = "a bike with a price needs its frame in mounted.csv to carry it"
        work.faults.append(Fault("bikes.csv", 1, "price", reason))
    if work.faults:
        raise FaultsError(work.faults)
    add_parts(session, parts)
    add_parts(session, [part for part in mounted if part is not None])
    return Imported(len(bins), len(parts), len(bikes), len(mounted))


def _spec(row: Row) -> Spec:
    """Return the spec of a row, an empty one of any kind after a fault."""
    blank = Spec(next(iter(KINDS)))
    kind = row.read("kind", lambda text: kind_named(text).word, "")
    if not kind:
        return blank
    return row.read(
        "attributes", lambda text: read_spec(kind, split(text)), replace(blank, kind=kind)
    )
