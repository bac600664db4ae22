"""The one door through which stock changes: a movement is appended and the sums follow it.

What is refused is refused before anything is written, and the exception takes the whole act back.
The cost that a movement carries follows the formula of its kind (see `cost_layers`), unless the
caller has a better reason: the movement that is undone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import delete, insert, select, update

from partsbin.errors import UsageError
from partsbin.stock.cost_layers import Layer, leaving_cost
from partsbin.stock.errors import (
    UNCHANGED,
    AlreadyThereError,
    NotThereError,
    RefusedError,
    SlotFilledError,
    UnknownError,
)
from partsbin.stock.ids import CLEARING, SCRAPPED, SUPPLIER, PartId, PlaceId
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Holding, Movement, Part, Place
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.quantity import show_quantity
from partsbin.stock.titles import part_title, place_title, whereabouts
from partsbin.stock.words import PlaceType, Unit

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

NOT_HELD = (SUPPLIER, CLEARING)
"""Places whose sums are not kept: what came from the one is everything, the other is always 0."""


@dataclass(frozen=True, slots=True)
class Arrival:
    """A quantity of a part, new in the record, that comes from the supplier into a place."""

    part: PartId
    place: PlaceId
    quantity: int
    cost: Money


@dataclass(frozen=True, slots=True)
class _Held:
    quantity: int
    cost: Money


def move(
    session: Session,
    part: PartId,
    quantity: int,
    source: PlaceId,
    target: PlaceId,
    *,
    cost: Money | None = None,
) -> Money:
    """Move a quantity of a part from a place to another and return the cost that it carried.

    `quantity` is in the part's unit, 1 for a single part. `cost` must be given for what comes from
    the supplier; for all else it follows the formula of the part's kind, or is what is given.

    Raises `UnknownError` for a part or place that is not in the record, `NotThereError` if the
    place holds less, `AlreadyThereError` for a second arrival of a single part, `SlotFilledError`
    for a slot that holds another part, `RefusedError` for what cannot be; nothing is changed then.
    """
    if CLEARING in (source, target):
        raise ValueError("only a cost passes through clearing; see carry_cost")
    types = _types(session, source, target)
    lot, unit = _lot_and_unit(session, part)
    _check_quantity(session, part, quantity, lot=lot)
    if source == target:
        where = place_title(session, target)
        raise RefusedError(f"{part_title(session, part)} is in {where} already; {UNCHANGED}")
    if source == SUPPLIER:
        carried = _arriving(session, part, cost, lot=lot)
    else:
        carried = _taken(session, part, quantity, source, unit=unit, cost=cost)
    if types[target] is PlaceType.SLOT:
        _check_free(session, target, part)
    _post(session, part, quantity, source, target, cost=carried)
    in_bins = quantity * _change(types[source], types[target])
    if in_bins:
        row = update(Part).where(Part.id == part).values(in_bins=Part.in_bins + in_bins)
        session.execute(row)
    return carried


def carry_cost(
    session: Session, part: PartId, source: PlaceId, target: PlaceId, cost: Money
) -> None:
    """Move a cost without a quantity: a donor's price on its way to the parts that came off.

    Into `CLEARING` it leaves the part, out of it it comes onto a part that `target` holds; an act
    must hand on all that it takes. Into `SCRAPPED` it is written off.

    Raises `RefusedError` if the part holds less, or if a cost would lie where nothing is.
    """
    _types(session, source, target)
    if cost <= 0:
        raise ValueError("a cost that moves alone is above nothing")
    if source not in NOT_HELD and _held(session, part, source).cost < cost:
        raise RefusedError(f"{part_title(session, part)} did not cost that much; {UNCHANGED}")
    kept = target in NOT_HELD or _held(session, part, target).quantity
    if not kept and _types(session, target)[target] is not PlaceType.SCRAPPED:
        where = place_title(session, target)
        raise RefusedError(f"{part_title(session, part)} is not in {where}; {UNCHANGED}")
    _post(session, part, 0, source, target, cost=cost)


def arrive(session: Session, arrivals: Sequence[Arrival]) -> None:
    """Move parts that are new in the record from the supplier into their places, all at once.

    Raises `UnknownError` for an unknown place, `SlotFilledError` for a slot that is filled or is
    named twice, `RefusedError` for a place where no part can be.
    """
    act = act_of(session)
    types = _types(session, *{arrival.place for arrival in arrivals})
    slots: set[PlaceId] = set()
    for arrival in arrivals:
        if arrival.place in NOT_HELD:
            where = place_title(session, arrival.place)
            raise RefusedError(f"a new part cannot go to {where}; {UNCHANGED}")
        if types[arrival.place] is PlaceType.SLOT:
            if arrival.place in slots:
                raise SlotFilledError(place_title(session, arrival.place), "another part")
            _check_free(session, arrival.place, arrival.part)
            slots.add(arrival.place)
    held = [
        {"part_id": a.part, "place_id": a.place, "quantity": a.quantity, "cost": a.cost}
        for a in arrivals
    ]
    moved = [
        {
            "act_id": act,
            "part_id": a.part,
            "quantity": a.quantity,
            "from_place_id": SUPPLIER,
            "to_place_id": a.place,
            "cost": a.cost,
        }
        for a in arrivals
    ]
    binned = [
        {"id": a.part, "in_bins": a.quantity} for a in arrivals if types[a.place] is PlaceType.BIN
    ]
    session.execute(insert(Movement), moved)
    session.execute(insert(Holding), held)
    if binned:
        session.execute(update(Part), binned)


def _types(session: Session, *places: PlaceId) -> dict[PlaceId, PlaceType]:
    """Return the type of each place. Raises `UnknownError` if one is not in the record."""
    query = select(Place.id, Place.type).where(Place.id.in_(places))
    found: dict[PlaceId, PlaceType] = {row.id: row.type for row in session.execute(query)}
    for place in places:
        if place not in found:
            raise UnknownError("place", str(place))
    return found


def _lot_and_unit(session: Session, part: PartId) -> tuple[bool, Unit]:
    row = session.execute(select(Part.lot, Part.unit).where(Part.id == part)).one_or_none()
    if row is None:
        raise UnknownError("part", str(part))
    return row.lot, row.unit


def _check_quantity(session: Session, part: PartId, quantity: int, *, lot: bool) -> None:
    if quantity < 1:
        raise UsageError(f"{quantity} is no quantity to move; give 1 or more")
    if not lot and quantity != 1:
        name = part_title(session, part)
        raise RefusedError(f"{name} is a single part, {quantity} of it cannot move; {UNCHANGED}")


def _arriving(session: Session, part: PartId, cost: Money | None, *, lot: bool) -> Money:
    """Return the cost of an arrival. A single part is in one place or in none."""
    if cost is None:
        raise ValueError("what comes from the supplier has a cost, if only 0")
    present = select(Holding.part_id).where(Holding.part_id == part, Holding.quantity > 0)
    if not lot and session.scalar(present.limit(1)) is not None:
        now = " and ".join(whereabouts(session, part))
        raise AlreadyThereError(part_title(session, part), now)
    return cost


def _taken(
    session: Session,
    part: PartId,
    quantity: int,
    source: PlaceId,
    *,
    unit: Unit,
    cost: Money | None,
) -> Money:
    """Return the cost that a quantity takes along; the last of it takes all that is left."""
    held = _held(session, part, source)
    if held.quantity < quantity:
        raise NotThereError(
            part_title(session, part),
            show_quantity(quantity, unit),
            place_title(session, source),
            show_quantity(held.quantity, unit) if held.quantity else "",
            " and ".join(whereabouts(session, part)),
        )
    if cost is None:
        here = Layer(0, held.quantity, held.cost)
        return leaving_cost(session, part, quantity, source, here)
    # A cost may stay where the parts are scrapped: the price of a donor that was written off alone.
    left = quantity == held.quantity and cost != held.cost and source != SCRAPPED
    if cost > held.cost or left:
        name = part_title(session, part)
        raise RefusedError(f"{name} holds another cost than is to go with it; {UNCHANGED}")
    return cost


def _held(session: Session, part: PartId, place: PlaceId) -> _Held:
    query = select(Holding.quantity, Holding.cost).where(
        Holding.part_id == part, Holding.place_id == place
    )
    row = session.execute(query).one_or_none()
    return _Held(row.quantity, row.cost) if row else _Held(0, NOTHING)


def _check_free(session: Session, slot: PlaceId, part: PartId) -> None:
    query = select(Holding.part_id).where(
        Holding.place_id == slot, Holding.quantity > 0, Holding.part_id != part
    )
    other = session.scalar(query.limit(1))
    if other is not None:
        raise SlotFilledError(place_title(session, slot), part_title(session, other))


def _change(source: PlaceType, target: PlaceType) -> int:
    """Return 1 for a movement into the bins, -1 out of them, 0 within or outside."""
    return (target is PlaceType.BIN) - (source is PlaceType.BIN)


def _post(
    session: Session,
    part: PartId,
    quantity: int,
    source: PlaceId,
    target: PlaceId,
    *,
    cost: Money,
) -> None:
    """Append the movement and bring both sums along."""
    row = {
        "act_id": act_of(session),
        "part_id": part,
        "quantity": quantity,
        "from_place_id": source,
        "to_place_id": target,
        "cost": cost,
    }
    session.execute(insert(Movement).values(row))
    if source not in NOT_HELD:
        _add(session, part, source, -quantity, -cost)
        empty = (Holding.quantity == 0) & (Holding.cost == 0)
        here = (Holding.part_id == part) & (Holding.place_id == source)
        session.execute(delete(Holding).where(here, empty))
    if target not in NOT_HELD and not _add(session, part, target, quantity, cost):
        held = {"part_id": part, "place_id": target, "quantity": quantity, "cost": cost}
        session.execute(insert(Holding).values(held))


def _add(session: Session, part: PartId, place: PlaceId, quantity: int, cost: int) -> bool:
    """Add to a sum and return whether there was one."""
    row = (
        update(Holding)
        .where(Holding.part_id == part, Holding.place_id == place)
        .values(quantity=Holding.quantity + quantity, cost=Holding.cost + cost)
        .returning(Holding.part_id)
    )
    return session.scalar(row) is not None
