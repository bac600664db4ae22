"""Bikes at a glance: state, needs and cost so far of many at once, without a question for each."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import case, func, select
from sqlalchemy.orm import aliased

from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted_on
from partsbin.stock.models import Bike, BikeEntry, Movement, Place
from partsbin.stock.money import Money
from partsbin.stock.words import BikeState, EntryType, PlaceType
from partsbin.workshop.mounting import needs
from partsbin.workshop.presale import GONE

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.number import LabelNumber
    from partsbin.stock.lookup import Mounted

ORDER = (
    BikeState.IN_WORK,
    BikeState.BOUGHT,
    BikeState.READY,
    BikeState.KEPT,
    BikeState.SOLD,
    BikeState.STRIPPED,
)
"""The states as the work goes: what is on the stand first, what is gone last."""
NO_COST = (PlaceType.SCRAPPED, PlaceType.SOLD)
"""Where a part's cost stays the bike's: what was scrapped was paid for, what was sold too."""


@dataclass(frozen=True, slots=True)
class BikeCard:
    """A bike as a card shows it."""

    name: str
    number: LabelNumber
    style: str
    state: BikeState
    parts: int
    needs: tuple[tuple[str, str], ...]
    """The slots that still want a part, and why; none of a bike that is gone."""
    cost: Money
    """All that it cost so far, as its account says."""


def counts(session: Session) -> dict[BikeState, int]:
    """Return how many bikes are in each state that any is in, in the order of the work."""
    query = select(Bike.state, func.count()).group_by(Bike.state)
    found = {state: int(count) for state, count in session.execute(query)}
    return {state: found[state] for state in ORDER if state in found}


def cards(
    session: Session, states: Collection[BikeState], most: int, start: int = 0
) -> list[BikeCard]:
    """Return the cards of at most so many bikes in these states, by state and name."""
    order = case({state: at for at, state in enumerate(ORDER)}, value=Bike.state)
    query = select(Bike).where(Bike.state.in_(states)).order_by(order, Bike.name)
    bikes = list(session.scalars(query.offset(start).limit(most)))
    ids = [BikeId(bike.id) for bike in bikes]
    on_bikes, costs = mounted_on(session, ids), costs_so_far(session, ids)
    return [
        BikeCard(
            bike.name,
            bike.number,
            bike.style,
            bike.state,
            len(on_bikes[bike.id]),
            _needs(bike, on_bikes[bike.id]),
            costs[bike.id],
        )
        for bike in bikes
    ]


def _needs(bike: Bike, on_bike: list[Mounted]) -> tuple[tuple[str, str], ...]:
    """Return the needs of a bike; there is no saying of one that is gone, or bare."""
    if bike.state in GONE or not on_bike:
        return ()
    return tuple((slot.name, why) for slot, why in needs(on_bike))


def costs_so_far(session: Session, bikes: Sequence[BikeId]) -> dict[BikeId, Money]:
    """Return what each of some bikes cost so far: parts, labour, fees and transport.

    It is what `books.account` calls the cost of a bike, for many at once.
    """
    totals = dict.fromkeys(bikes, 0)
    here, there = aliased(Place), aliased(Place)
    for into in (True, False):
        ends = (Movement.to_place_id, Movement.from_place_id)
        own, other = ends if into else ends[::-1]
        moved = (
            select(here.bike_id, func.sum(Movement.cost))
            .select_from(Movement)
            .join(here, here.id == own)
            .join(there, there.id == other)
            .where(
                here.bike_id.in_(bikes),
                there.bike_id.is_distinct_from(here.bike_id),
                there.type.not_in(NO_COST),
            )
            .group_by(here.bike_id)
        )
        for bike, cost in session.execute(moved):
            assert bike is not None  # the places are those of the bikes
            totals[bike] += int(cost) if into else -int(cost)
    entered = (
        select(BikeEntry.bike_id, func.sum(BikeEntry.amount))
        .where(BikeEntry.bike_id.in_(bikes), BikeEntry.type != EntryType.SALE)
        .group_by(BikeEntry.bike_id)
    )
    for bike, amount in session.execute(entered):
        totals[bike] += int(amount)
    return {bike: Money(total) for bike, total in totals.items()}
