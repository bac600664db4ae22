"""What parts brought that were sold without a bike: write it down, read it, prove it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import TYPE_CHECKING

from sqlalchemy import and_, func, select

from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.stock.ids import SOLD, PartId
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Movement, Part
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.sale_tables import PartSale
from partsbin.stock.titles import part_title
from partsbin.stock.undone import stands

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


def add_part_sale(
    session: Session,
    part: PartId,
    quantity: int,
    amount: Money,
    day: dt.date,
    *,
    fee: Money = NOTHING,
    note: str = "",
) -> PartSale:
    """Write down what a quantity of a part brought that this act moved to `sold`.

    Raises `RefusedError` if the act moved less of it there.
    """
    act = act_of(session)
    moved = select(func.sum(Movement.quantity)).where(
        Movement.act_id == act, Movement.part_id == part, Movement.to_place_id == SOLD
    )
    told = select(func.sum(PartSale.quantity)).where(
        PartSale.act_id == act, PartSale.part_id == part
    )
    left = (session.scalar(moved) or 0) - (session.scalar(told) or 0)
    if quantity > left:
        raise RefusedError(
            f"{part_title(session, part)} did not leave in that quantity; {UNCHANGED}"
        )
    sale = PartSale(
        act_id=act,
        part_id=part,
        quantity=quantity,
        amount=amount,
        fee=fee,
        day=day,
        note=note,
    )
    session.add(sale)
    session.flush()
    return sale


def standing_sales(session: Session) -> list[tuple[PartSale, Part]]:
    """Return the sales of parts that were not taken back, in the order of their writing."""
    query = (
        select(PartSale, Part)
        .join(Part, Part.id == PartSale.part_id)
        .where(stands(PartSale.act_id))
        .order_by(PartSale.id)
    )
    return [(sale, part) for sale, part in session.execute(query)]


def sold_parts_left(session: Session) -> Iterator[str]:
    """Prove that each act that sold a part moved at least as much of it to `sold`."""
    moved = (
        select(func.coalesce(func.sum(Movement.quantity), 0))
        .where(
            and_(Movement.act_id == PartSale.act_id, Movement.part_id == PartSale.part_id),
            Movement.to_place_id == SOLD,
        )
        .correlate(PartSale)
        .scalar_subquery()
    )
    query = (
        select(PartSale.act_id, Part.number)
        .join(Part, Part.id == PartSale.part_id)
        .group_by(PartSale.act_id, PartSale.part_id, Part.number)
        .having(func.sum(PartSale.quantity) > moved)
    )
    for act, number in session.execute(query):
        yield f"act {act} sold more of part {number} than it moved away"
