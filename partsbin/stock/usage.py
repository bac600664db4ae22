"""What left the bins to be used: onto bikes, sold, or consumed.

What a count corrected was not used, and an act that was taken back used nothing.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, TypeVarTuple

from sqlalchemy import case, func, select

from partsbin.stock.count_tables import BinCount
from partsbin.stock.models import Act, Movement, Part, Place, RecordedSpec
from partsbin.stock.money import Money
from partsbin.stock.undone import stands
from partsbin.stock.words import PlaceType, Unit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import ColumnElement, Select
    from sqlalchemy.orm import Session


Ts = TypeVarTuple("Ts")

USED = (PlaceType.SLOT, PlaceType.BIKE, PlaceType.SOLD, PlaceType.SCRAPPED)
"""Where what is used goes from a bin."""


def worth_by_kind(session: Session, since: dt.datetime) -> dict[str, Money]:
    """Return what was used of each kind since a moment, in minor units.

    A thing counts with what it cost or would sell for, whichever is more: salvage that cost nothing
    is missed no less.
    """
    each = case((Part.unit == Unit.MM, Movement.quantity / 1000), else_=Movement.quantity)
    sales = func.coalesce(Part.value, 0) * each
    worth = case((sales > Movement.cost, sales), else_=Movement.cost)
    query = (
        _used(select(RecordedSpec.kind, func.sum(worth)), since)
        .join(Part, Part.id == Movement.part_id)
        .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
        .group_by(RecordedSpec.kind)
    )
    return {kind: Money(int(total)) for kind, total in session.execute(query)}


def used_by_day(
    session: Session, which: Sequence[ColumnElement[bool]], since: dt.datetime
) -> dict[dt.date, int]:
    """Return how much of the parts that meet one of the conditions was used each day (UTC)."""
    used: dict[dt.date, int] = {}
    for condition in which:
        query = (
            _used(select(Act.at, Movement.quantity), since)
            .join(Act, Act.id == Movement.act_id)
            .join(Part, Part.id == Movement.part_id)
            .where(condition)
        )
        for at, quantity in session.execute(query):
            used[at.date()] = used.get(at.date(), 0) + quantity
    return used


def _used(query: Select[*Ts], since: dt.datetime) -> Select[*Ts]:
    """Restrict a query to the movements that used something since a moment."""
    bins = select(Place.id).where(Place.type == PlaceType.BIN)
    gone = select(Place.id).where(Place.type.in_(USED))
    first = select(func.min(Act.id)).where(Act.at >= since).scalar_subquery()
    return query.select_from(Movement).where(
        Movement.from_place_id.in_(bins),
        Movement.to_place_id.in_(gone),
        Movement.act_id >= first,
        Movement.act_id.not_in(select(BinCount.act_id)),
        stands(Movement.act_id),
    )
