"""The one door through which stock changes: a movement is appended and the sums follow it.

What is refused is refused before anything is written, and the exception takes the whole act back.
The cost that a movement carries follows the formula of its kind (see `cost_layers`), unless the
caller has a better reason: the movement that is undone.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from sqlalchemy import bindparam, select

from partsbin.errors import UsageError
from partsbin.stock.cost_layers import Layer, leaving_cost
from partsbin.stock.errors import (
    UNCHANGED,
    AlreadyThereError,
    NotThereError,
    RefusedError,
    SlotFilledError,
)
from partsbin.stock.holdings import (
    NOT_HELD,
    Arrival,
    Sight,
    held_in,
    look,
    post,
    post_arrivals,
    types_of,
)
from partsbin.stock.ids import CLEARING, SCRAPPED, SUPPLIER, PartId, PlaceId
from partsbin.stock.models import Holding
from partsbin.stock.money import Money
from partsbin.stock.quantity import show_quantity
from partsbin.stock.sending import Question
from partsbin.stock.titles import part_title, place_title, whereabouts
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

PRESENT = Question(
    select(Holding.part_id).where(Holding.part_id == bindparam("part"), Holding.quantity > 0)
)
OTHER_IN_SLOT = Question(
    select(Holding.part_id).where(
        Holding.place_id == bindparam("place"),
        Holding.quantity > 0,
        Holding.part_id != bindparam("part"),
    )
)


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
    seen = look(session, part, source, target)
    _check_quantity(session, part, quantity, lot=seen.lot)
    if source == target:
        where = place_title(session, target)
        raise RefusedError(f"{part_title(session, part)} is in {where} already; {UNCHANGED}")
    if source == SUPPLIER:
        carried = _arriving(session, part, cost, lot=seen.lot)
    else:
        carried = _taken(session, part, quantity, source, seen=seen, cost=cost)
    if seen.target is PlaceType.SLOT:
        _check_free(session, target, part)
    post(session, part, quantity, source, target, cost=carried, seen=seen)
    return carried


def carry_cost(
    session: Session, part: PartId, source: PlaceId, target: PlaceId, cost: Money
) -> None:
    """Move a cost without a quantity: a donor's price on its way to the parts that came off.

    Into `CLEARING` it leaves the part, out of it it comes onto a part that `target` holds; an act
    must hand on all that it takes. Into `SCRAPPED` it is written off.

    Raises `RefusedError` if the part holds less, or if a cost would lie where nothing is.
    """
    seen = look(session, part, source, target)
    if cost <= 0:
        raise ValueError("a cost that moves alone is above nothing")
    if source not in NOT_HELD and seen.held.cost < cost:
        raise RefusedError(f"{part_title(session, part)} did not cost that much; {UNCHANGED}")
    kept = target in NOT_HELD or held_in(session, part, target).quantity
    if not kept and seen.target is not PlaceType.SCRAPPED:
        where = place_title(session, target)
        raise RefusedError(f"{part_title(session, part)} is not in {where}; {UNCHANGED}")
    post(session, part, 0, source, target, cost=cost, seen=seen)


def arrive(session: Session, arrivals: Sequence[Arrival]) -> None:
    """Move parts that are new in the record from the supplier into their places, all at once.

    Raises `UnknownError` for an unknown place, `SlotFilledError` for a slot that is filled or is
    named twice, `RefusedError` for a place where no part can be.
    """
    types = types_of(session, *{arrival.place for arrival in arrivals})
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
    post_arrivals(session, arrivals, types)


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
    if not lot and PRESENT.value(session, part=part) is not None:
        now = " and ".join(whereabouts(session, part))
        raise AlreadyThereError(part_title(session, part), now)
    return cost


def _taken(
    session: Session,
    part: PartId,
    quantity: int,
    source: PlaceId,
    *,
    seen: Sight,
    cost: Money | None,
) -> Money:
    """Return the cost that a quantity takes along; the last of it takes all that is left."""
    held, unit = seen.held, seen.unit
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


def _check_free(session: Session, slot: PlaceId, part: PartId) -> None:
    other = OTHER_IN_SLOT.value(session, place=slot, part=part)
    if other is not None:
        raise SlotFilledError(place_title(session, slot), part_title(session, other))
