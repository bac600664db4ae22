"""Bikes coming in, and the list of those that are there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from partsbin.stock.bikes import (
    NewBike,
    add_bike,
    bike_named,
    free_name,
    list_bikes,
    slot_place,
)
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.stock.money import show_money
from partsbin.stock.parts import NewPart, add_part
from partsbin.workshop.assignments import read_spec
from partsbin.workshop.filling import from_era
from partsbin.workshop.mounting import needs

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.number import LabelNumber
    from partsbin.stock.models import Bike
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


def buy_bike(
    session: Session, new: NewBike, frame: Sequence[str], like: str = ""
) -> tuple[LabelNumber, str]:
    """Put a bike with its frame into the record; return its number, and what was filled in.

    The frame carries the price. `frame` are its attributes as typed, `name=value`; `like` is the
    era template that fills in what else it likely has.
    """
    spec, sentence = read_spec("frame", frame), ""
    if like:
        spec, sentence = from_era(spec, like, "frame")
        new = replace(new, style=new.style or str(spec.get("style") or ""))
    bike = add_bike(session, new)
    slot = slot_place(session, BikeId(bike.id), "frame")
    origin = f"came with {bike.name}"
    add_part(session, NewPart(spec=spec, place=slot, cost=new.price, origin=origin))
    return bike.number, sentence


def correct_bike(
    session: Session, name: str, new_name: str | None, changed: Mapping[str, Any]
) -> Bike:
    """Change what is known of a bike and return it; what is None stays.

    A new serial number was not looked up yet, unless that is said with it.
    """
    bike = bike_named(session, name)
    if new_name is not None:
        bike.name = free_name(session, new_name, bike)
    serial = changed.get("serial_number")
    if serial is not None and serial != bike.serial_number:
        bike.serial_checked = False
    for field, value in changed.items():
        if value is not None:
            setattr(bike, field, value)
    session.flush()
    return bike


def provenance(bike: Bike) -> dict[str, str]:
    """Return where a bike came from and what was done to find out, as a person reads it."""
    return {
        "style": bike.style,
        "bought": bike.bought_on.isoformat() if bike.bought_on else "",
        "price": show_money(bike.price),
        "seller_note": bike.seller_note,
        "serial_number": bike.serial_number,
        "serial_checked": "yes" if bike.serial_checked else "no",
        "note": bike.note,
    }


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
