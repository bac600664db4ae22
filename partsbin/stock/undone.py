"""Which acts were taken back: whoever reads the past leaves them and their opposites out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from sqlalchemy import exists, func, select, union_all

from partsbin.stock.check_tables import UndoneAct
from partsbin.stock.models import Movement

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
    from sqlalchemy.orm import InstrumentedAttribute, Session

    from partsbin.stock.ids import ActId


def stands(act: InstrumentedAttribute[ActId]) -> ColumnElement[bool]:
    """Return the condition that an act was neither taken back nor took another one back."""
    return ~exists().where((UndoneAct.act_id == act) | (UndoneAct.by_act_id == act))


def undone_by(session: Session) -> dict[ActId, ActId]:
    """Return the acts that were taken back, each with the act that did it."""
    query = select(UndoneAct.act_id, UndoneAct.by_act_id)
    return {row.act_id: row.by_act_id for row in session.execute(query)}


def undone_acts_cancel(session: Session) -> Iterator[str]:
    """Prove that the movements of an undone act and of the one that undid it are opposites."""
    pair = (Movement.act_id == UndoneAct.act_id) | (Movement.act_id == UndoneAct.by_act_id)
    flows = union_all(
        *(
            select(
                UndoneAct.act_id,
                Movement.part_id,
                place.label("place_id"),
                (Movement.quantity * sign).label("quantity"),
                (Movement.cost * sign).label("cost"),
            ).join(Movement, pair)
            for place, sign in ((Movement.to_place_id, 1), (Movement.from_place_id, -1))
        )
    ).subquery()
    left = (func.sum(flows.c.quantity) != 0) | (func.sum(flows.c.cost) != 0)
    keys = (flows.c.act_id, flows.c.part_id, flows.c.place_id)
    for act, part, place in session.execute(select(*keys).group_by(*keys).having(left)):
        yield f"act {act} was undone, but not all of part {part} in place {place}"
