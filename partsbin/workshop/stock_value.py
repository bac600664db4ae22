"""What the stock is worth: the lower of cost and net realisable value, and how old it is.

Source: IAS 2 Inventories, paragraphs 6, 9 and 28 to 33, as explained at
ifrscommunity.com/knowledge-base/nrv-net-realisable-value and annualreporting.info: item by item,
the lower of what it cost and of its selling price less the cost to complete and to sell it.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from sqlalchemy import func, literal, select, union_all

from partsbin.stock.bikes import list_bikes
from partsbin.stock.ids import SUPPLIER, BikeId, PartId
from partsbin.stock.models import Act, BikeEntry, Holding, Movement, Part, Place
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.undone import stands
from partsbin.stock.words import BikeState, EntryType, Grade, PlaceType, Unit
from partsbin.workshop.postings import local_day, midnight
from partsbin.workshop.selling import estimate_of

if TYPE_CHECKING:
    from sqlalchemy import Subquery
    from sqlalchemy.orm import Session

BANDS = (30, 90, 180, 365)
"""Days at which a band of age ends. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Worth:
    """What some stock cost, and the lower of that and its net realisable value."""

    cost: Money = NOTHING
    lower: Money = NOTHING
    count: int = 0
    unpriced: int = 0
    """How many of them have no selling price, so that their cost stands."""

    @property
    def write_down(self) -> Money:
        """Return how much the cost is above what can be had for it."""
        return Money(self.cost - self.lower)

    def __add__(self, other: Worth) -> Worth:
        return Worth(
            Money(self.cost + other.cost),
            Money(self.lower + other.lower),
            self.count + other.count,
            self.unpriced + other.unpriced,
        )


@dataclass(frozen=True, slots=True)
class Age:
    """The parts of one band of age, since they last came into the workshop."""

    days_from: int
    days_to: int | None
    parts: int
    cost: Money


@dataclass(frozen=True, slots=True)
class Stock:
    """The stock of the workshop on a day."""

    day: dt.date
    parts: Worth
    """In bins and in quarantine."""
    bikes: Worth
    """Bikes that are to be sold, with their labour and transport."""
    own_fleet: Money
    """Bikes that are kept: at cost, and no stock for sale."""
    ages: tuple[Age, ...]

    @property
    def whole(self) -> Worth:
        """Return parts and bikes together."""
        return self.parts + self.bikes


def net_realisable(
    price: Money, to_complete: Money = NOTHING, selling: Decimal = Decimal(0)
) -> Money:
    """Return a price less the cost to complete and, in percent of it, to sell; never below nothing.

    >>> net_realisable(Money(10000), Money(1500), Decimal(10))
    7500
    """
    cost_to_sell = int((price * selling / 100).to_integral_value())
    return max(NOTHING, Money(price - to_complete - cost_to_sell))


def lower_of(cost: Money, realisable: Money | None) -> Money:
    """Return the lower of cost and net realisable value; the cost where no price is known."""
    return cost if realisable is None else min(cost, realisable)


def value_stock(session: Session, day: dt.date, selling: Decimal = Decimal(0)) -> Stock:
    """Return the stock at the end of a day; `selling` is what a sale costs in percent of the price.

    Quantities and costs are those of that day, selling prices and what bikes are kept those of now.
    """
    held = _held(session, day)
    parts, ages = _parts(session, held, day, selling)
    bikes, own = _bikes(session, held, day, selling)
    return Stock(day, parts, bikes, own, ages)


def _held(session: Session, day: dt.date) -> Subquery:
    """Return what each place held at the end of a day: now from the sums, before from movements."""
    if day >= dt.date.today():  # noqa: DTZ011 - the day on the workshop's own wall
        return select(Holding.part_id, Holding.place_id, Holding.quantity, Holding.cost).subquery()
    first_after = select(func.min(Act.id)).where(Act.at >= midnight(day + dt.timedelta(days=1)))
    last = session.scalar(first_after)
    flows = union_all(
        *(
            select(
                Movement.part_id,
                place.label("place_id"),
                (Movement.quantity * sign).label("quantity"),
                (Movement.cost * sign).label("cost"),
            ).where(literal(True) if last is None else Movement.act_id < last)
            for place, sign in ((Movement.to_place_id, 1), (Movement.from_place_id, -1))
        )
    ).subquery()
    quantity, cost = func.sum(flows.c.quantity), func.sum(flows.c.cost)
    return (
        select(flows.c.part_id, flows.c.place_id, quantity.label("quantity"), cost.label("cost"))
        .group_by(flows.c.part_id, flows.c.place_id)
        .having(quantity > 0)
        .subquery()
    )


