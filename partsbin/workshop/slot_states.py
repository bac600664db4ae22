"""How each slot of a bike stands: what is in it, and whether it needs something."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import SLOTS, Slot
from partsbin.stock.words import Condition
from partsbin.workshop.fitting import COUPLED
from partsbin.workshop.mounting import needs

if TYPE_CHECKING:
    from partsbin.kinds.spec import Spec
    from partsbin.stock.lookup import Mounted


class SlotState(enum.StrEnum):
    """How a slot stands, those that need something first."""

    DEAD = "dead"
    WORN = "worn"
    EMPTY = "empty"
    """Nothing is there, and the bike needs it."""
    UNKNOWN = "unknown"
    """Something sound is there, but nothing is recorded of what decides where it fits."""
    SOUND = "sound"
    SHARED = "one body"
    """The combined lever in the other slot of the same hand fills this one too."""
    UNUSED = "not fitted"
    """Nothing is there, and the bike does without."""


NEEDING = (SlotState.DEAD, SlotState.WORN, SlotState.EMPTY)
_URGENCY = {state: at for at, state in enumerate(SlotState)}


@dataclass(frozen=True, slots=True)
class Standing:
    """One slot of a bike as it stands."""

    slot: Slot
    state: SlotState
    part: Mounted | None

    @property
    def needs(self) -> bool:
        """Return whether the slot is one of the bike's needs."""
        return self.state in NEEDING


def standings(on_bike: Sequence[Mounted]) -> list[Standing]:
    """Return how every slot of a bike stands, in the order of the slots."""
    by_slot = {part.slot: part for part in on_bike}
    wanted = {slot.name: why for slot, why in needs(list(on_bike))}
    shared = {COUPLED[s] for s, p in by_slot.items() if p.spec.kind == "combined_lever"}
    found = []
    for slot in SLOTS:
        part = by_slot.get(slot.name)
        if slot.name in wanted:
            state = SlotState(wanted[slot.name])
        elif part is not None:
            state = SlotState.UNKNOWN if _undescribed(part) else SlotState.SOUND
        else:
            state = SlotState.SHARED if slot.name in shared else SlotState.UNUSED
        found.append(Standing(slot, state, part))
    return found


def needing_first(standing: Sequence[Standing]) -> list[Standing]:
    """Return slots with those that need something in front, then as they were."""
    return sorted(standing, key=lambda one: _URGENCY[one.state])


def _undescribed(part: Mounted) -> bool:
    """Return whether none of the attributes that a mechanic asks for first is known."""
    asked = [name for name in KINDS[part.spec.kind].first if name != "side"]
    return part.condition is Condition.SOUND and bool(asked) and not _knows(part.spec, asked)


def _knows(spec: Spec, names: Sequence[str]) -> bool:
    return any(spec.get(name) is not None for name in names)
