"""Setting the record right by a count: what is lost is written off, what is found is moved here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import insert

from partsbin.stock.count_tables import BinCount, CountLine
from partsbin.stock.ids import SCRAPPED, SUPPLIER, PlaceId
from partsbin.stock.ledger import act_of
from partsbin.stock.lookup import where_is
from partsbin.stock.losses import lost_in_counts
from partsbin.stock.money import NOTHING, share
from partsbin.stock.movements import move
from partsbin.stock.words import PlaceType
from partsbin.workshop.counting import Count, Finding, Line

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


def write(session: Session, count: Count, *, leave_missing: bool = False) -> None:
    """Set the record right by what a count found, and keep the count.

    What is missing is written off, at what it cost; `leave_missing` leaves it in the record. What
    turns up comes back at what was written off.
    """
    for line in count.lines:
        lost = line.recorded - line.counted
        if line.finding is Finding.MISSING and not leave_missing:
            move(session, line.part, lost, count.place, SCRAPPED)
        elif line.source is not None:
            _bring(session, line, count.place, -lost)
    kept = insert(BinCount).values(act_id=act_of(session), place_id=count.place)
    id_ = session.execute(kept.returning(BinCount.id)).scalar_one()
    rows = [
        {
            "bin_count_id": id_,
            "part_id": line.part,
            "recorded": line.recorded,
            "counted": line.counted,
            "abc": line.abc,
        }
        for line in count.lines
    ]
    if rows:
        session.execute(insert(CountLine), rows)


def _bring(session: Session, line: Line, place: PlaceId, quantity: int) -> None:
    """Move what is more than the record has into the bin: from losses or its place, or as new."""
    if line.source not in (None, SUPPLIER):
        quantity -= _from_place(session, line, place, quantity)
    if quantity:
        move(session, line.part, quantity, SUPPLIER, place, cost=NOTHING)


def _from_place(session: Session, line: Line, place: PlaceId, quantity: int) -> int:
    """Move what the source has of it, up to a quantity, and return how much that was."""
    source = next(p for p in where_is(session, line.part) if p.place == line.source)
    if source.place_type is not PlaceType.SCRAPPED:
        some = min(quantity, source.quantity)
        move(session, line.part, some, source.place, place)
        return some
    lost, cost = lost_in_counts(session, line.part)
    some = min(quantity, lost)
    whole = some == source.quantity
    carried = source.cost if whole else min(share(cost, some, lost), source.cost)
    move(session, line.part, some, source.place, place, cost=carried)
    return some
