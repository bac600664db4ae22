"""Where a part would serve: the open slots of the bikes in work that it goes into."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.fit.verdict import Verdict
from partsbin.stock.bikes import list_bikes
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted_on
from partsbin.stock.words import BikeState
from partsbin.workshop.fitting import goes_in, judge_in_slot
from partsbin.workshop.mounting import needs

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.number import LabelNumber
    from partsbin.fit.judge import Judgement
    from partsbin.kinds.slots import Slot
    from partsbin.kinds.spec import Spec


@dataclass(frozen=True, slots=True)
class Serves:
    """An open slot of a bike in work, and how a part goes into it."""

    bike: str
    number: LabelNumber
    slot: Slot
    why: str
    """What is wrong with the slot: empty, worn or dead."""
    judgement: Judgement


def serves(session: Session, spec: Spec) -> list[Serves]:
    """Return the open slots of bikes in work that a part would serve, the surest first.

    Slots where it clashes are left out.
    """
    found = []
    bikes = list_bikes(session, BikeState.IN_WORK)
    parts = mounted_on(session, [BikeId(bike.id) for bike in bikes])
    for bike in bikes:
        on_bike = parts[BikeId(bike.id)]
        for slot, why in needs(on_bike):
            if goes_in(spec, slot):
                judgement = judge_in_slot(spec, slot, on_bike)
                found.append(Serves(bike.name, bike.number, slot, why, judgement))
    good = [one for one in found if one.judgement.verdict is not Verdict.CLASH]
    return sorted(good, key=lambda one: one.judgement.verdict.rank)
