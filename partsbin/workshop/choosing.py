"""Asks the record what goes into a slot of a bike, and the fit what it says of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds.slots import slot_named
from partsbin.stock.bikes import bike_named
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import Stocked, mounted, usable_parts, usable_specs
from partsbin.stock.reserving import laid_aside_elsewhere
from partsbin.workshop.fitting import Answer, suggest

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

ADAPTERS = (
    "seatpost_shim",
    "bar_shim",
    "brake_adapter",
    "pull_adapter",
    "valve_extender",
    "valve_grommet",
)
"""The kinds that make two others go together."""
MOST_ALIKE = 20
"""Parts of one spec that an answer names; a shop may have hundreds of one tube."""


def what_fits(session: Session, bike_name: str, slot_name: str) -> Answer:
    """Return what in stock goes into a slot of a bike.

    The parts are judged by their specs, so the cost grows with the different specs in stock. What
    a plan laid aside for another bike is left out.
    Raises `UsageError` for an unknown slot and `UnknownError` for an unknown bike.
    """
    try:
        slot = slot_named(slot_name)
    except ValueError as fault:
        raise UsageError(str(fault)) from None
    bike = bike_named(session, bike_name)
    stock: list[Stocked] = []
    elsewhere = laid_aside_elsewhere(session, BikeId(bike.id))
    for spec in usable_specs(session, (*slot.kinds, *ADAPTERS)):
        stock += [
            part
            for part in usable_parts(session, spec.id, MOST_ALIKE + len(elsewhere))
            if part.quantity > elsewhere.get(part.part, 0)
        ]
    return suggest(slot, mounted(session, BikeId(bike.id)), stock)
