"""What the workshop earned and spent, posting by posting; its books are sums of these.

What a bike cost is expense on the day when it is sold, together with what it brought (IAS 2
Inventories, paragraph 34, from memory): the cost of its parts, and the labour and transport that
brought it to its place and condition (paragraphs 10 and 12, as copied at stillmindpractice.com).
Fees are for selling, which is no part of the cost (3dresearchspecs.com/ias-2), and expense on their
own day. So is labour on a donor that was taken apart. A part that is sold without a bike takes its
cost to the day of its sale in the same way. Acts that were undone are left out.
"""

from __future__ import annotations

import datetime as dt
import enum
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sqlalchemy import case, exists, func, select, union

from partsbin.stock.ids import SCRAPPED, SOLD, SUPPLIER, ActId, BikeId, PartId, PlaceId
from partsbin.stock.models import Act, Bike, BikeEntry, Movement, Part, RecordedSpec
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.sale_tables import PartSale
from partsbin.stock.titles import title
from partsbin.stock.undone import stands
from partsbin.stock.words import BikeState, EntryType

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
    from sqlalchemy.orm import Session


class Account(enum.StrEnum):
    """What a posting is for. All but `BOUGHT`, which only fills the stock, make the profit."""

    BOUGHT = "bought"
    SALE = "sale"
    PARTS = "cost of parts sold"
    LABOUR = "labour"
    TRANSPORT = "transport"
    FEE = "fee"
    WRITE_OFF = "write-off"


@dataclass(frozen=True, slots=True, kw_only=True)
class Posting:
    """An amount in an account on a day; below nothing if it takes one back."""

    day: dt.date
    act: ActId
    account: Account
    amount: Money
    minutes: int = 0
    bike: str = ""
    part: str = ""
    note: str = ""
    who: str = ""


_OF_A_PART_SALE = exists().where(
    PartSale.act_id == Movement.act_id, PartSale.part_id == Movement.part_id
)


@dataclass(frozen=True, slots=True)
class _Gone:
    """What an act moved to `sold`: below nothing if it came back."""

    cost: Money
    parts: int


def postings(session: Session, start: dt.date, end: dt.date) -> list[Posting]:
    """Return the postings from the first to the last day, both included, in their order."""
    acts = _acts(session)
    found = [
        *_of_bikes(session),
        *_of_parts(session),
        *_movements(session, Account.BOUGHT, SUPPLIER, start, end),
        *_movements(session, Account.WRITE_OFF, SCRAPPED, start, end),
        *_movements(session, Account.PARTS, SOLD, start, end),
    ]
    kept = [posting for posting in found if start <= posting.day <= end]
    kept.sort(key=lambda posting: (posting.day, posting.act))
    return [_signed(posting, acts) for posting in kept]


def local_day(at: dt.datetime) -> dt.date:
    """Return the day of a moment on the workshop's own wall."""
    return at.astimezone().date()


def midnight(day: dt.date) -> dt.datetime:
    """Return the moment when a day begins on the workshop's own wall."""
    return dt.datetime.combine(day, dt.time()).astimezone()


def _acts(session: Session) -> Mapping[ActId, str]:
    """Return who did each act that a bike's account, or the sale of a part, knows."""
    told = union(select(BikeEntry.act_id), select(PartSale.act_id))
    query = select(Act.id, Act.who).where(Act.id.in_(told))
    return {ActId(row.id): row.who for row in session.execute(query)}


def _signed(posting: Posting, acts: Mapping[ActId, str]) -> Posting:
    return posting if posting.who else replace(posting, who=acts.get(posting.act, ""))


def _of_bikes(session: Session) -> Iterator[Posting]:
    gone = _sold_by_act(session)
    query = (
        select(BikeEntry, Bike.name, Bike.state)
        .join(Bike, Bike.id == BikeEntry.bike_id)
        .where(stands(BikeEntry.act_id))
        .order_by(BikeEntry.bike_id, BikeEntry.id)
    )
    entries: dict[BikeId, list[BikeEntry]] = defaultdict(list)
    bikes: dict[BikeId, tuple[str, BikeState]] = {}
    for entry, name, state in session.execute(query):
        entries[entry.bike_id].append(entry)
        bikes[entry.bike_id] = (name, state)
    for bike, (name, state) in bikes.items():
        yield from _of_bike(name, state, entries[bike], gone)


