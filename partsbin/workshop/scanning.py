"""What is done with a number that was read: look it up, put it into a bin or onto a bike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, radians, sin
from statistics import median
from typing import TYPE_CHECKING

from sqlalchemy import select

from labels.number import LabelNumber, Thing, grouped, thing_of
from partsbin.stock.bikes import bike_named
from partsbin.stock.errors import RefusedError
from partsbin.stock.ids import PartId, PlaceId
from partsbin.stock.lookup import contents, where_is
from partsbin.stock.models import Bike, Part, Place
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import bin_named
from partsbin.stock.specs import spec_of
from partsbin.workshop.intake import put
from partsbin.workshop.mounting import Done, mount, place_of

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.reading.look import Reading

ROW_SHARE = 0.6
"""Labels whose middles differ by less than so much of a label's height stand in one row."""
SQUARE = 90.0
"""Degrees after which a label's edges lie along the same two directions again."""
SAME_TILT, MOST = 10.0, 0.75
"""Labels lie alike if so large a share of them is turned to within so many degrees."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a number stands for, in words, and where that is."""

    number: LabelNumber
    what: str
    where: str


def exists(session: Session, number: LabelNumber) -> bool:
    """Return whether anything in the record has this number."""
    column = {Thing.BIN: Place.number, Thing.BIKE: Bike.number}.get(thing_of(number), Part.number)
    return session.scalar(select(column).where(column == number)) is not None


def look_up(session: Session, number: LabelNumber) -> Known:
    """Return what a number stands for. Raises `UnknownError` if nothing has it."""
    thing = thing_of(number)
    if thing is Thing.BIN:
        place = bin_named(session, number)
        there = contents(session, PlaceId(place.id))
        return Known(number, f"bin {place.name}", f"{len(there)} parts and lots in it")
    if thing is Thing.BIKE:
        bike = bike_named(session, number)
        return Known(number, f"bike {bike.name}", str(bike.state))
    part = part_by_number(session, number)
    spec = spec_of(part.spec.text)
    where = " and ".join(map(place_of, where_is(session, PartId(part.id))))
    return Known(number, f"{spec.brief}, {part.grade}", where)


def act_on(
    session: Session,
    number: LabelNumber,
    *,
    onto: str = "",
    into: str = "",
    slot: str = "",
    anyway: bool = False,
) -> Done:
    """Mount the part of a number onto a bike, or put it into a bin, and return what was done."""
    if thing_of(number) not in (Thing.PART, Thing.LOT):
        known = look_up(session, number)
        raise RefusedError(f"{grouped(number)} is {known.what}, not a part; nothing was changed")
    if onto:
        return mount(session, number, onto, slot, anyway=anyway)
    return put(session, number, into)


def in_reading_order(readings: Sequence[Reading]) -> list[Reading]:
    """Return the labels of a picture row by row from the top, each row from the left.

    A row is found by the labels' own height. A sheet that was held askew is set upright first.
    """
    if not readings:
        return []
    tilt = _tilt(readings)
    boxes = [(_box(reading, tilt), reading) for reading in readings]
    # Of some labels only one symbol was read; the upper quarter stands for whole ones.
    heights = sorted(bottom - top for (_, top, _, bottom), _ in boxes)
    gap = ROW_SHARE * heights[len(heights) * 3 // 4]
    placed = [
        ((left + right) / 2, (top + bottom) / 2, r) for (left, top, right, bottom), r in boxes
    ]
    rows: list[list[tuple[float, float, Reading]]] = []
    for at in sorted(placed, key=lambda place: place[1]):
        if rows and at[1] - rows[-1][-1][1] < gap:
            rows[-1].append(at)
        else:
            rows.append([at])
    return [reading for row in rows for _, _, reading in sorted(row, key=lambda place: place[0])]


def _tilt(readings: Sequence[Reading]) -> float:
    """Return the angle in degrees by which most labels are turned, 0 if they lie anyhow."""
    angles = []
    for reading in readings:
        (x, y), (next_x, next_y) = reading.corners[:2]
        turned = degrees(atan2(next_y - y, next_x - x))
        angles.append((turned + SQUARE / 2) % SQUARE - SQUARE / 2)
    middle = median(angles)
    alike = sum(abs(angle - middle) < SAME_TILT for angle in angles)
    return middle if alike >= MOST * len(angles) else 0.0


def _box(reading: Reading, tilt: float) -> tuple[float, float, float, float]:
    """Return left, top, right and bottom of all that was read of a label, turned back."""
    along, across = cos(radians(tilt)), sin(radians(tilt))
    points = [
        (x * along + y * across, y * along - x * across)
        for look in reading.looks
        for x, y in look.corners
    ]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)
