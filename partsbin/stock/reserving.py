"""Laying parts aside for bikes: reserve, list, and let go of what is no longer wanted."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import bindparam, delete, func, insert, select

from partsbin.stock.ledger import act_of
from partsbin.stock.models import Bike, Part
from partsbin.stock.plan_tables import Reservation
from partsbin.stock.sending import Question

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, ScalarSelect
    from sqlalchemy.orm import Session

    from partsbin.stock.ids import BikeId, PartId


@dataclass(frozen=True, slots=True)
class LaidAside:
    """A quantity of a part that waits for a slot of a bike; no slot for an adapter."""

    part: PartId
    bike: BikeId
    bike_name: str
    slot: str
    quantity: int = 1


LAID = (
    select(
        *(Reservation.part_id, Reservation.bike_id, Bike.name),
        *(Reservation.slot, Reservation.quantity),
    )
    .join(Bike, Bike.id == Reservation.bike_id)
    .order_by(Reservation.id)
)
LAID_OF_PART = Question(LAID.where(Reservation.part_id == bindparam("part")))


def reserve(session: Session, bikes: Collection[BikeId], laid: Iterable[LaidAside]) -> None:
    """Lay parts aside for some bikes, in the place of all that was laid aside for them before."""
    session.execute(delete(Reservation).where(Reservation.bike_id.in_(bikes)))
    rows = [
        {
            "act_id": act_of(session),
            "part_id": one.part,
            "bike_id": one.bike,
            "slot": one.slot,
            "quantity": one.quantity,
        }
        for one in laid
    ]
    if rows:
        session.execute(insert(Reservation), rows)


def laid_aside(session: Session, *, part: PartId | None = None) -> list[LaidAside]:
    """Return what is laid aside, of one part or of all, in the order in which it was done."""
    if part is None:
        return [LaidAside(*row) for row in session.execute(LAID)]
    return [LaidAside(*row) for row in LAID_OF_PART.rows(session, part=part)]


def laid_aside_elsewhere(session: Session, bike: BikeId) -> dict[PartId, int]:
    """Return how much of each part is laid aside for other bikes."""
    query = (
        select(Reservation.part_id, func.sum(Reservation.quantity))
        .where(Reservation.bike_id != bike)
        .group_by(Reservation.part_id)
    )
    return {part: int(quantity) for part, quantity in session.execute(query)}


def let_go(session: Session, part: PartId, bike: BikeId | None = None) -> None:
    """Forget the first reservation of a part for a bike, or all of the part's without a bike."""
    if bike is None:
        session.execute(delete(Reservation).where(Reservation.part_id == part))
        return
    first = select(func.min(Reservation.id)).where(
        Reservation.part_id == part, Reservation.bike_id == bike
    )
    session.execute(delete(Reservation).where(Reservation.id == first.scalar_subquery()))


def free_quantity(but_for: Collection[BikeId] = ()) -> ColumnElement[int]:
    """Return how much of a part in bins is laid aside for no bike, or only for some."""
    return Part.in_bins - func.coalesce(_held(but_for), 0)


def _held(but_for: Collection[BikeId]) -> ScalarSelect[int]:
    query = select(func.sum(Reservation.quantity)).where(Reservation.part_id == Part.id)
    if but_for:
        query = query.where(Reservation.bike_id.not_in(but_for))
    return query.correlate(Part).scalar_subquery()
