"""What is where: a part or a lot in a place, as lists and answers show it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import bindparam, exists, func, select

from labels.number import Thing
from partsbin.stock.models import Bike, Holding, Part, Place, RecordedSpec
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import read_number
from partsbin.stock.sending import Question
from partsbin.stock.specs import spec_of
from partsbin.stock.words import Condition, Grade, PlaceType, Unit

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.number import LabelNumber
    from partsbin.kinds.spec import Spec
    from partsbin.stock.ids import BikeId, PartId, PlaceId, SpecId
    from partsbin.stock.money import Money

AT_ONCE = 500
GRADES = tuple(Grade)
PRESENT = (PlaceType.BIN, PlaceType.QUARANTINE, PlaceType.SLOT, PlaceType.BIKE)
"""The types of place that are in the workshop."""
USABLE = (
    (Part.in_bins > 0)
    & Part.grade.not_in((Grade.UNSAFE, Grade.CORE))
    & (Part.condition != Condition.DEAD)
)
"""What may be suggested: it is in a bin, so neither in quarantine nor on a bike, and sound."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stocked:
    """A quantity of a part in one place; a lot in two bins is two of these."""

    part: PartId
    number: LabelNumber
    spec_id: SpecId
    spec: Spec
    grade: Grade
    condition: Condition
    lot: bool
    unit: Unit
    place: PlaceId
    place_type: PlaceType
    place_name: str
    bike: str
    """The name of the bike that the place belongs to, empty for other places."""
    quantity: int
    cost: Money
    """Of the whole quantity here."""
    value: Money | None
    origin: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Mounted:
    """A part on a bike; `slot` is empty for one that is in no slot."""

    slot: str
    place: PlaceId
    part: PartId
    number: LabelNumber
    spec: Spec
    grade: Grade
    condition: Condition
    quantity: int
    unit: Unit
    cost: Money
    value: Money | None
    note: str


@dataclass(frozen=True, slots=True)
class Shown:
    """A part or a lot: what it is, and all places where it is or ended."""

    spec: Spec
    grade: Grade
    places: list[Stocked]


@dataclass(frozen=True, slots=True)
class StockSpec:
    """A spec of which something usable is in a bin."""

    id: SpecId
    spec: Spec


HELD = (
    select(
        Part.id.label("part"),
        Part.number,
        Part.spec_id,
        RecordedSpec.text,
        Part.grade,
        Part.condition,
        Part.lot,
        Part.unit,
        Place.id.label("place"),
        Place.type.label("place_type"),
        Place.name.label("place_name"),
        func.coalesce(Bike.name, "").label("bike"),
        Holding.quantity,
        Holding.cost,
        Part.value,
        Part.origin,
        Part.note,
    )
    .select_from(Holding)
    .join(Part, Part.id == Holding.part_id)
    .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
    .join(Place, Place.id == Holding.place_id)
    .outerjoin(Bike, Bike.id == Place.bike_id)
    .where(Holding.quantity > 0)
)
"""What is held of a part in a place, all that `Stocked` tells."""
COLUMNS = tuple(HELD.selected_columns.keys())
OF_PART = Question(HELD.where(Holding.part_id == bindparam("part")))
OF_NUMBER = Question(HELD.where(Part.number == bindparam("number")))
OF_PARTS = HELD.where(Holding.part_id.in_(bindparam("parts", expanding=True)))
IN_PLACE = Question(HELD.where(Holding.place_id == bindparam("place")))
ON_BIKE = Question(HELD.where(Place.bike_id == bindparam("bike")).order_by(Place.id, Part.id))
ON_BIKES = (
    HELD.add_columns(Place.bike_id)
    .where(Place.bike_id.in_(bindparam("bikes", expanding=True)))
    .order_by(Place.id, Part.id)
)


def where_is(session: Session, part: PartId) -> list[Stocked]:
    """Return all places where a part is or ended: bins, bikes, quarantine, scrapped, sold."""
    return _in_order(OF_PART.rows(session, part=part))


def shown(session: Session, text: str) -> Shown:
    """Return the part or lot of a label number and where it is, in one look at the record.

    Raises as `part_by_number` does.
    """
    number = read_number(text, Thing.PART, Thing.LOT)
    places = _in_order(OF_NUMBER.rows(session, number=number))
    if places:
        return Shown(places[0].spec, places[0].grade, places)
    part = part_by_number(session, number)
    return Shown(spec_of(part.spec.text), part.grade, [])


