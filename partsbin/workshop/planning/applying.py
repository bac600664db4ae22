"""Lays aside what a plan takes, so that no other bike is offered it; scanning then mounts it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from partsbin.stock.reserving import LaidAside, reserve

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.workshop.planning.answer import Plans


def lay_aside(session: Session, plans: Plans) -> list[LaidAside]:
    """Reserve what the plans take, in the place of what their bikes had reserved before."""
    laid = [
        LaidAside(take.part, bike.bike, bike.name, "" if take.adapter else take.slot)
        for bike in plans.bikes
        for take in bike.take
    ]
    reserve(session, [bike.bike for bike in plans.bikes], laid)
    return laid
