"""The workshop's own record of surprises: what bikes needed beyond what was seen when bought.

A slot surprised if the part that came with the bike was taken for sound and another one was put
there later. Only bikes whose work is done count: what one in work still hides is not known.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from partsbin.stock.check_tables import Edit
from partsbin.stock.ids import SUPPLIER, BikeId, PartId
from partsbin.stock.models import Bike, Movement, Part, Place
from partsbin.stock.specs import AT_ONCE
from partsbin.stock.undone import stands
from partsbin.stock.words import BikeState, Condition, PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

DONE = (BikeState.READY, BikeState.SOLD, BikeState.KEPT)


@dataclass(frozen=True, slots=True)
class Seen:
    """How many bikes came with a sound part in a slot, and of how many it was replaced."""

    surprises: int = 0
    bikes: int = 0


NONE = Seen()


@dataclass(frozen=True, slots=True)
class Record:
    """The surprises of the finished bikes of a style, by slot."""

    style: str
    bikes: int
    slots: Mapping[str, Seen]

    @property
    def surprises(self) -> int:
        """Return how many there were in all."""
        return sum(seen.surprises for seen in self.slots.values())


def surprise_record(session: Session, style: str) -> Record:
    """Return the record of the finished bikes of a style."""
    finished = select(Bike.id).where(func.lower(Bike.style) == style.lower(), Bike.state.in_(DONE))
    bikes = session.scalars(finished).all()
    query = (
        select(Place.bike_id, Place.name, Movement.part_id, Movement.from_place_id)
        .join(Place, Place.id == Movement.to_place_id)
        .where(Place.bike_id.in_(finished), Place.type == PlaceType.SLOT)
        .where(Movement.quantity > 0, stands(Movement.act_id))
        .order_by(Movement.id)
    )
    came: dict[tuple[BikeId, str], PartId] = {}
    others: set[tuple[BikeId, str]] = set()
    for bike, slot, part, source in session.execute(query):
        assert bike is not None
        if (bike, slot) not in came:
            # What came first from stock filled a slot that was seen to be empty.
            came[bike, slot] = PartId(part if source == SUPPLIER else 0)
        elif came[bike, slot] != part:
            others.add((bike, slot))
    came = {key: part for key, part in came.items() if part}
    sound = _sound_at_first(session, list(came.values()))
    slots: dict[str, Seen] = {}
    for (bike, slot), part in came.items():
        if part in sound:
            seen = slots.get(slot, NONE)
            slots[slot] = Seen(seen.surprises + ((bike, slot) in others), seen.bikes + 1)
    return Record(style, len(bikes), slots)


def _sound_at_first(session: Session, parts: Sequence[PartId]) -> set[PartId]:
    """Return the parts that were taken for sound when they came in."""
    conditions: dict[PartId, str] = {}
    for start in range(0, len(parts), AT_ONCE):
        some = parts[start : start + AT_ONCE]
        now = select(Part.id, Part.condition).where(Part.id.in_(some))
        conditions |= {PartId(row.id): str(row.condition) for row in session.execute(now)}
        edits = (
            select(Edit.part_id, Edit.before)
            .where(Edit.part_id.in_(some), Edit.field == "condition")
            .order_by(Edit.id.desc())
        )
        # The earliest edit comes last, and what was before it is what was first recorded.
        conditions |= {PartId(row.part_id): row.before for row in session.execute(edits)}
    return {part for part, condition in conditions.items() if condition == Condition.SOUND}
