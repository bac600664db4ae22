"""Bikes: add one, find one by number or name, its slots, its account."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import bindparam, func, insert, select

from labels.number import LabelNumber, Thing
from partsbin.errors import UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.kinds.slots import slot_named
from partsbin.stock.errors import TakenError, UnknownError
from partsbin.stock.ids import BikeId, PlaceId
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Bike, BikeEntry, Holding, Movement, Place
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.numbers import take_number
from partsbin.stock.places import looks_like_number, read_name, read_number
from partsbin.stock.sending import Question, named
from partsbin.stock.words import BikeState, EntryType, PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

LOOSE = "loose"
"""The name of a bike's place for what is in none of its slots: a shim, a cable."""
BY_NUMBER = select(Bike).where(Bike.number == bindparam("number"))
BY_NAME = select(Bike).where(func.lower(Bike.name) == func.lower(bindparam("name")))
PLACE = Question(
    select(Place.id).where(
        Place.bike_id == bindparam("bike"),
        Place.type == bindparam("type"),
        Place.name == bindparam("name"),
    )
)
NEW_PLACE = Question(
    insert(Place).values(named("type", "name", "bike_id", "note", "location")).returning(Place.id)
)


@dataclass(frozen=True, slots=True, kw_only=True)
class NewBike:
    """A bike that comes into the record. Its price is the cost of the parts that come with it."""

    name: str
    style: str
    state: BikeState = BikeState.BOUGHT
    price: Money = NOTHING
    bought_on: dt.date | None = None
    seller_note: str = ""
    serial_number: str = ""
    serial_checked: bool = False
    note: str = ""
    number: LabelNumber | None = None
    """The number that its tag carries already; the next one without."""


@dataclass(frozen=True, slots=True)
class Costs:
    """What a bike's parts cost by where they came from, and where the cost went.

    `came_with + from_stock - taken_off - scrapped - sold` is `on_bike`.
    """

    came_with: Money
    """From a supplier straight onto the bike: its price, and parts bought for it."""
    from_stock: Money
    """From bins, from quarantine and from other bikes."""
    taken_off: Money
    """Back into bins or quarantine, or onto other bikes."""
    scrapped: Money
    sold: Money
    on_bike: Money


def add_bike(session: Session, new: NewBike) -> Bike:
    """Return a new bike with the next number. Raises `TakenError` if the name is in use."""
    name = free_name(session, new.name)
    if new.price < 0:
        raise UsageError(f"the price of {name} cannot be less than nothing")
    bike = Bike(
        number=new.number or take_number(session, Thing.BIKE),
        name=name,
        style=new.style,
        state=new.state,
        price=new.price,
        bought_on=new.bought_on,
        seller_note=new.seller_note,
        serial_number=new.serial_number,
        serial_checked=new.serial_checked,
        note=new.note,
        created=dt.datetime.now(dt.UTC),
    )
    session.add(bike)
    session.flush()
    return bike


def free_name(session: Session, text: str, bike: Bike | None = None) -> str:
    """Return a name that no other bike has. Raises `TakenError` if it is in use."""
    name = read_name(text, "bike")
    other = select(Bike.id).where(func.lower(Bike.name) == func.lower(name))
    if bike is not None:
        other = other.where(Bike.id != bike.id)
    if session.scalar(other.limit(1)) is not None:
        raise TakenError("bike", name)
    return name


def bike_named(session: Session, text: str) -> Bike:
    """Return the bike of that number or name. Raises `UnknownError` with the nearest name."""
    if looks_like_number(text):
        found = session.scalar(BY_NUMBER, {"number": read_number(text, Thing.BIKE)})
    else:
        found = session.scalar(BY_NAME, {"name": " ".join(text.split())})
    if found is None:
        names = session.scalars(select(Bike.name).order_by(Bike.name))
        raise UnknownError("bike", text.strip(), nearest(text, list(names)))
    return found


