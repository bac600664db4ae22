"""What places hold: looked at before a movement, and brought along when one is appended.

`movements` decides what may move; here are the statements that make the movement and its sums one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import and_, bindparam, delete, func, insert, select, update
from sqlalchemy.orm import aliased, util

from partsbin.stock.errors import UnknownError
from partsbin.stock.ids import CLEARING, SUPPLIER, PartId, PlaceId
from partsbin.stock.ledger import act_of
from partsbin.stock.models import BinSum, Holding, Movement, Part, Place
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.sending import Change, Question, named
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
class Held:
    """How much of a part a place holds, and what that cost."""

    quantity: int
    cost: Money


@dataclass(frozen=True, slots=True)
class Sight:
    """What a movement finds before it: the part, the types of the places, what the source holds."""

    lot: bool
    unit: Unit
    source: PlaceType
    target: PlaceType
    held: Held


_Source, _Target = aliased(Place), aliased(Place)
_HERE = (Holding.part_id == bindparam("part"), Holding.place_id == bindparam("place"))
LOOK = Question(
    select(
        *(Part.lot, Part.unit, _Source.type, _Target.type),
        *(func.coalesce(Holding.quantity, 0), func.coalesce(Holding.cost, 0)),
    )
    .select_from(Part)
    .join(_Source, _Source.id == bindparam("source"))
    .join(_Target, _Target.id == bindparam("target"))
    .outerjoin(Holding, and_(Holding.part_id == Part.id, Holding.place_id == _Source.id))
    .where(Part.id == bindparam("part"))
)
TYPES = select(Place.id, Place.type).where(Place.id.in_(bindparam("places", expanding=True)))
IN_PLACE = Question(select(Holding.quantity, Holding.cost).where(*_HERE))
APPEND = Change(
    insert(Movement).values(
        named("act_id", "part_id", "quantity", "from_place_id", "to_place_id", "cost")
    )
)
NEW_HOLDING = Change(insert(Holding).values(named("part_id", "place_id", "quantity", "cost")))
ADD_TO_HOLDING = Change(
    update(Holding)
    .where(*_HERE)
    .values(quantity=Holding.quantity + bindparam("more"), cost=Holding.cost + bindparam("dearer"))
)
DROP_IF_EMPTY = Change(delete(Holding).where(*_HERE, Holding.quantity == 0, Holding.cost == 0))
ADD_TO_BIN = Change(
    update(BinSum)
    .where(BinSum.place_id == bindparam("place"))
    .values(parts=BinSum.parts + bindparam("more"), cost=BinSum.cost + bindparam("dearer"))
)
ADD_TO_PART = Change(
    update(Part)
    .where(Part.id == bindparam("part"))
    .values(in_bins=Part.in_bins + bindparam("more"))
)


def look(session: Session, part: PartId, source: PlaceId, target: PlaceId) -> Sight:
    """Return what a movement finds. Raises `UnknownError` for what is not in the record."""
    row = LOOK.first(session, part=part, source=source, target=target)
    if row is None:
        types_of(session, source, target)
        raise UnknownError("part", str(part))
    lot, unit, source_type, target_type, quantity, cost = row
    return Sight(lot, unit, source_type, target_type, Held(quantity, Money(cost)))


def types_of(session: Session, *places: PlaceId) -> dict[PlaceId, PlaceType]:
    """Return the type of each place. Raises `UnknownError` if one is not in the record."""
    found: dict[PlaceId, PlaceType] = {
        row.id: row.type for row in session.execute(TYPES, {"places": places})
    }
    for place in places:
        if place not in found:
            raise UnknownError("place", str(place))
    return found


def held_in(session: Session, part: PartId, place: PlaceId) -> Held:
    """Return what a place holds of a part."""
    row = IN_PLACE.first(session, part=part, place=place)
    return Held(*row) if row else Held(0, NOTHING)


def post(
    session: Session,
    part: PartId,
    quantity: int,
    source: PlaceId,
    target: PlaceId,
    *,
    cost: Money,
    seen: Sight,
) -> None:
    """Append the movement and bring the sums of both places along."""
    APPEND.send(
        session,
        act_id=act_of(session),
        part_id=part,
        quantity=quantity,
        from_place_id=source,
        to_place_id=target,
        cost=cost,
    )
    if source not in NOT_HELD:
        _add(session, part, source, -quantity, -cost)
        gone = DROP_IF_EMPTY.send(session, part=part, place=source)
        if seen.source is PlaceType.BIN:
            ADD_TO_BIN.send(session, place=source, more=-gone, dearer=-cost)
    if target not in NOT_HELD:
        new = not _add(session, part, target, quantity, cost)
        if new:
            held = {"part_id": part, "place_id": target, "quantity": quantity, "cost": cost}
            NEW_HOLDING.send(session, **held)
        if seen.target is PlaceType.BIN:
            ADD_TO_BIN.send(session, place=target, more=int(new), dearer=cost)
    _count_in_bins(session, part, quantity * _change(seen.source, seen.target))


def _add(session: Session, part: PartId, place: PlaceId, quantity: int, cost: int) -> bool:
    """Add to a sum and return whether there was one."""
    held = ADD_TO_HOLDING.send(session, part=part, place=place, more=quantity, dearer=cost)
    return held > 0


def _count_in_bins(session: Session, part: PartId, more: int) -> None:
    """Bring along how much of a part is in bins, also for whoever has read the part already."""
    if not more:
        return
    ADD_TO_PART.send(session, part=part, more=more)
    read = session.identity_map.get(util.identity_key(Part, part))
    if read is not None:
        session.expire(read, ["in_bins"])


def post_arrivals(
    session: Session, arrivals: Sequence[Arrival], types: Mapping[PlaceId, PlaceType]
) -> None:
    """Append the movements of parts that are new in the record, and make their sums."""
    act = act_of(session)
    APPEND.send_all(
        session,
        [
            {
                "act_id": act,
                "part_id": a.part,
                "quantity": a.quantity,
                "from_place_id": SUPPLIER,
                "to_place_id": a.place,
                "cost": a.cost,
            }
            for a in arrivals
        ],
    )
    NEW_HOLDING.send_all(
        session,
        [
            {"part_id": a.part, "place_id": a.place, "quantity": a.quantity, "cost": a.cost}
            for a in arrivals
        ],
    )
    _count_arrived(session, [a for a in arrivals if types[a.place] is PlaceType.BIN])


def _count_arrived(session: Session, arrivals: Sequence[Arrival]) -> None:
    """Bring along the sums of the bins in which parts arrived, and of each part that is new."""
    costs: dict[PlaceId, list[Money]] = {}
    for arrival in arrivals:
        costs.setdefault(arrival.place, []).append(arrival.cost)
    bins = [
        {"place": place, "more": len(come), "dearer": sum(come)} for place, come in costs.items()
    ]
    ADD_TO_BIN.send_all(session, bins)
    ADD_TO_PART.send_all(session, [{"part": a.part, "more": a.quantity} for a in arrivals])


def _change(source: PlaceType, target: PlaceType) -> int:
    """Return 1 for a movement into the bins, -1 out of them, 0 within or outside."""
    return (target is PlaceType.BIN) - (source is PlaceType.BIN)