def contents(session: Session, place: PlaceId) -> list[Stocked]:
    """Return what is in a place, in the order of its kinds."""
    return _in_order(IN_PLACE.rows(session, place=place))


def places_of(
    session: Session, parts: Sequence[PartId], types: Sequence[PlaceType] = PRESENT
) -> list[Stocked]:
    """Return where these parts are, in places of these types."""
    found: list[Stocked] = []
    for start in range(0, len(parts), AT_ONCE):
        some = {"parts": parts[start : start + AT_ONCE]}
        rows = _in_order(session.execute(OF_PARTS, some))
        # Asked for in SQL, the types would tempt SQLite to begin with all the places.
        found += [row for row in rows if row.place_type in types]
    return found


def mounted(session: Session, bike: BikeId) -> list[Mounted]:
    """Return what is on a bike, in the order in which the slots were first filled."""
    return [_mounted(row) for row in ON_BIKE.rows(session, bike=bike)]


def mounted_on(session: Session, bikes: Sequence[BikeId]) -> dict[BikeId, list[Mounted]]:
    """Return what is on each of some bikes, as `mounted` does, asked for at once."""
    found: dict[BikeId, list[Mounted]] = {bike: [] for bike in bikes}
    for *row, bike in session.execute(ON_BIKES, {"bikes": list(bikes)}):
        found[bike].append(_mounted(row))
    return found


def _mounted(row: Sequence[Any]) -> Mounted:
    held = _stocked(row)
    return Mounted(
        slot=held.place_name if held.place_type is PlaceType.SLOT else "",
        place=held.place,
        part=held.part,
        number=held.number,
        spec=held.spec,
        grade=held.grade,
        condition=held.condition,
        quantity=held.quantity,
        unit=held.unit,
        cost=held.cost,
        value=held.value,
        note=held.note,
    )


def usable_specs(session: Session, kinds: Sequence[str] = ()) -> list[StockSpec]:
    """Return each spec of these kinds, or of all, of which something usable is in a bin.

    The cost grows with the number of specs, not of parts.
    """
    query = select(RecordedSpec.id, RecordedSpec.text).where(
        exists().where(Part.spec_id == RecordedSpec.id, USABLE)
    )
    if kinds:
        query = query.where(RecordedSpec.kind.in_(kinds))
    return [
        StockSpec(row.id, spec_of(row.text))
        for row in session.execute(query.order_by(RecordedSpec.id))
    ]


def usable_parts(session: Session, spec: SpecId, limit: int | None = None) -> list[Stocked]:
    """Return what is usable of a spec, in its bins, best grade first among the first `limit`."""
    query = select(Part.id).where(Part.spec_id == spec, USABLE).order_by(Part.id).limit(limit)
    return places_of(session, session.scalars(query).all(), (PlaceType.BIN,))


def usable_quantities(session: Session, specs: Sequence[SpecId]) -> dict[SpecId, int]:
    """Return how much of each spec is usable, in the unit of its parts."""
    found: dict[SpecId, int] = {}
    for start in range(0, len(specs), AT_ONCE):
        query = (
            select(Part.spec_id, func.sum(Part.in_bins).label("quantity"))
            .where(Part.spec_id.in_(specs[start : start + AT_ONCE]), USABLE)
            .group_by(Part.spec_id)
        )
        found.update({row.spec_id: int(row.quantity) for row in session.execute(query)})
    return found


def _stocked(row: Sequence[Any]) -> Stocked:
    """Return what a row of `HELD` tells."""
    values = dict(zip(COLUMNS, row, strict=True))
    return Stocked(spec=spec_of(values.pop("text")), **values)


def _in_order(rows: Iterable[Sequence[Any]]) -> list[Stocked]:
    """Return rows of `HELD` in the order of their kinds."""
    return sorted(map(_stocked, rows), key=_order)


def _order(row: Stocked) -> tuple[str, int, int, int, int]:
    return (row.spec.kind, row.spec_id, GRADES.index(row.grade), row.part, row.place)
