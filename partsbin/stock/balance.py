"""Where the money is: what was bought is in stock, on bikes, sold or written off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from partsbin.stock.ids import SUPPLIER, PlaceId
from partsbin.stock.models import Holding, Movement, Place
from partsbin.stock.money import Money
from partsbin.stock.words import PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


@dataclass(frozen=True, slots=True)
class Balance:
    """The sums of all costs in the record, in minor units."""

    bought: Money
    """From suppliers, less what went back to them."""
    in_stock: Money
    """In bins and in quarantine."""
    on_bikes: Money
    sold: Money
    written_off: Money

    @property
    def missing(self) -> int:
        """What was bought and is nowhere; 0 in a record that is right."""
        return self.bought - self.in_stock - self.on_bikes - self.sold - self.written_off


def balance(session: Session) -> Balance:
    """Return the workshop's balance."""
    held = dict.fromkeys(PlaceType, 0)
    query = (
        select(Place.type, func.sum(Holding.cost).label("cost"))
        .join(Holding, Holding.place_id == Place.id)
        .group_by(Place.type)
    )
    held.update({row.type: int(row.cost) for row in session.execute(query)})
    return Balance(
        bought=Money(_net_from(session, SUPPLIER)),
        in_stock=Money(held[PlaceType.BIN] + held[PlaceType.QUARANTINE]),
        on_bikes=Money(held[PlaceType.SLOT] + held[PlaceType.BIKE]),
        sold=Money(held[PlaceType.SOLD]),
        written_off=Money(held[PlaceType.SCRAPPED]),
    )


def _net_from(session: Session, place: PlaceId) -> int:
    """Return the cost that came out of a place less the cost that went into it."""
    came = select(func.sum(Movement.cost)).where(Movement.from_place_id == place)
    went = select(func.sum(Movement.cost)).where(Movement.to_place_id == place)
    return int(session.scalar(came) or 0) - int(session.scalar(went) or 0)
