"""Which bins are due for a count, and how accurate the counts of a year were."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from partsbin.stock.count_tables import AbcClass, BinCount, CountLine
from partsbin.stock.models import Act, Holding, Part, Place, RecordedSpec
from partsbin.stock.undone import stands
from partsbin.stock.words import PlaceType
from partsbin.workshop.abc import YEAR, classes_now, days_between_counts, is_within, start_of

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.number import LabelNumber
    from partsbin.stock.ids import PlaceId

TARGET_PERCENT = 95
"""Accuracy that a stock should have; 99 is good. Source: inventoryturns.com, Inventory accuracy."""


@dataclass(frozen=True, slots=True)
class Due:
    """A bin that is to be counted."""

    bin: str
    number: LabelNumber
    abc: AbcClass
    last: dt.date | None
    """When it was counted last, None if it never was."""
    due: dt.date | None
    """Since when it is due, None if it was never counted."""
    items: int


@dataclass(frozen=True, slots=True)
class Accuracy:
    """Items within their tolerance out of items counted; plus and minus are never netted."""

    right: int
    counted: int

    @property
    def percent(self) -> str:
        """Return it in per cent with one decimal, rounded down, `-` where nothing was counted.

        >>> Accuracy(2, 3).percent, Accuracy(0, 0).percent
        ('66.6', '-')
        """
        if not self.counted:
            return "-"
        tenths = self.right * 1000 // self.counted
        return f"{tenths // 10}.{tenths % 10}"


def bins_due(session: Session, today: dt.date) -> list[Due]:
    """Return the bins that are due, class A first, then what was not counted for longest.

    A bin has the class of the most important kind in it. It is due when it was never counted, or
    when the days that its class allows have gone by.
    """
    abc = classes_now(session, today)
    last = _last_counts(session)
    kinds = _kinds_by_bin(session)
    found = []
    query = select(Place).where(Place.type == PlaceType.BIN).order_by(Place.name, Place.id)
    for place in session.scalars(query):
        there = kinds.get(place.id, {})
        best = min((abc.get(kind, AbcClass.C) for kind in there), default=AbcClass.C)
        counted = last.get(place.id)
        due = counted and counted + dt.timedelta(days_between_counts(best))
        if due is None or due <= today:
            assert place.number is not None  # a constraint of the table
            items = sum(there.values())
            found.append(Due(place.name, place.number, best, counted, due, items))
    return sorted(found, key=lambda one: (one.abc, one.due or dt.date.min))


def _last_counts(session: Session) -> dict[PlaceId, dt.date]:
    query = (
        select(BinCount.place_id, func.max(Act.at))
        .join(Act, Act.id == BinCount.act_id)
        .where(stands(Act.id))
        .group_by(BinCount.place_id)
    )
    return {place: at.date() for place, at in session.execute(query)}


def _kinds_by_bin(session: Session) -> dict[PlaceId, dict[str, int]]:
    """Return how many items of each kind every bin holds."""
    query = (
        select(Holding.place_id, RecordedSpec.kind, func.count())
        .join(Part, Part.id == Holding.part_id)
        .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
        .join(Place, Place.id == Holding.place_id)
        .where(Place.type == PlaceType.BIN, Holding.quantity > 0)
        .group_by(Holding.place_id, RecordedSpec.kind)
    )
    found: dict[PlaceId, dict[str, int]] = {}
    for place, kind, items in session.execute(query):
        found.setdefault(place, {})[kind] = items
    return found


def accuracy(lines: Iterable[tuple[AbcClass, int, int]]) -> Accuracy:
    """Return the accuracy of some items, each its class, what was recorded and what was counted.

    >>> accuracy([(AbcClass.A, 100, 95), (AbcClass.A, 100, 105)]).percent
    '0.0'
    """
    right = [is_within(abc, recorded, counted) for abc, recorded, counted in lines]
    return Accuracy(sum(right), len(right))


def accuracy_of_year(session: Session, today: dt.date) -> Accuracy:
    """Return the accuracy of all counts in the year before a day."""
    query = (
        select(CountLine.abc, CountLine.recorded, CountLine.counted)
        .join(BinCount, BinCount.id == CountLine.bin_count_id)
        .join(Act, Act.id == BinCount.act_id)
        .where(Act.at >= start_of(today - YEAR), stands(Act.id))
    )
    return accuracy((row.abc, row.recorded, row.counted) for row in session.execute(query))
