"""Label numbers for new things, each given out once."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from sqlalchemy import select, update

from labels.number import LabelNumber, Thing, make, running_of, thing_of
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


def keep_numbers(session: Session, numbers: Iterable[LabelNumber]) -> None:
    """Give none of these numbers out any more: labels with them were printed elsewhere."""
    highest: dict[Thing, int] = {}
    for number in numbers:
        thing, running = thing_of(number), running_of(number)
        highest[thing] = max(highest.get(thing, 0), running)
    for thing, running in highest.items():
        row = update(RunningNumber).where(
            RunningNumber.thing == thing.value, RunningNumber.last < running
        )
        session.execute(row.values(last=running))


def last_numbers(session: Session) -> list[LabelNumber]:
    """Return the last number that was given out of each thing, if any was."""
    query = select(RunningNumber.thing, RunningNumber.last).order_by(RunningNumber.thing)
    return [make(Thing(row.thing), row.last) for row in session.execute(query) if row.last]
