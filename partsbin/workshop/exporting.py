"""Writes a workshop as the CSV files that `importing` reads: the same stock, bikes and names.

What is where, what it cost and what each bike's account says comes back as it was, under the same
label numbers, with the minimum levels; the past movements do not. For those there is the backup.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select
from sqlalchemy.orm import aliased

from partsbin.errors import PartsbinError
from partsbin.stock.bikes import list_bikes
from partsbin.stock.models import Bike, BikeEntry, Holding, Movement, Part, Place, RecordedSpec
from partsbin.stock.money import show_money
from partsbin.stock.numbers import last_numbers
from partsbin.stock.places import LOOSE, list_bins
from partsbin.stock.price_tables import Price
from partsbin.stock.quantity import show_quantity
from partsbin.stock.specs import spec_of
from partsbin.stock.words import PlaceType
from partsbin.workshop.assignments import written
from partsbin.workshop.csv_files import write_rows
from partsbin.workshop.importing import TABLES
from partsbin.workshop.incoming import COST_ONLY
from partsbin.workshop.level_files import written_levels
from partsbin.workshop.names import list_names
from partsbin.workshop.sale_files import sale_lines

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.money import Money

Line = Sequence[str]
AT_ONCE = 2000
OF_BIKE = (PlaceType.SLOT, PlaceType.BIKE)
GONE = (PlaceType.SCRAPPED, PlaceType.SOLD)


def export_folder(session: Session, folder: Path, *, force: bool = False) -> dict[str, int]:
    """Write the files into a folder, made if needed, and return how many rows each has.

    Raises `PartsbinError` if a file is there already, unless `force` says to replace it.
    """
    files = {name: folder / f"{name}.csv" for name in WRITERS}
    there = [file.name for file in files.values() if file.exists()]
    if there and not force:
        raise PartsbinError(
            f"{folder} holds {', '.join(there)} already; name a new folder, or replace with --force"
        )
    folder.mkdir(parents=True, exist_ok=True)
    return {
        name: write_rows(files[name], TABLES[name].columns, write(session))
        for name, write in WRITERS.items()
    }


def _numbers(session: Session) -> Iterator[Line]:
    for number in last_numbers(session):
        yield (number,)


def _bins(session: Session) -> Iterator[Line]:
    for held in list_bins(session):
        yield held.number, held.name, held.note, held.location


def _parts(session: Session) -> Iterator[Line]:
    """Yield what is in bins and quarantine, and what was sold or scrapped from elsewhere."""
    for part in _in_places(session, PlaceType.BIN, PlaceType.QUARANTINE):
        name = part.place_name if part.place_type is PlaceType.BIN else str(part.place_type)
        yield _part(part, name)
    for part in _in_places(session, *GONE):
        if not _left_a_bike(part):
            yield _part(part, str(part.place_type))


def _part(part: Any, place: str) -> Line:
    more = _told(part)
    return (part.number, part.kind, place, *more)


def _bikes(session: Session) -> Iterator[Line]:
    costs = dict(
        session.execute(
            select(Place.bike_id, func.sum(Holding.cost))
            .join(Place, Place.id == Holding.place_id)
            .where(Place.type.in_(OF_BIKE))
            .group_by(Place.bike_id)
        ).all()
    )
    for bike in list_bikes(session):
        yield (
            bike.number,
            bike.name,
            bike.style,
            str(bike.state),
            show_money(bike.price),
            show_money(int(costs.get(bike.id, 0))),
            bike.bought_on.isoformat() if bike.bought_on else "",
            bike.seller_note,
            bike.serial_number,
            "yes" if bike.serial_checked else "no",
            bike.note,
        )


def _mounted(session: Session) -> Iterator[Line]:
    """Yield what is on bikes, and what was sold or scrapped from them."""
    for part in _in_places(session, *OF_BIKE):
        yield _on_bike(part, part.bike, part.place_type, part.place_name, "")
    for part in _in_places(session, *GONE):
        if _left_a_bike(part):
            gone = str(part.place_type)
            yield _on_bike(part, part.from_bike, part.from_type, part.from_name, gone)


def _on_bike(part: Any, bike: str, type_: PlaceType, slot: str, gone: str) -> Line:
    named = LOOSE if type_ is PlaceType.BIKE else slot
    stocked = not gone and part.from_type not in (PlaceType.SUPPLIER, None)
    return (part.number, bike, named, part.kind, *_told(part), "yes" if stocked else "no", gone)


def _told(part: Any) -> Line:
    """Return what both files say of a part, in the order of their columns."""
    return (
        str(part.grade),
        str(part.condition),
        _quantity(part),
        show_money(part.cost),
        _optional(part.value),
        part.origin,
        _attributes(part.text),
        part.note,
    )


def _quantity(part: Any) -> str:
    if not part.quantity:
        return COST_ONLY
    return show_quantity(part.quantity, part.unit) if part.lot else ""


@lru_cache(maxsize=65536)
def _attributes(text: str) -> str:
    return written(spec_of(text))


def _optional(amount: Money | None) -> str:
    return "" if amount is None else show_money(amount)


def _left_a_bike(part: Any) -> bool:
    """Return whether what was sold or scrapped of a part came as a whole from one bike."""
    return part.from_type in OF_BIKE and part.moved == part.quantity


def _account(session: Session) -> Iterator[Line]:
    query = select(BikeEntry, Bike.name).join(Bike, Bike.id == BikeEntry.bike_id)
    for entry, bike in session.execute(query.order_by(BikeEntry.id)):
        yield (
            bike,
            str(entry.type),
            entry.day.isoformat(),
            show_money(entry.amount),
            "" if entry.minutes is None else str(entry.minutes),
            _optional(entry.rate),
            entry.note,
        )


def _names(session: Session) -> Iterator[Line]:
    for entry in list_names(session):
        yield entry.printed, entry.spec.kind, written(entry.spec), entry.note


def _prices(session: Session) -> Iterator[Line]:
    query = select(Price, RecordedSpec.kind, RecordedSpec.text)
    query = query.outerjoin(RecordedSpec, RecordedSpec.id == Price.spec_id)
    for price, kind, text in session.execute(query.order_by(Price.id)):
        yield (
            kind or "",
            price.named,
            _attributes(text) if text else "",
            show_money(price.price),
            "" if price.lead_days is None else str(price.lead_days),
            price.note,
        )


def _in_places(session: Session, *types: PlaceType) -> Iterator[Any]:
    """Yield what is in places of these types, with where the last of it came from."""
    last = (
        select(func.max(Movement.id))
        .where(
            Movement.part_id == Holding.part_id,
            # A sum, so that SQLite begins with the movements of the part, not of the place.
            Movement.to_place_id + 0 == Holding.place_id,
            Movement.quantity > 0,
        )
        .correlate(Holding)
        .scalar_subquery()
    )
    source, from_bike = aliased(Place), aliased(Bike)
    query = (
        select(
            *(Part.number, Part.grade, Part.condition, Part.lot, Part.unit, Part.value),
            *(Part.origin, Part.note, RecordedSpec.kind, RecordedSpec.text),
            *(Holding.quantity, Holding.cost, Movement.quantity.label("moved")),
            *(Place.type.label("place_type"), Place.name.label("place_name")),
            *(Bike.name.label("bike"), from_bike.name.label("from_bike")),
            *(source.type.label("from_type"), source.name.label("from_name")),
        )
        .select_from(Holding)
        .join(Part, Part.id == Holding.part_id)
        .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
        .join(Place, Place.id == Holding.place_id)
        .outerjoin(Bike, Bike.id == Place.bike_id)
        .outerjoin(Movement, Movement.id == last)
        .outerjoin(source, source.id == Movement.from_place_id)
        .outerjoin(from_bike, from_bike.id == source.bike_id)
        .where(Place.type.in_(types))
        .order_by(Part.number, Place.type, Place.name, Bike.name)
    )
    yield from session.execute(query.execution_options(yield_per=AT_ONCE))


WRITERS: Mapping[str, Callable[[Session], Iterator[Line]]] = {
    "numbers": _numbers,
    "bins": _bins,
    "parts": _parts,
    "bikes": _bikes,
    "mounted": _mounted,
    "account": _account,
    "names": _names,
    "prices": _prices,
    "sales": sale_lines,
    "levels": written_levels,
}
"""Each file by its name; `importing.TABLES` has its columns."""
