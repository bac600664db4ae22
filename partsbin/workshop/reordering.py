"""Minimum levels, and the list of what is to be ordered."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import delete, func, select

from labels.number import Thing, grouped
from partsbin.errors import UsageError
from partsbin.kinds.spec import Spec
from partsbin.stock.count_tables import MinimumLevel
from partsbin.stock.errors import UNCHANGED, RefusedError, UnknownError
from partsbin.stock.ids import SpecId
from partsbin.stock.lookup import USABLE
from partsbin.stock.models import Act, Movement, Part, RecordedSpec
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import looks_like_number, read_number
from partsbin.stock.quantity import read_quantity, show_quantity
from partsbin.stock.specs import spec_of
from partsbin.stock.titles import title
from partsbin.stock.usage import used_by_day
from partsbin.stock.words import Unit
from partsbin.workshop.abc import YEAR, start_of
from partsbin.workshop.assignments import read_spec
from partsbin.workshop.intake import unit_of
from partsbin.workshop.reorder_point import (
    demand_of,
    order_quantity,
    reorder_point,
    safety_stock,
    up,
)

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
    from sqlalchemy.orm import Session

SHORTEST_DAYS = 30
"""Usage of fewer days says nothing of the next ones; it is spread over so many."""
LONGEST_LEAD = 730
"""Days; more is a slip of the finger."""
AT_ONCE = 500
COLUMNS = ("what", "have", "minimum", "reorder point", "used", "days", "order", "packs")
"""Of the list, and of its CSV file."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is told of a minimum level, as it was typed; what is empty stays or is nothing."""

    what: str
    attributes: Sequence[str] = ()
    minimum: str = ""
    lead_days: int | None = None
    lead_spread_days: int | None = None
    pack: str = ""


@dataclass(frozen=True, slots=True)
class Level:
    """A minimum level beside what is there and what is used."""

    what: str
    unit: Unit
    have: int
    minimum: int
    pack: int
    lead_days: int
    used: int
    """In the days that were looked at."""
    days: int
    point: int
    """The reorder point by usage alone, 0 where nothing was used."""
    order: int
    """How much to order, 0 if enough is there."""

    @property
    def packs(self) -> int:
        """Return how many packs are to be ordered."""
        return self.order // self.pack


def set_level(session: Session, wanted: Wanted) -> MinimumLevel:
    """Set the minimum level of a lot, or of a kind with some attributes, and return it.

    Raises `UsageError` for what is not understood, `RefusedError` for a single part.
    """
    row, unit = _row(session, wanted)
    if wanted.minimum:
        row.minimum = _amount(wanted.minimum, unit)
    if wanted.pack:
        row.pack = read_quantity(wanted.pack, unit)
    for name in ("lead_days", "lead_spread_days"):
        days = getattr(wanted, name)
        if days is not None:
            if not 0 <= days <= LONGEST_LEAD:
                raise UsageError(f"{days} is no lead time; give 0 to {LONGEST_LEAD} days")
            setattr(row, name, days)
    session.add(row)
    session.flush()
    return row


def read_lead_days(text: str) -> int:
    """Return the days from an order until it is there. Raises `UsageError` for what is none.

    >>> read_lead_days("5")
    5
    """
    if not (text.isascii() and text.isdigit() and len(text) < 6 and int(text) <= LONGEST_LEAD):
        raise UsageError(f"{text!r} is no lead time; give 0 to {LONGEST_LEAD} days")
    return int(text)


def drop_level(session: Session, wanted: Wanted) -> str:
    """Remove a minimum level and return what it was of. Raises `UnknownError` if there is none."""
    row, _ = _row(session, wanted)
    what = level_title(session, row)
    if row.id is None:
        raise UnknownError("minimum level of", what)
    session.execute(delete(MinimumLevel).where(MinimumLevel.id == row.id))
    return what


def pack_of(session: Session, part: Part) -> int | None:
    """Return how much a pack of a lot holds: its own level's, or that of its kind; None if unknown.

    Of several levels that describe it, the one with most attributes counts.
    """
    own = session.scalar(select(MinimumLevel.pack).where(MinimumLevel.part_id == part.id))
    if own is not None:
        return own
    spec = spec_of(part.spec.text)
    found = [
        (len(spec_of(row.spec_text).values), row.pack)
        for row in session.scalars(select(MinimumLevel))
        if row.spec_text is not None and _describes(spec_of(row.spec_text), spec)
    ]
    return max(found)[1] if found else None


def levels(session: Session, today: dt.date) -> list[Level]:
    """Return all minimum levels with what is there, what is used and what to order, by name."""
    rows = session.scalars(select(MinimumLevel).order_by(MinimumLevel.id)).all()
    return sorted((_level(session, row, today) for row in rows), key=lambda level: level.what)


