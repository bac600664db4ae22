"""An honest advertisement from the record, for the user to edit: nothing that is not recorded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from partsbin.kinds.forms.form import Value
from partsbin.kinds.spec import in_words
from partsbin.standards.length import Length
from partsbin.standards.rider_heights import INCH_UM, STANDOVER, riders
from partsbin.stock.bikes import bike_named
from partsbin.stock.errors import RefusedError
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.stock.words import Condition, Grade
from partsbin.workshop.mounting import needs
from partsbin.workshop.presale import GONE, checklist

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.lookup import Mounted
    from partsbin.stock.models import Bike
    from partsbin.workshop.presale import Checklist

USED = {Grade.GOOD: "good", Grade.FAIR: "fair", Grade.POOR: "poor", Grade.CORE: "for its pieces"}

CLOSING = (
    "This is what the workshop recorded, not a guarantee. Ride it before you buy, have anything "
    "that you are not sure of looked at by a qualified mechanic, and follow local rules."
)


def listing(session: Session, bike_name: str) -> str:
    """Return the text of an advertisement for a bike, in paragraphs.

    Raises `RefusedError` for a bike that is sold or was taken apart.
    """
    bike = bike_named(session, bike_name)
    if bike.state in GONE:
        raise RefusedError(f"{bike.name} is {bike.state}; there is nothing to advertise")
    on_bike = mounted(session, BikeId(bike.id))
    parts = [
        _head(bike, on_bike),
        _size(bike, on_bike),
        _new(on_bike),
        _used(on_bike),
        _checked(checklist(session, bike.number)),
        _faults(on_bike),
        _number(bike),
        CLOSING,
    ]
    return "\n\n".join(part for part in parts if part)


def both_units(length: Length) -> str:
    """Return a length in centimetres and inches.

    >>> both_units(Length(520000))
    '52.0 cm (20.5 in)'
    """
    inches = Decimal(length) / INCH_UM
    return f"{Decimal(length) / 10_000:.1f} cm ({inches:.1f} in)"


def _frame(on_bike: Sequence[Mounted]) -> Mounted | None:
    return next((part for part in on_bike if part.slot == "frame"), None)


def _length(value: Value | None) -> Length | None:
    return Length(value) if isinstance(value, int) and not isinstance(value, bool) else None


def _head(bike: Bike, on_bike: Sequence[Mounted]) -> str:
    frame = _frame(on_bike)
    style = bike.style or (str(frame.spec.get("style") or "") if frame else "")
    told = f"{style} bike" if style else "bike"
    material = frame.spec.get("material") if frame else None
    told = told[0].upper() + told[1:]
    return f"{told}, {in_words(str(material))} frame" if material else told


def _size(bike: Bike, on_bike: Sequence[Mounted]) -> str:
    frame = _frame(on_bike)
    if frame is None:
        return ""
    names = {
        "seat_tube_length_mm": "seat tube",
        "top_tube_length_mm": "top tube",
        "standover_mm": "standover height",
    }
    known = {n: length for n in names if (length := _length(frame.spec.get(n))) is not None}
    if not known:
        return "Size: not measured."
    lines = ["Size: " + ", ".join(f"{names[n]} {both_units(v)}" for n, v in known.items()) + "."]
    style = str(frame.spec.get("style") or bike.style).lower()
    if "seat_tube_length_mm" in known:
        lines += _riders(style, known["seat_tube_length_mm"])
    if "standover_mm" in known:
        leg = Length(known["standover_mm"] + STANDOVER)
        lines.append(
            f"To stand over it with {both_units(STANDOVER)} to spare (16 CFR 1512.19, for new "
            f"bikes) takes an inside leg of {both_units(leg)} or more."
        )
    return "\n".join(lines)


def _riders(style: str, seat_tube: Length) -> Iterator[str]:
    found = riders(style, seat_tube)
    if found is None:
        return
    height = _range(found.height_from, found.height_to)
    leg = f", inside leg {_range(found.leg_from, found.leg_to)}" if found.leg_from else ""
    yield f"Suits riders of about {height}{leg}; tables differ (this one: {found.source})."


def _range(low: int, high: int) -> str:
    """Return a range in centimetres and in feet and inches, open at the top without a limit."""
    if not high:
        return f"{low} cm ({_feet(low)}) or more"
    return f"{low} to {high} cm ({_feet(low)} to {_feet(high)})"


def _feet(centimetres: int) -> str:
    inches = round(Decimal(centimetres) / Decimal("2.54"))
    feet, left = divmod(inches, 12)
    return f"{feet} ft {left}"


def _new(on_bike: Sequence[Mounted]) -> str:
    new = [part for part in on_bike if part.grade is Grade.NEW]
    return f"New: {_names(new)}." if new else ""


def _used(on_bike: Sequence[Mounted]) -> str:
    lines = []
    for grade, word in USED.items():
        graded = [part for part in on_bike if part.grade is grade]
        if graded:
            lines.append(f"Used, {word}: {_names(graded)}.")
    return "\n".join(lines)


def _names(parts: Sequence[Mounted]) -> str:
    return ", ".join(part.slot or in_words(part.spec.kind) for part in parts)


def _checked(listed: Checklist) -> str:
    by: dict[str, list[str]] = {}
    for checked in listed.items:
        if checked.passed and checked.at is not None:
            day = f"{checked.at.astimezone():%Y-%m-%d}"
            by.setdefault(f"{checked.by} on {day}", []).append(checked.item.word)
    lines = [f"Looked at by {who} and found in order: {', '.join(i)}." for who, i in by.items()]
    left = [checked.item.word for checked in listed.items if not checked.passed]
    if left:
        lines.append(f"Not checked, or not in order: {', '.join(left)}.")
    failed = [c for c in listed.items if c.ok is False and not c.void]
    lines += [f"Fault, {c.item.word}: {c.note}." for c in failed]
    return "\n".join(lines)


def _faults(on_bike: Sequence[Mounted]) -> str:
    lines = [
        f"{part.slot or in_words(part.spec.kind)}: {part.note}" for part in on_bike if part.note
    ]
    lines += [
        f"{part.slot or in_words(part.spec.kind)}: {part.condition}"
        for part in on_bike
        if part.condition is not Condition.SOUND
    ]
    lines += [f"{slot.name}: missing" for slot, why in needs(list(on_bike)) if why == "empty"]
    if not lines:
        return "No faults are on record."
    return "Known of it:\n" + "\n".join(f"- {line}" for line in lines)


def _number(bike: Bike) -> str:
    if bike.serial_checked:
        where = f"{bike.serial_number} " if bike.serial_number else ""
        return (
            f"Its frame number {where}was looked up in a register of stolen bikes; that proves "
            "nothing of thefts that nobody reported."
        )
    return "Its frame number was not looked up in a register of stolen bikes."