def _of_bike(
    name: str, state: BikeState, entries: Sequence[BikeEntry], gone: Mapping[ActId, _Gone]
) -> Iterator[Posting]:
    """Yield the postings of one bike: work waits until the sale, and waits again if it returns."""
    waiting: list[tuple[Account, Money, int, str]] = []
    sold = False
    for entry in entries:

        def posted(
            account: Account, amount: int, minutes: int = 0, note: str = "", e: BikeEntry = entry
        ) -> Posting:
            return Posting(
                day=e.day,
                act=ActId(e.act_id),
                account=account,
                amount=Money(amount),
                minutes=minutes,
                bike=name,
                note=note,
            )

        if entry.type is EntryType.FEE:
            yield posted(Account.FEE, entry.amount, note=entry.note)
        elif entry.type is EntryType.SALE:
            went = gone.get(ActId(entry.act_id), _Gone(NOTHING, 0))
            yield posted(Account.SALE, entry.amount, note=entry.note)
            yield posted(Account.PARTS, went.cost)
            sold = went.parts > 0
            sign = 1 if sold else -1
            for account, amount, minutes, note in waiting:
                yield posted(account, sign * amount, sign * minutes, note)
        else:
            account = Account.LABOUR if entry.type is EntryType.LABOUR else Account.TRANSPORT
            work = (account, entry.amount, entry.minutes or 0, entry.note)
            if state is not BikeState.STRIPPED:
                waiting.append(work)
            if sold or state is BikeState.STRIPPED:
                yield posted(*work)


def _of_parts(session: Session) -> Iterator[Posting]:
    """Yield what parts brought that were sold without a bike, their fees and what they cost."""
    query = (
        select(PartSale, Part.number, RecordedSpec.kind)
        .join(Part, Part.id == PartSale.part_id)
        .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
        .where(stands(PartSale.act_id))
        .order_by(PartSale.id)
    )
    costs = _costs_of_sales(session)
    for sale, number, kind in session.execute(query):
        # Of several sales in one act, as an import makes them, the first has all of the cost.
        cost = costs.pop((ActId(sale.act_id), PartId(sale.part_id)), NOTHING)
        for account, amount in (
            (Account.SALE, sale.amount),
            (Account.PARTS, cost),
            (Account.FEE, sale.fee),
        ):
            if amount:
                yield Posting(
                    day=sale.day,
                    act=ActId(sale.act_id),
                    account=account,
                    amount=amount,
                    part=title(kind, number),
                    note=sale.note,
                )


def _costs_of_sales(session: Session) -> dict[tuple[ActId, PartId], Money]:
    """Return what went with each part to `sold` in an act that sold it without a bike."""
    query = (
        select(Movement.act_id, Movement.part_id, func.sum(Movement.cost))
        .where(Movement.to_place_id == SOLD, _OF_A_PART_SALE)
        .group_by(Movement.act_id, Movement.part_id)
    )
    return {
        (ActId(act), PartId(part)): Money(int(cost)) for act, part, cost in session.execute(query)
    }


def _sold_by_act(session: Session) -> dict[ActId, _Gone]:
    went = case((Movement.to_place_id == SOLD, 1), else_=-1)
    query = (
        select(
            Movement.act_id,
            func.sum(went * Movement.cost).label("cost"),
            func.sum(went * Movement.quantity).label("parts"),
        )
        .where((Movement.to_place_id == SOLD) | (Movement.from_place_id == SOLD))
        .group_by(Movement.act_id)
    )
    return {
        ActId(row.act_id): _Gone(Money(int(row.cost)), int(row.parts))
        for row in session.execute(query)
    }


def _movements(
    session: Session, account: Account, place: PlaceId, start: dt.date, end: dt.date
) -> Iterator[Posting]:
    """Yield what came from the supplier, went to scrap, or was sold without a bike, with a cost."""
    here: ColumnElement[bool] = Movement.to_place_id == place
    sign = -1 if account is Account.BOUGHT else 1
    query = (
        select(Movement, Act, Part.number, RecordedSpec.kind, here.label("into"))
        .join(Act, Act.id == Movement.act_id)
        .join(Part, Part.id == Movement.part_id)
        .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
        .where(here | (Movement.from_place_id == place), Movement.cost > 0)
        .where(Act.at >= midnight(start), Act.at < midnight(end + dt.timedelta(days=1)))
        .where(stands(Movement.act_id))
        .order_by(Movement.id)
    )
    if account is Account.PARTS:
        sales = select(BikeEntry.act_id).where(BikeEntry.type == EntryType.SALE)
        query = query.where(Movement.act_id.not_in(sales), ~_OF_A_PART_SALE)
    for row, act, number, kind, into in session.execute(query):
        yield Posting(
            day=local_day(act.at),
            act=ActId(act.id),
            account=account,
            amount=Money(row.cost * (sign if into else -sign)),
            part=title(kind, number),
            note=act.reason or act.what,
            who=act.who,
        )
