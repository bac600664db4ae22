"""What a bike cost and earned: sums over its movements and the entries of its account."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

from sqlalchemy import case, func, select

from partsbin.stock.bikes import bike_named, costs_of, entries_of
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.stock.models import Movement, Place
from partsbin.stock.money import Money
from partsbin.stock.words import BikeState, EntryType, PlaceType
from partsbin.workshop.mounting import needs

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.models import Bike


@dataclass(frozen=True, slots=True, kw_only=True)
class Books:
    """The account of one bike, in minor units.

    `price + new_parts + from_stock - taken_off - written_off` is what its parts cost now, or what
    they cost when it was sold.
    """

    bike: str
    state: BikeState
    price: Money
    new_parts: Money
    """Bought for it and put straight on."""
    from_stock: Money
    stock_parts: int
    """How many parts came onto it from the bins or from other bikes and did not go back."""
    free_parts: int
    """How many of those cost nothing."""
    taken_off: Money
    written_off: Money
    parts_now: Money
    labour: Money
    labour_minutes: int
    fees: Money
    transport: Money
    sale: Money | None
    """What it was sold for, None while it is not."""
    needs: tuple[tuple[str, str], ...]
    """The slots that still want a part, and why."""

    @property
    def cost(self) -> Money:
        """Return all that the bike cost: parts, labour, fees and transport."""
        parts = self.price + self.new_parts + self.from_stock - self.taken_off
        return Money(parts + self.labour + self.fees + self.transport)

    @property
    def profit(self) -> Money | None:
        """Return the sale less the cost, None while it is not sold."""
        return None if self.sale is None else Money(self.sale - self.cost)

    @property
    def margin(self) -> Decimal | None:
        """Return the profit as percent of the sale, None without a sale."""
        return None if self.profit is None else percent(self.profit, self.sale or 0)

    @property
    def markup(self) -> Decimal | None:
        """Return the profit as percent of the cost, None without a sale."""
        return None if self.profit is None else percent(self.profit, self.cost)

    @property
    def profit_per_hour(self) -> Money | None:
        """Return what each hour of work brought beyond its rate, None without a sale or work."""
        return self._per_hour(self.profit)

    @property
    def earned_per_hour(self) -> Money | None:
        """Return what each hour of work brought, its rate included; quick bikes show here."""
        return self._per_hour(None if self.profit is None else Money(self.profit + self.labour))

    def _per_hour(self, amount: Money | None) -> Money | None:
        if amount is None or not self.labour_minutes:
            return None
        return Money(round(Decimal(amount) * 60 / self.labour_minutes))


def percent(amount: int, of: int) -> Decimal | None:
    """Return an amount as percent of another with one decimal, a half away from 0; None of nothing.

    >>> percent(5400, 18000), percent(1, 3), percent(5, 0)
    (Decimal('30.0'), Decimal('33.3'), None)
    """
    if not of:
        return None
    return (Decimal(amount) * 100 / of).quantize(Decimal("0.1"), ROUND_HALF_UP)


def books(session: Session, bike_name: str) -> Books:
    """Return the account of a bike."""
    return account(session, bike_named(session, bike_name))


def account(session: Session, bike: Bike) -> Books:
    """Return the account of a bike that is at hand."""
    id_ = BikeId(bike.id)
    costs = costs_of(session, id_)
    entries = entries_of(session, id_)
    sums = {
        type_: Money(sum(entry.amount for entry in entries if entry.type is type_))
        for type_ in EntryType
    }
    stock_parts, free_parts = _from_stock(session, id_)
    # Of a sale that was taken back a part may have been kept; it stays income of the bike.
    sold = bike.state is BikeState.SOLD or sums[EntryType.SALE] != 0
    gone = bike.state in (BikeState.SOLD, BikeState.STRIPPED)
    return Books(
        bike=bike.name,
        state=bike.state,
        price=bike.price,
        new_parts=Money(costs.came_with - bike.price),
        from_stock=costs.from_stock,
        stock_parts=stock_parts,
        free_parts=free_parts,
        taken_off=costs.taken_off,
        written_off=costs.scrapped,
        parts_now=costs.on_bike,
        labour=sums[EntryType.LABOUR],
        labour_minutes=sum(entry.minutes or 0 for entry in entries),
        fees=sums[EntryType.FEE],
        transport=sums[EntryType.TRANSPORT],
        sale=sums[EntryType.SALE] if sold else None,
        needs=() if gone else tuple((s.name, why) for s, why in needs(mounted(session, id_))),
    )


def _from_stock(session: Session, bike: BikeId) -> tuple[int, int]:
    """Return how many parts the bike has from stock, and how many of those cost nothing."""
    own = select(Place.id).where(Place.bike_id == bike)
    stock = select(Place.id).where(
        Place.type.in_((PlaceType.BIN, PlaceType.QUARANTINE, PlaceType.SLOT, PlaceType.BIKE)),
        Place.bike_id.is_distinct_from(bike),
    )
    came = case((Movement.to_place_id.in_(own), 1), else_=-1)
    there = case(
        (Movement.to_place_id.in_(own), Movement.from_place_id), else_=Movement.to_place_id
    )
    touches = Movement.to_place_id.in_(own) | Movement.from_place_id.in_(own)
    query = (
        select(func.sum(came * Movement.quantity), func.sum(came * Movement.cost))
        .where(touches, there.in_(stock))
        .group_by(Movement.part_id)
        .having(func.sum(came * Movement.quantity) > 0)
    )
    costs = [int(cost) for _, cost in session.execute(query)]
    return len(costs), costs.count(0)
