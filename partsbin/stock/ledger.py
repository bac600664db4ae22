"""The act that a session's movements belong to, and the proof that it left nothing in between."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from sqlalchemy import case, func, insert, select, text

from partsbin.stock.ids import CLEARING, ActId
from partsbin.stock.models import Act, Movement

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

KEY = "act"


def begin_act(session: Session, who: str, what: str, reason: str) -> ActId:
    """Begin the act of a changing session and return its id; others who change wait."""
    if session.get_bind().dialect.name == "postgresql":
        session.execute(text("LOCK TABLE act IN EXCLUSIVE MODE"))
    now = dt.datetime.now(dt.UTC)
    row = insert(Act).values(at=now, who=who, what=what, reason=reason).returning(Act.id)
    act = session.execute(row).scalar_one()
    session.info[KEY] = act
    return act


def act_of(session: Session) -> ActId:
    """Return the id of the session's act. Raises `RuntimeError` in a session that only reads."""
    act = session.info.get(KEY)
    if act is None:
        raise RuntimeError("only a session of Database.changing() changes the record")
    return ActId(act)


def prove_cleared(session: Session) -> None:
    """Raise `RuntimeError` if the act took a cost into clearing and did not hand all of it on."""
    gone = case((Movement.to_place_id == CLEARING, Movement.cost), else_=-Movement.cost)
    through = select(func.sum(gone)).where(
        Movement.act_id == act_of(session),
        (Movement.to_place_id == CLEARING) | (Movement.from_place_id == CLEARING),
    )
    left = session.scalar(through)
    if left:
        raise RuntimeError(f"the act left {left} minor units in clearing")