def list_bikes(session: Session, *states: BikeState) -> list[Bike]:
    """Return the bikes in these states, all without any, by name."""
    query = select(Bike).order_by(Bike.name)
    return list(session.scalars(query.where(Bike.state.in_(states)) if states else query))


def slot_place(session: Session, bike: BikeId, slot: str) -> PlaceId:
    """Return the place of a bike's slot, made when it is first used.

    Raises `UsageError` that offers the nearest name for an unknown slot.
    """
    try:
        name = slot_named(slot).name
    except ValueError as fault:
        raise UsageError(str(fault)) from None
    return _place(session, bike, PlaceType.SLOT, name)


def loose_place(session: Session, bike: BikeId) -> PlaceId:
    """Return the place for what is on a bike, but in none of its slots."""
    return _place(session, bike, PlaceType.BIKE, LOOSE)


def _place(session: Session, bike: BikeId, type_: PlaceType, name: str) -> PlaceId:
    found = PLACE.value(session, bike=bike, type=type_, name=name)
    if found is None:
        act_of(session)
        row = {"type": type_, "name": name, "bike_id": bike, "note": "", "location": ""}
        found = NEW_PLACE.value(session, **row)
    assert found is not None  # an INSERT that succeeds returns its row
    return found


def add_entry(
    session: Session,
    bike: BikeId,
    type: EntryType,
    amount: Money,
    day: dt.date,
    *,
    minutes: int | None = None,
    rate: Money | None = None,
    note: str = "",
) -> BikeEntry:
    """Append an entry to a bike's account; `rate` is minor units per hour of the minutes."""
    entry = BikeEntry(
        act_id=act_of(session),
        bike_id=bike,
        type=type,
        amount=amount,
        minutes=minutes,
        rate=rate,
        day=day,
        note=note,
    )
    session.add(entry)
    session.flush()
    return entry


def entries_of(session: Session, bike: BikeId) -> list[BikeEntry]:
    """Return a bike's account in the order in which it was written."""
    return list(
        session.scalars(select(BikeEntry).where(BikeEntry.bike_id == bike).order_by(BikeEntry.id))
    )


def costs_of(session: Session, bike: BikeId) -> Costs:
    """Return what a bike's parts cost: sums over the movements onto it and off it."""
    on = _sums(session, bike, into=True)
    off = _sums(session, bike, into=False)
    elsewhere = (PlaceType.BIN, PlaceType.QUARANTINE, PlaceType.SLOT, PlaceType.BIKE)
    held = select(func.coalesce(func.sum(Holding.cost), 0)).join(
        Place, Place.id == Holding.place_id
    )
    # A price that was split went through clearing and came back onto parts of the same bike.
    cleared = off[PlaceType.CLEARING] - on[PlaceType.CLEARING]
    return Costs(
        came_with=Money(on[PlaceType.SUPPLIER] - off[PlaceType.SUPPLIER]),
        from_stock=Money(sum(on[place] for place in elsewhere)),
        taken_off=Money(sum(off[place] for place in elsewhere) + cleared),
        scrapped=Money(off[PlaceType.SCRAPPED] - on[PlaceType.SCRAPPED]),
        sold=Money(off[PlaceType.SOLD] - on[PlaceType.SOLD]),
        on_bike=Money(int(session.scalar(held.where(Place.bike_id == bike)) or 0)),
    )


def _sums(session: Session, bike: BikeId, *, into: bool) -> dict[PlaceType, int]:
    """Return the cost that came onto a bike, or went off it, by the type of the other place."""
    own = select(Place.id).where(Place.bike_id == bike).scalar_subquery()
    here, there = Movement.to_place_id, Movement.from_place_id
    if not into:
        here, there = there, here
    query = (
        select(Place.type, func.sum(Movement.cost))
        .join(Place, Place.id == there)
        .where(here.in_(own), Place.bike_id.is_distinct_from(bike))
        .group_by(Place.type)
    )
    sums = dict.fromkeys(PlaceType, 0)
    sums.update({type_: int(cost) for type_, cost in session.execute(query)})
    return sums
