"""The act that a session's movements belong to, and the proof that it left nothing in between."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from sqlalchemy import bindparam, case, func, insert, or_, select, text

from partsbin.stock.ids import CLEARING, ActId
from partsbin.stock.models import Act, Movement
from partsbin.stock.sending import Question, named

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

KEY = "act"
NEW_ACT = Question(insert(Act).values(named("at", "who", "what", "reason")).returning(Act.id))
LEFT = Question(
    select(
        func.sum(case((Movement.to_place_id == CLEARING, Movement.cost), else_=-Movement.cost))
    ).where(
        Movement.act_id == bindparam("act"),
        or_(Movement.to_place_id == CLEARING, Movement.from_place_id == CLEARING),
    )
)
"""What an act took into clearing and did not hand on."""


def begin_act(session: Session, who: str, what: str, reason: str) -> ActId:
    """Begin the act of a changing session and return its id; others who change wait."""
    if session.get_bind().dialect.name == "postgresql":
        session.execute(text("LOCK TABLE act IN EXCLUSIVE MODE"))
    now = dt.datetime.now(dt.UTC)
    act = NEW_ACT.value(session, at=now, who=who, what=what, reason=reason)
    assert act is not None  # an INSERT that succeeds returns its row
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
    left = LEFT.value(session, act=act_of(session))
    if left:
        raise RuntimeError(f"the act left {left} minor units in clearing")
