"""Makes what the tests of the record need, in as few words as possible."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from partsbin.kinds.spec import Spec
from partsbin.stock.bikes import NewBike, add_bike, slot_place
from partsbin.stock.ids import BikeId, PartId, PlaceId
from partsbin.stock.money import Money
from partsbin.stock.parts import Added, NewPart, add_part
from partsbin.stock.places import add_bin

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.database import Database

POST = Spec.read("seatpost", {"diameter_mm": "27.2"})
BALLS = Spec.read("bearing_balls", {"diameter_mm": "6.35"})


@dataclass(frozen=True, slots=True)
class Shop:
    """Two bins and a bike with a seatpost slot."""

    a1: PlaceId
    b2: PlaceId
    bike: BikeId
    slot: PlaceId


def shop(session: Session) -> Shop:
    """Add two bins and a bike."""
    a1, b2 = add_bin(session, "A1"), add_bin(session, "B2")
    bike = add_bike(session, NewBike(name="Sorrel", style="mtb"))
    return Shop(a1.id, b2.id, bike.id, slot_place(session, bike.id, "seatpost"))


def add(session: Session, place: PlaceId, spec: Spec = POST, cost: int = 0, **more: Any) -> Added:
    """Add a part, a single seatpost where nothing else is said."""
    return add_part(session, NewPart(spec=spec, place=place, cost=Money(cost), **more))


def stocked_shop(database: Database, cost: int = 500) -> tuple[Shop, PartId]:
    """Add a shop with one seatpost in A1."""
    with database.changing("set up") as session:
        made = shop(session)
        return made, add(session, made.a1, cost=cost).id
