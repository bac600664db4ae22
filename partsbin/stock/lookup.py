"""What is where: a part or a lot in a place, as lists and answers show it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import exists, func, select

from partsbin.stock.models import Bike, Holding, Part, Place, RecordedSpec
from partsbin.stock.specs import spec_of
from partsbin.stock.words import Condition, Grade, PlaceType, Unit

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
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
class StockSpec:
    """A spec of which something usable is in a bin."""

    id: SpecId
    spec: Spec


def where_is(session: Session, part: PartId) -> list[Stocked]:
    """Return all places where a part is or ended: bins, bikes, quarantine, scrapped, sold."""
    return _rows(session, Holding.part_id == part)


def contents(session: Session, place: PlaceId) -> list[Stocked]:
    """Return what is in a place, in the order of its kinds."""
    return _rows(session, Holding.place_id == place)


def places_of(
    session: Session, parts: Sequence[PartId], types: Sequence[PlaceType] = PRESENT
) -> list[Stocked]:
    """Return where these parts are, in places of these types."""
    found: list[Stocked] = []
    for start in range(0, len(parts), AT_ONCE):
        rows = _rows(session, Holding.part_id.in_(parts[start : start + AT_ONCE]))
        # Asked for in SQL, the types would tempt SQLite to begin with all the places.
        found += [row for row in rows if row.place_type in types]
    return found


def mounted(session: Session, bike: BikeId) -> list[Mounted]:
    """Return what is on a bike, in the order in which the slots were first filled."""
    query = (
        select(Place, Holding, Part, RecordedSpec.text)
        .join(Holding, Holding.place_id == Place.id)
        .join(Part, Part.id == Holding.part_id)
        .join(Part.spec)
        .where(Place.bike_id == bike, Holding.quantity > 0)
        .order_by(Place.id, Part.id)
    )
    return [
        Mounted(
            slot=place.name if place.type is PlaceType.SLOT else "",
            place=place.id,
            part=part.id,
            number=part.number,
            spec=spec_of(text),
            grade=part.grade,
            condition=part.condition,
            quantity=holding.quantity,
            unit=part.unit,
            cost=holding.cost,
            value=part.value,
            note=part.note,
        )
        for place, holding, part, text in session.execute(query)
    ]


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


def _rows(session: Session, condition: ColumnElement[bool]) -> list[Stocked]:
    query = (
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
        .where(condition, Holding.quantity > 0)
    )
    rows = []
    for row in session.execute(query).mappings():
        values = dict(row)
        rows.append(Stocked(spec=spec_of(values.pop("text")), **values))
    return sorted(rows, key=_order)


def _order(row: Stocked) -> tuple[str, int, int, int, int]:
    return (row.spec.kind, row.spec_id, GRADES.index(row.grade), row.part, row.place)
