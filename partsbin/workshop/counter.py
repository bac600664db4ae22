"""Selling a part by itself, over the counter: it leaves the workshop with what it cost."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds.kind import KINDS
from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.stock.ids import SOLD, PartId
from partsbin.stock.lookup import where_is
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.movements import move
from partsbin.stock.part_sales import add_part_sale
from partsbin.stock.parts import part_by_number
from partsbin.stock.quantity import read_quantity
from partsbin.stock.reserving import laid_aside, let_go
from partsbin.stock.specs import spec_of
from partsbin.stock.titles import title
from partsbin.stock.words import Grade, PlaceType
from partsbin.workshop.intake import by_readings
from partsbin.workshop.mounting import Done, place_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.orm import Session

    from partsbin.kinds.spec import Spec
    from partsbin.stock.lookup import Stocked
    from partsbin.stock.models import Part


@dataclass(frozen=True, slots=True)
class PartSold:
    """What the sale of a part did."""

    done: Done
    amount: Money
    fee: Money
    overruled: tuple[str, ...]
    """What stood in the way of the sale and was overruled."""

    @property
    def profit(self) -> Money:
        """Return what the sale brought less the fee and what the part cost."""
        return Money(self.amount - self.fee - self.done.cost)

    @property
    def caution(self) -> str:
        """Return what to tell the buyer of a kind that can hurt someone, empty of others."""
        return self.done.caution


def sell_part(
    session: Session,
    number: str,
    price: Money,
    *,
    quantity: str = "",
    fee: Money = NOTHING,
    day: dt.date | None = None,
    note: str = "",
    anyway: str = "",
) -> PartSold:
    """Sell a part, or a quantity of a lot, and return what that did.

    Raises `UsageError` for a lot without a quantity, `RefusedError` for a part that is on a bike or
    gone, and, unless `anyway` gives the reason, for one that is unsafe, waits in quarantine or is
    laid aside for a bike.
    """
    part = part_by_number(session, number)
    spec = spec_of(part.spec.text)
    if part.lot and not quantity:
        raise UsageError(f"say with --quantity how much of {title(spec.kind, part.number)} is sold")
    amount = read_quantity(quantity, part.unit) if quantity else 1
    source = _source(session, part, spec, amount)
    overruled = tuple(_in_the_way(session, part, source, amount))
    if overruled and not anyway.strip():
        raise RefusedError(
            f"{title(spec.kind, part.number)} {' and '.join(overruled)}; {UNCHANGED} "
            "(--anyway REASON overrules this, and the reason is kept)"
        )
    cost = move(session, PartId(part.id), amount, source.place, SOLD)
    today = day or dt.date.today()  # noqa: DTZ011 - the day on the workshop's own wall
    add_part_sale(session, PartId(part.id), amount, price, today, fee=fee, note=note)
    if not part.lot:
        let_go(session, PartId(part.id))
    _, signs = by_readings(spec, part.grade)
    done = Done(part.number, spec, place_of(source), "sold", cost, signs=signs)
    return PartSold(done, price, fee, overruled)


def _source(session: Session, part: Part, spec: Spec, amount: int) -> Stocked:
    """Return where a part is sold from: a bin that holds enough before others, then quarantine."""
    places = where_is(session, PartId(part.id))
    bins = [place for place in places if place.place_type is PlaceType.BIN]
    bins.sort(key=lambda place: place.quantity < amount)
    waiting = [place for place in places if place.place_type is PlaceType.QUARANTINE]
    for place in (*bins, *waiting):
        return place
    now = " and ".join(map(place_of, places)) or "in no place"
    raise RefusedError(
        f"{title(spec.kind, part.number)} is in no bin, it is {now}; what is on a bike is taken "
        f"off first; {UNCHANGED}"
    )


def _in_the_way(session: Session, part: Part, source: Stocked, amount: int) -> Iterator[str]:
    """Yield why a part should not be sold, as a sentence goes on after its name."""
    if part.grade is Grade.UNSAFE:
        yield "is unsafe"
    if source.place_type is PlaceType.QUARANTINE:
        looks = "; ".join(KINDS[source.spec.kind].inspection)
        yield f"waits in quarantine for its inspection ({looks})" if looks else "is in quarantine"
    laid = laid_aside(session, part=PartId(part.id))
    if laid and sum(one.quantity for one in laid) + amount > part.in_bins:
        yield f"is laid aside for {laid[0].bike_name}"