def level_title(session: Session, row: MinimumLevel) -> str:
    """Return what a minimum level is of, as a list names it."""
    if row.spec_text is not None:
        return str(spec_of(row.spec_text))
    part = session.get_one(Part, row.part_id)
    spec = spec_of(part.spec.text)
    return f"{spec.brief} ({grouped(part.number)})"


def _row(session: Session, wanted: Wanted) -> tuple[MinimumLevel, Unit]:
    """Return the row of what is meant, a new one if there is none, and its unit."""
    new = {"minimum": 0, "lead_days": 0, "lead_spread_days": 0, "pack": 1}
    if looks_like_number(wanted.what):
        read_number(wanted.what, Thing.PART, Thing.LOT)
        part = part_by_number(session, wanted.what)
        if not part.lot:
            name = title(part.spec.kind, part.number)
            raise RefusedError(f"{name} is a single part; name its kind instead; {UNCHANGED}")
        if wanted.attributes:
            raise UsageError("a lot has its attributes already; give them with a kind only")
        found = session.scalar(select(MinimumLevel).where(MinimumLevel.part_id == part.id))
        return found or MinimumLevel(part_id=part.id, unit=part.unit, **new), part.unit
    spec = read_spec(wanted.what, wanted.attributes)
    unit = unit_of(spec.kind, wanted.minimum or wanted.pack)
    found = session.scalar(select(MinimumLevel).where(MinimumLevel.spec_text == spec.text))
    if found is not None and not (wanted.minimum or wanted.pack):
        unit = found.unit
    if found is not None and found.unit is not unit:
        raise UsageError(f"{spec} is counted in other units; drop its level first, then set it new")
    return found or MinimumLevel(spec_text=spec.text, unit=unit, **new), unit


def _amount(text: str, unit: Unit) -> int:
    return 0 if text.strip() == "0" else read_quantity(text, unit)


def _describes(asked: Spec, spec: Spec) -> bool:
    return asked.kind == spec.kind and all(spec.get(name) == value for name, value in asked.values)


def _parts(session: Session, row: MinimumLevel) -> list[ColumnElement[bool]]:
    """Return the conditions one of which the parts and lots of a level meet, past and present."""
    if row.spec_text is None:
        return [Part.id == row.part_id]
    asked = spec_of(row.spec_text)
    specs = session.execute(
        select(RecordedSpec.id, RecordedSpec.text).where(RecordedSpec.kind == asked.kind)
    )
    ids = [SpecId(one.id) for one in specs if _describes(asked, spec_of(one.text))]
    return [
        Part.spec_id.in_(ids[start : start + AT_ONCE]) & (Part.unit == row.unit)
        for start in range(0, len(ids), AT_ONCE)
    ]


def _have(session: Session, which: Sequence[ColumnElement[bool]]) -> int:
    """Return how much is usable in bins."""
    sums = [select(func.sum(Part.in_bins)).where(condition, USABLE) for condition in which]
    return sum(int(session.scalar(query) or 0) for query in sums)


def _days(session: Session, which: Sequence[ColumnElement[bool]], today: dt.date) -> int:
    """Return over how many days usage is known: since the first of it came, a year at most."""
    firsts = [session.scalar(select(func.min(Part.id)).where(condition)) for condition in which]
    first = min((part for part in firsts if part is not None), default=None)
    came = select(func.min(Act.at)).join(Movement, Movement.act_id == Act.id)
    at = session.scalar(came.where(Movement.part_id == first))
    known = (today - at.date()).days if at else 0
    return min(max(known, SHORTEST_DAYS), YEAR.days)


def _level(session: Session, row: MinimumLevel, today: dt.date) -> Level:
    parts = _parts(session, row)
    days = _days(session, parts, today)
    used = used_by_day(session, parts, start_of(today - dt.timedelta(days)))
    demand = demand_of(used.values(), days)
    safety = safety_stock(demand, row.lead_days, row.lead_spread_days)
    point = up(reorder_point(demand, row.lead_days, safety))
    have = _have(session, parts)
    low = have < row.minimum or (point > 0 and have <= point)
    order = 0
    if low:
        during_lead = demand.mean * row.lead_days
        order = order_quantity(have, max(row.minimum, point), during_lead, row.pack)
    return Level(
        what=level_title(session, row),
        unit=row.unit,
        have=have,
        minimum=row.minimum,
        pack=row.pack,
        lead_days=row.lead_days,
        used=sum(used.values()),
        days=days,
        point=point,
        order=order,
    )


def as_table(listed: Sequence[Level]) -> list[dict[str, str]]:
    """Return levels as rows of a table: what to order, how much, and why."""
    rows = []
    for level in listed:
        amounts = (level.have, level.minimum, level.point, level.used)
        have, minimum, point, used = (show_quantity(amount, level.unit) for amount in amounts)
        order = show_quantity(level.order, level.unit)
        cells = (level.what, have, minimum, point, used, str(level.days), order, str(level.packs))
        rows.append(dict(zip(COLUMNS, cells, strict=True)))
    return rows
