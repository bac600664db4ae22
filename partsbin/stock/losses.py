"""What counts wrote off and did not find again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import case, func, select

from partsbin.stock.count_tables import BinCount
from partsbin.stock.ids import SCRAPPED, PartId
from partsbin.stock.models import Holding, Movement
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.undone import stands

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


def lost_in_counts(session: Session, part: PartId) -> tuple[int, Money]:
    """Return how much of a part is lost, and what that cost; never more than was scrapped of it."""
    sign = case((Movement.to_place_id == SCRAPPED, 1), else_=-1)
    query = (
        select(func.sum(sign * Movement.quantity), func.sum(sign * Movement.cost))
        .join(BinCount, BinCount.act_id == Movement.act_id)
        .where(Movement.part_id == part, stands(Movement.act_id))
        .where((Movement.to_place_id == SCRAPPED) | (Movement.from_place_id == SCRAPPED))
    )
    quantity, cost = session.execute(query).one()
    gone = select(Holding.quantity, Holding.cost).where(
        Holding.part_id == part, Holding.place_id == SCRAPPED
    )
    scrapped = session.execute(gone).one_or_none()
    if not quantity or scrapped is None:
        return 0, NOTHING
    return min(int(quantity), scrapped.quantity), Money(min(int(cost), scrapped.cost))
