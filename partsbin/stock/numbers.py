"""Label numbers for new things, each given out once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import update

from labels.number import LabelNumber, Thing, make
from partsbin.stock.models import RunningNumber

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


def take_numbers(session: Session, thing: Thing, count: int) -> list[LabelNumber]:
    """Return the next `count` numbers of that thing.

    They are given out when the session's act is kept; an act that is not kept leaves no gap.
    """
    row = (
        update(RunningNumber)
        .where(RunningNumber.thing == thing.value)
        .values(last=RunningNumber.last + count)
        .returning(RunningNumber.last)
        .execution_options(synchronize_session=False)
    )
    last = session.execute(row).scalar_one()
    return [make(thing, running) for running in range(last - count + 1, last + 1)]


def take_number(session: Session, thing: Thing) -> LabelNumber:
    """Return the next number of that thing."""
    return take_numbers(session, thing, 1)[0]
