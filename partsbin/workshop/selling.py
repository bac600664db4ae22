"""A bike's account, and what becomes of it: labour, fees, sale, the sale taken back, own fleet."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from sqlalchemy import select

from partsbin.errors import UsageError
from partsbin.stock.bikes import add_entry, bike_named, entries_of
from partsbin.stock.check_tables import BikeEstimate
from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.stock.ids import SOLD, ActId, BikeId, PartId
from partsbin.stock.ledger import act_of
from partsbin.stock.lookup import mounted
from partsbin.stock.models import BikeEntry, Movement, Place
from partsbin.stock.money import NOTHING, Money, show_money
from partsbin.stock.movements import move
from partsbin.stock.undone import stands
from partsbin.stock.words import BikeState, EntryType
from partsbin.workshop.presale import checklist

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.models import Bike

LONGEST = 60 * 24 * 7
"""Minutes of work in one entry; more is a slip of the finger."""

_HOURS = re.compile(r"(?:(\d+(?:[.,]\d+)?)\s*h(?:ours?)?)?\s*(?:(\d+)\s*(?:m|min|minutes?)?)?")


@dataclass(frozen=True, slots=True)
class Sale:
    """What a sale, or its taking back, did."""

    bike: str
    amount: Money
    """What the buyer paid; below nothing if it was paid back."""
    fee: Money
    parts: int
    cost: Money
    """What the parts that went with it cost."""
    overruled: tuple[str, ...] = ()
    """What stood in the way of the sale and was overruled."""


def read_minutes(text: str) -> int:
    """Return the minutes of a time that a person typed; a plain number is minutes.

    >>> read_minutes("45min"), read_minutes("1,5 h"), read_minutes("1h 20"), read_minutes("30")
    (45, 90, 80, 30)
    """
    match = _HOURS.fullmatch(text.strip().lower())
    hours, minutes = match.groups() if match else (None, None)
    exact = Decimal((hours or "0").replace(",", ".")) * 60 + Decimal(minutes or 0)
    if not 0 < exact <= LONGEST or exact != int(exact):
        raise UsageError(f"{text.strip()!r} is no time of work; type it like 45min or 1h30")
    return int(exact)


def labour_cost(minutes: int, rate: Money) -> Money:
    """Return what some minutes cost at a rate per hour, to the nearest minor unit, a half up.

    >>> labour_cost(150, Money(1200))
    3000
    """
    return Money((2 * minutes * rate + 60) // 120)


def work(
    session: Session,
    bike_name: str,
    minutes: int,
    rate: Money | None = None,
    day: dt.date | None = None,
    note: str = "",
) -> BikeEntry:
    """Enter work on a bike and return the entry; without a rate the last one entered holds."""
    bike = bike_named(session, bike_name)
    hourly = _last_rate(session) if rate is None else rate
    cost = labour_cost(minutes, hourly)
    return add_entry(
        session,
        BikeId(bike.id),
        EntryType.LABOUR,
        cost,
        day or dt.date.today(),  # noqa: DTZ011 - the day on the workshop's own wall
        minutes=minutes,
        rate=hourly,
        note=note,
    )


def pay(
    session: Session,
    bike_name: str,
    type_: EntryType,
    amount: Money,
    day: dt.date | None = None,
    note: str = "",
) -> BikeEntry:
    """Enter a fee or transport that was paid for a bike and return the entry."""
    bike = bike_named(session, bike_name)
    today = dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    return add_entry(session, BikeId(bike.id), type_, amount, day or today, note=note)


def expect(session: Session, bike_name: str, price: Money, to_complete: Money) -> None:
    """Record what a bike is expected to sell for and what it will cost until then."""
    bike = bike_named(session, bike_name)
    session.add(
        BikeEstimate(act_id=act_of(session), bike_id=bike.id, price=price, to_complete=to_complete)
    )
    session.flush()


def sell(
    session: Session,
    bike_name: str,
    price: Money,
    *,
    fee: Money = NOTHING,
    day: dt.date | None = None,
    note: str = "",
    anyway: str = "",
) -> Sale:
    """Sell a bike with all that is on it; its parts move to `sold` with what they cost.

    Raises `RefusedError` for a bike that is gone, and for one that is not ready unless `anyway`
    gives the reason.
    """
    bike = bike_named(session, bike_name)
    if bike.state in (BikeState.SOLD, BikeState.STRIPPED):
        raise RefusedError(f"{bike.name} is {bike.state} already; {UNCHANGED}")
    overruled = _not_ready(session, bike)
    if overruled and not anyway.strip():
        raise RefusedError(
            f"{bike.name} is not ready: {'; '.join(overruled)}; {UNCHANGED} "
            "(--anyway REASON overrules this, and the reason is kept)"
        )
    on_bike = mounted(session, BikeId(bike.id))
    if not on_bike:
        raise RefusedError(f"nothing is on {bike.name} to sell; {UNCHANGED}")
    cost = sum(move(session, part.part, part.quantity, part.place, SOLD) for part in on_bike)
    today = day or dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    add_entry(session, BikeId(bike.id), EntryType.SALE, price, today, note=note)
    if fee:
        add_entry(session, BikeId(bike.id), EntryType.FEE, fee, today, note="fee of the sale")
    bike.state = BikeState.SOLD
    session.flush()
    return Sale(bike.name, price, fee, len(on_bike), Money(cost), overruled)


def keep(session: Session, bike_name: str) -> Bike:
    """Take a bike into the workshop's own fleet at what it cost, and return it."""
    bike = bike_named(session, bike_name)
    if bike.state in (BikeState.SOLD, BikeState.STRIPPED, BikeState.KEPT):
        raise RefusedError(f"{bike.name} is {bike.state} already; {UNCHANGED}")
    bike.state = BikeState.KEPT
    session.flush()
    return bike


