"""Which share of the parts that are put into bins finds a use within a year, by the own record.

A part that nobody waits for may lie for long. Its worth is then what it is likely to fetch, times
the chance that it is used or sold within a year. That chance is the record under a Beta prior, as
that of surprises is, so that a young record does not claim too much.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from sqlalchemy import func, select
from sqlalchemy.orm import aliased

from partsbin.stock.models import Act, Movement, Part, Place
from partsbin.stock.undone import stands
from partsbin.stock.words import PlaceType
from partsbin.workshop.surprises import Prior

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.ids import PartId

YEAR = dt.timedelta(days=365)
EVEN = Prior(a=Fraction(10), b=Fraction(10))
"""Half of the parts find a use within a year: stated to the user, common practice, no source."""
LATEST = 1000
"""So many parts are looked at: how it was with older ones says less of the next."""
USED = (PlaceType.SLOT, PlaceType.BIKE, PlaceType.SOLD)


@dataclass(frozen=True, slots=True)
class Turnover:
    """How many single parts came into a bin a year ago or earlier, and how many were used.

    Used is what was mounted or sold within a year of coming in.
    """

    used: int
    parts: int

    @property
    def share(self) -> Fraction:
        """Return the chance that one more part is used within a year.

        >>> Turnover(0, 0).share, Turnover(2, 40).share
        (Fraction(1, 2), Fraction(1, 5))
        """
        return EVEN.chance(self.used, self.parts)


def turnover(session: Session, now: dt.datetime | None = None) -> Turnover:
    """Return the turnover of the latest single parts that have had a year's time to be used."""
    until = (now or dt.datetime.now(dt.UTC)) - YEAR
    source, target = aliased(Place), aliased(Place)
    query = (
        select(Movement.part_id, Act.at, source.type, target.type)
        .join(Act, Act.id == Movement.act_id)
        .join(source, source.id == Movement.from_place_id)
        .join(target, target.id == Movement.to_place_id)
        .where(Movement.part_id.in_(_latest(session, until)), Movement.quantity > 0)
        .where(stands(Movement.act_id))
        .order_by(Movement.id)
    )
    came: dict[PartId, dt.datetime] = {}
    left: dict[PartId, dt.datetime] = {}
    for part, at, before, after in session.execute(query):
        if after is PlaceType.BIN:
            came.setdefault(part, at)
        elif before is PlaceType.BIN and after in USED:
            left.setdefault(part, at)
    known = {part: at for part, at in came.items() if at <= until}
    used = sum(part in left and left[part] - at <= YEAR for part, at in known.items())
    return Turnover(used, len(known))


def _latest(session: Session, until: dt.datetime) -> Sequence[PartId]:
    """Return the latest single parts that came into a bin before a moment."""
    first = session.scalar(select(func.min(Act.at)))
    if first is None or first > until:
        return []
    came = (
        select(Movement.id)
        .join(Act, Act.id == Movement.act_id)
        .join(Place, Place.id == Movement.to_place_id)
        .where(Movement.part_id == Part.id, Place.type == PlaceType.BIN, Act.at <= until)
    )
    query = select(Part.id).where(Part.lot.is_(False), came.exists()).order_by(Part.id.desc())
    return session.scalars(query.limit(LATEST)).all()