def _parts(
    session: Session, held: Subquery, day: dt.date, selling: Decimal
) -> tuple[Worth, tuple[Age, ...]]:
    arrived = _arrived(session)
    query = (
        select(held.c.part_id, held.c.quantity, held.c.cost, Part.value, Part.unit, Part.grade)
        .join(Part, Part.id == held.c.part_id)
        .join(Place, Place.id == held.c.place_id)
        .where(Place.type.in_((PlaceType.BIN, PlaceType.QUARANTINE)))
    )
    cost = lower = count = unpriced = 0
    banded: Counter[int] = Counter()
    counted: Counter[int] = Counter()
    for row in session.execute(query):
        part_cost = Money(int(row.cost))
        price = _price(row.value, int(row.quantity), row.unit, row.grade)
        realisable = None if price is None else net_realisable(price, selling=selling)
        cost, lower, count = cost + part_cost, lower + lower_of(part_cost, realisable), count + 1
        unpriced += price is None
        band = _band((day - arrived.get(row.part_id, day)).days)
        banded[band] += part_cost
        counted[band] += 1
    edges = (0, *BANDS)
    ages = tuple(
        Age(edges[i], BANDS[i] if i < len(BANDS) else None, counted[i], Money(banded[i]))
        for i in range(len(edges))
    )
    return Worth(Money(cost), Money(lower), count, unpriced), ages


def _price(value: Money | None, quantity: int, unit: Unit, grade: Grade) -> Money | None:
    """Return what a quantity would sell for: nothing if it is unsafe, None if nobody said."""
    if grade is Grade.UNSAFE:
        return NOTHING
    if value is None:
        return None
    return Money(value * quantity // (1000 if unit is Unit.MM else 1))


def _band(days: int) -> int:
    return sum(days >= edge for edge in BANDS)


def _arrived(session: Session) -> dict[PartId, dt.date]:
    """Return the day when each part last came into the workshop."""
    last = (
        select(Movement.part_id, func.max(Movement.act_id).label("act_id"))
        .where(Movement.from_place_id == SUPPLIER)
        .group_by(Movement.part_id)
        .subquery()
    )
    query = select(last.c.part_id, Act.at).join(Act, Act.id == last.c.act_id)
    return {PartId(row.part_id): local_day(row.at) for row in session.execute(query)}


def _bikes(session: Session, held: Subquery, day: dt.date, selling: Decimal) -> tuple[Worth, Money]:
    query = (
        select(Place.bike_id, func.sum(held.c.cost))
        .join(held, held.c.place_id == Place.id)
        .where(Place.bike_id.is_not(None))
        .group_by(Place.bike_id)
    )
    parts = {BikeId(bike): int(cost) for bike, cost in session.execute(query)}
    states = {BikeId(bike.id): bike.state for bike in list_bikes(session)}
    whole, own = Worth(), 0
    for bike, work in _with_work(session, parts, day):
        cost = Money(parts[bike] + work)
        if states[bike] is BikeState.KEPT:
            own += cost
            continue
        said = estimate_of(session, bike)
        realisable = None
        if said is not None:
            realisable = net_realisable(said.price, said.to_complete, selling)
        whole += Worth(cost, lower_of(cost, realisable), 1, int(said is None))
    return whole, Money(own)


def _with_work(
    session: Session, parts: dict[BikeId, int], day: dt.date
) -> Iterator[tuple[BikeId, int]]:
    """Yield each bike that has parts with the labour and transport that went into it."""
    query = (
        select(BikeEntry.bike_id, func.sum(BikeEntry.amount))
        .where(BikeEntry.type.in_((EntryType.LABOUR, EntryType.TRANSPORT)))
        .where(BikeEntry.day <= day, stands(BikeEntry.act_id))
        .group_by(BikeEntry.bike_id)
    )
    work = {BikeId(bike): int(amount) for bike, amount in session.execute(query)}
    for bike in parts:
        yield bike, work.get(bike, 0)