def take_back(
    session: Session,
    bike_name: str,
    *,
    refund: Money | None = None,
    fee_back: Money = NOTHING,
    day: dt.date | None = None,
    note: str = "",
) -> Sale:
    """Take a sale back: the parts return to their slots with what they cost, the price is paid out.

    Without a refund the whole price is. The bike is in work again: all was out of the workshop, so
    that every check before the sale has to be made again.
    """
    bike = bike_named(session, bike_name)
    if bike.state is not BikeState.SOLD:
        raise RefusedError(f"{bike.name} is {bike.state}, not sold; {UNCHANGED}")
    sale = _last_sale(session, bike)
    paid = sale.amount if refund is None else refund
    if paid > sale.amount:
        had = show_money(sale.amount)
        raise UsageError(f"{bike.name} was sold for {had}; no more than that is paid back")
    moved = session.scalars(
        select(Movement)
        .where(Movement.act_id == sale.act_id, Movement.to_place_id == SOLD)
        .order_by(Movement.id)
    ).all()
    for row in moved:
        part, slot = PartId(row.part_id), row.from_place_id
        move(session, part, row.quantity, SOLD, slot, cost=row.cost)
    today = day or dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    add_entry(session, BikeId(bike.id), EntryType.SALE, Money(-paid), today, note=note)
    if fee_back:
        back = Money(-fee_back)
        add_entry(session, BikeId(bike.id), EntryType.FEE, back, today, note="fee paid back")
    bike.state = BikeState.IN_WORK
    session.flush()
    cost = Money(sum(row.cost for row in moved))
    return Sale(bike.name, Money(-paid), Money(-fee_back), len(moved), cost)


def estimate_of(session: Session, bike: BikeId) -> BikeEstimate | None:
    """Return what a bike was last expected to bring, None if nobody said."""
    return session.scalar(
        select(BikeEstimate)
        .where(BikeEstimate.bike_id == bike, stands(BikeEstimate.act_id))
        .order_by(BikeEstimate.id.desc())
        .limit(1)
    )


def _not_ready(session: Session, bike: Bike) -> tuple[str, ...]:
    """Return what stands in the way of a sale. Being called ready is not enough: it may be old."""
    faults = checklist(session, bike.number).faults
    if bike.state is not BikeState.READY and not faults:
        return (f"it is {bike.state}; call it ready with: partsbin bike ready '{bike.name}'",)
    return faults


def _last_rate(session: Session) -> Money:
    rate = session.scalar(
        select(BikeEntry.rate)
        .where(BikeEntry.type == EntryType.LABOUR, stands(BikeEntry.act_id))
        .order_by(BikeEntry.id.desc())
        .limit(1)
    )
    if rate is None:
        raise UsageError("say with --rate what an hour of work costs; it is kept for the next time")
    return rate


def _last_sale(session: Session, bike: Bike) -> BikeEntry:
    sales = [
        entry
        for entry in entries_of(session, BikeId(bike.id))
        if entry.type is EntryType.SALE and entry.amount >= 0 and _went(session, entry.act_id)
    ]
    if not sales:
        raise RefusedError(f"no sale of {bike.name} is in the record to take back; {UNCHANGED}")
    return sales[-1]


def _went(session: Session, act: ActId) -> bool:
    """Return whether an act moved something from a bike to `sold`."""
    query = (
        select(Movement.id)
        .join(Place, Place.id == Movement.from_place_id)
        .where(Movement.act_id == act, Movement.to_place_id == SOLD, Place.bike_id.is_not(None))
    )
    return session.scalar(query.limit(1)) is not None
