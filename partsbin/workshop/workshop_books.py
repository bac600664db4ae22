"""The books of the whole workshop for a period: profit, stock, its age, savings, write-offs."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from sqlalchemy import func, select
from sqlalchemy.orm import aliased

from partsbin.errors import UsageError
from partsbin.stock.ids import PartId, PlaceId, SpecId
from partsbin.stock.models import Act, Movement, Part, Place, RecordedSpec
from partsbin.stock.money import Money
from partsbin.stock.price_tables import Price
from partsbin.stock.undone import stands
from partsbin.stock.words import PlaceType, Unit
from partsbin.workshop.books import percent
from partsbin.workshop.postings import Account, Posting, midnight, postings
from partsbin.workshop.stock_value import Stock, value_stock

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

COSTS = (
    Account.PARTS,
    Account.LABOUR,
    Account.TRANSPORT,
    Account.FEE,
    Account.WRITE_OFF,
)
"""The accounts that lessen the profit, in the order in which they are shown."""
EARLIEST, LATEST = dt.date(1970, 1, 2), dt.date(2199, 12, 30)
"""Days whose midnights every system knows; a year outside is a slip of the finger."""


@dataclass(frozen=True, slots=True)
class Result:
    """What some postings add up to."""

    sales: Money
    costs: tuple[tuple[Account, Money], ...]
    minutes: int

    @property
    def cost(self) -> Money:
        """Return all costs together."""
        return Money(sum(amount for _, amount in self.costs))

    @property
    def profit(self) -> Money:
        """Return the sales less all costs."""
        return Money(self.sales - self.cost)

    @property
    def margin(self) -> Decimal | None:
        """Return the profit as percent of the sales."""
        return percent(self.profit, self.sales)

    @property
    def earned_per_hour(self) -> Money | None:
        """Return what each hour of work brought, what it was rated at included."""
        if self.minutes <= 0:
            return None
        own = self.profit + dict(self.costs)[Account.LABOUR]
        return Money(round(Decimal(own) * 60 / self.minutes))


@dataclass(frozen=True, slots=True)
class Saved:
    """What the bins saved against buying new, for the parts that went onto bikes."""

    parts: int
    """How many parts came from the bins."""
    known: int
    """How many of them have a new price in the price list: of their spec, or of their kind."""
    new_price: Money
    """What those would have cost new."""
    cost: Money
    """What those cost."""

    @property
    def saved(self) -> Money:
        """Return the new price less what they cost."""
        return Money(self.new_price - self.cost)


@dataclass(frozen=True, slots=True)
class WorkshopBooks:
    """The books of a period, and the stock at its end."""

    start: dt.date
    end: dt.date
    result: Result
    bought: Money
    """What was bought in the period, sold or not."""
    bikes: tuple[tuple[str, Result], ...]
    """The bikes whose sale, or its taking back, is in the period."""
    months: tuple[tuple[dt.date, Result], ...]
    """Each month by its first day."""
    stock: Stock
    saved: Saved
    write_offs: tuple[Posting, ...]
    postings: tuple[Posting, ...]


def workshop_books(
    session: Session, start: dt.date, end: dt.date, selling: Decimal = Decimal(0)
) -> WorkshopBooks:
    """Return the books from the first to the last day; `selling` is the percent a sale costs.

    Raises `UsageError` for a period that ends before it begins, or is of another age.
    """
    if start < EARLIEST or end > LATEST:
        raise UsageError(f"books are kept from {EARLIEST} to {LATEST}; check the years")
    if start > end:
        raise UsageError(f"a period from {start} to {end} ends before it begins")
    posted = postings(session, start, end)
    named: dict[str, list[Posting]] = defaultdict(list)
    for posting in posted:
        if posting.bike:
            named[posting.bike].append(posting)
    bikes = [
        (bike, added_up(lines))
        for bike, lines in named.items()
        if any(line.account is Account.SALE for line in lines)
    ]
    return WorkshopBooks(
        start,
        end,
        added_up(posted),
        Money(sum(p.amount for p in posted if p.account is Account.BOUGHT)),
        tuple(sorted(bikes, key=lambda bike: -bike[1].profit)),
        tuple(_months(posted, start, end)),
        value_stock(session, end, selling),
        _saved(session, start, end),
        tuple(p for p in posted if p.account is Account.WRITE_OFF),
        tuple(posted),
    )


def added_up(posted: Sequence[Posting]) -> Result:
    """Return what postings add up to."""
    sums = dict.fromkeys(Account, 0)
    for posting in posted:
        sums[posting.account] += posting.amount
    return Result(
        Money(sums[Account.SALE]),
        tuple((account, Money(sums[account])) for account in COSTS),
        sum(posting.minutes for posting in posted),
    )


def _months(
    posted: Sequence[Posting], start: dt.date, end: dt.date
) -> Iterator[tuple[dt.date, Result]]:
    month = start.replace(day=1)
    while month <= end:
        following = (month + dt.timedelta(days=31)).replace(day=1)
        yield month, added_up([p for p in posted if month <= p.day < following])
        month = following


def _saved(session: Session, start: dt.date, end: dt.date) -> Saved:
    by_spec, by_kind = _new_prices(session)
    used = _from_bins(session, start, end)
    priced = [
        (price * part.quantity // (1000 if part.unit is Unit.MM else 1), part.cost)
        for part in used
        if (price := by_spec.get(part.spec, by_kind.get(part.kind))) is not None
    ]
    return Saved(
        len(used),
        len(priced),
        Money(sum(price for price, _ in priced)),
        Money(sum(cost for _, cost in priced)),
    )


@dataclass(frozen=True, slots=True)
class _Used:
    """A part that went from a bin onto a bike."""

    spec: SpecId
    kind: str
    quantity: int
    unit: Unit
    cost: Money


def _from_bins(session: Session, start: dt.date, end: dt.date) -> list[_Used]:
    """Return what went from bins onto bikes in the period and did not come off them again in it."""
    out, into = aliased(Place), aliased(Place)
    on_bike = (PlaceType.SLOT, PlaceType.BIKE)
    query = (
        select(Movement, Part, RecordedSpec.kind, into.type)
        .join(Act, Act.id == Movement.act_id)
        .join(Part, Part.id == Movement.part_id)
        .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
        .join(out, out.id == Movement.from_place_id)
        .join(into, into.id == Movement.to_place_id)
        .where(Act.at >= midnight(start), Act.at < midnight(end + dt.timedelta(days=1)))
        .where(
            ((out.type == PlaceType.BIN) & into.type.in_(on_bike))
            | ((into.type == PlaceType.BIN) & out.type.in_(on_bike))
        )
        .where(stands(Movement.act_id), Movement.quantity > 0)
        .order_by(Movement.id)
    )
    used: dict[tuple[PartId, PlaceId], _Used] = {}
    for row, part, kind, target in session.execute(query):
        if target is PlaceType.BIN:
            used.pop((part.id, row.from_place_id), None)
        else:
            taken = _Used(part.spec_id, kind, row.quantity, part.unit, row.cost)
            used[part.id, row.to_place_id] = taken
    return list(used.values())


def _new_prices(session: Session) -> tuple[dict[SpecId, Money], dict[str, Money]]:
    """Return what new parts cost by the user's price list: by spec, and the least of each kind."""
    query = select(RecordedSpec.id, Price.price).join(Price, Price.spec_id == RecordedSpec.id)
    by_spec = {SpecId(spec): Money(price) for spec, price in session.execute(query)}
    least = (
        select(RecordedSpec.kind, func.min(Price.price))
        .join(Price, Price.spec_id == RecordedSpec.id)
        .group_by(RecordedSpec.kind)
    )
    by_kind = {kind: Money(int(price)) for kind, price in session.execute(least)}
    return by_spec, by_kind


def ever(session: Session) -> dt.date:
    """Return the first day of the record, today if there is nothing in it."""
    first = session.scalar(select(func.min(Act.at)))
    today = dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    return today if first is None else min(today, first.astimezone().date())
