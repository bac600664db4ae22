"""What a bike cost and earned: sums over its movements and the entries of its account."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.stock.bikes import bike_named, costs_of, entries_of
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.stock.money import Money
from partsbin.stock.words import BikeState, EntryType
from partsbin.workshop.mounting import needs

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.models import Bike


@dataclass(frozen=True, slots=True, kw_only=True)
class Books:
    """The account of one bike, in minor units.

    `price + new_parts + from_stock - taken_off - written_off` is what its parts cost now.
    """

    bike: str
    state: BikeState
    price: Money
    new_parts: Money
    """Bought for it and put straight on."""
    from_stock: Money
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
    """The slots that still want a part, and why; none of a bike that is gone."""

    @property
    def cost(self) -> Money:
        """Return all that the bike cost: parts, labour, fees and transport."""
        parts = self.price + self.new_parts + self.from_stock - self.taken_off
        return Money(parts + self.labour + self.fees + self.transport)

    @property
    def profit(self) -> Money | None:
        """Return the sale less the cost, None while it is not sold."""
        return None if self.sale is None else Money(self.sale - self.cost)


def books(session: Session, bike_name: str) -> Books:
    """Return the account of a bike."""
    bike = bike_named(session, bike_name)
    id_ = BikeId(bike.id)
    costs = costs_of(session, id_)
    entries = entries_of(session, id_)
    sums = {
        type_: Money(sum(entry.amount for entry in entries if entry.type is type_))
        for type_ in EntryType
    }
    sold = any(entry.type is EntryType.SALE for entry in entries)
    return Books(
        bike=bike.name,
        state=bike.state,
        price=bike.price,
        new_parts=Money(costs.came_with - bike.price),
        from_stock=costs.from_stock,
        taken_off=costs.taken_off,
        written_off=costs.scrapped,
        parts_now=costs.on_bike,
        labour=sums[EntryType.LABOUR],
        labour_minutes=sum(entry.minutes or 0 for entry in entries),
        fees=sums[EntryType.FEE],
        transport=sums[EntryType.TRANSPORT],
        sale=sums[EntryType.SALE] if sold else None,
        needs=_needs(session, bike),
    )


def _needs(session: Session, bike: Bike) -> tuple[tuple[str, str], ...]:
    if bike.state not in (BikeState.BOUGHT, BikeState.IN_WORK):
        return ()
    return tuple((slot.name, why) for slot, why in needs(mounted(session, BikeId(bike.id))))
