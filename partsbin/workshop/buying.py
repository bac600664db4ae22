"""Bikes coming in, and the list of those that are there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.stock.bikes import NewBike, add_bike, list_bikes, slot_place
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.stock.parts import NewPart, add_part
from partsbin.workshop.assignments import read_spec
from partsbin.workshop.mounting import needs

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.number import LabelNumber
    from partsbin.stock.money import Money
    from partsbin.stock.words import BikeState


@dataclass(frozen=True, slots=True)
class BikeLine:
    """A bike as the list shows it."""

    name: str
    number: LabelNumber
    style: str
    state: BikeState
    price: Money
    parts: int
    needs: int


def buy_bike(session: Session, new: NewBike, frame: Sequence[str]) -> LabelNumber:
    """Put a bike with its frame into the record and return its number; the frame carries the price.

    `frame` are attributes of the frame as typed, `name=value`.
    """
    spec = read_spec("frame", frame)
    bike = add_bike(session, new)
    slot = slot_place(session, BikeId(bike.id), "frame")
    origin = f"came with {bike.name}"
    add_part(session, NewPart(spec=spec, place=slot, cost=new.price, origin=origin))
    return bike.number


def overview(session: Session) -> list[BikeLine]:
    """Return all bikes by name, with how many parts each has and needs."""
    lines = []
    for bike in list_bikes(session):
        on_bike = mounted(session, BikeId(bike.id))
        wanted = len(needs(on_bike)) if on_bike else 0
        lines.append(
            BikeLine(
                bike.name, bike.number, bike.style, bike.state, bike.price, len(on_bike), wanted
            )
        )
    return lines
