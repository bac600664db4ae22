"""What is usable of each spec in the order of its use: of least value first, then the oldest."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, literal_column, select

from partsbin.stock.lookup import USABLE
from partsbin.stock.models import Part, RecordedSpec
from partsbin.stock.reserving import free_quantity
from partsbin.stock.specs import AT_ONCE
from partsbin.stock.words import Condition, Unit

if TYPE_CHECKING:
    from sqlalchemy import Select
    from sqlalchemy.orm import Session

    from partsbin.stock.ids import BikeId, PartId, SpecId
    from partsbin.stock.money import Money

WORTH = func.coalesce(Part.value, literal_column("0"))
"""A part of unknown value counts as nothing; written out, for an index knows no bound value."""


@dataclass(frozen=True, slots=True)
class Usable:
    """A part that may be used, and how much of it is laid aside for no other bike."""

    part: PartId
    value: int
    quantity: int


def first_of_each(
    session: Session, kinds: Sequence[str], bikes: Collection[BikeId] = ()
) -> dict[SpecId, tuple[str, Usable]]:
    """Return the text and the first usable part of each spec of some kinds.

    What is laid aside for one of `bikes` is usable for them. The cost grows with the specs.
    """
    specs = select(RecordedSpec.id, RecordedSpec.text).where(RecordedSpec.kind.in_(kinds))
    texts: dict[SpecId, str] = {row.id: row.text for row in session.execute(specs)}
    first = _nth(session, texts, 0, bikes)
    return {spec: (texts[spec], usable) for spec, usable in first.items()}


def units_of(
    session: Session, specs: Mapping[SpecId, int], bikes: Collection[BikeId] = ()
) -> dict[SpecId, list[Usable]]:
    """Return the usable parts of specs in the order of their use, as many as are asked of each."""
    found: dict[SpecId, list[Usable]] = {spec: [] for spec in specs}
    left = dict(specs)
    place = 0
    while left:
        got = _nth(session, left, place, bikes)
        for spec, usable in got.items():
            found[spec].append(usable)
            left[spec] -= usable.quantity
        left = {spec: count for spec, count in left.items() if spec in got and count > 0}
        place += 1
    return found


def _nth(
    session: Session, specs: Iterable[SpecId], place: int, bikes: Collection[BikeId]
) -> dict[SpecId, Usable]:
    ids = list(specs)
    found: dict[SpecId, Usable] = {}
    for start in range(0, len(ids), AT_ONCE):
        query = _query(ids[start : start + AT_ONCE], place, bikes)
        for row in session.execute(query):
            found[row.spec_id] = Usable(row.id, int(row.worth), int(row.free))
    return found


def _query(
    specs: Sequence[SpecId], place: int, bikes: Collection[BikeId]
) -> Select[PartId, SpecId, Money, int]:
    usable = (
        select(Part.id)
        .where(
            Part.spec_id == RecordedSpec.id,
            USABLE,
            Part.condition == Condition.SOUND,
            Part.unit == Unit.PIECE,
            free_quantity(bikes) > 0,
        )
        .order_by(WORTH, Part.id)
        .offset(place)
        .limit(1)
        .correlate(RecordedSpec)
        .scalar_subquery()
    )
    wanted = (
        select(usable.label("id")).select_from(RecordedSpec).where(RecordedSpec.id.in_(specs))
    ).subquery()
    return select(
        Part.id, Part.spec_id, WORTH.label("worth"), free_quantity(bikes).label("free")
    ).join(wanted, wanted.c.id == Part.id)
