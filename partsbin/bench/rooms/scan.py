"""The scan room: the page before the camera, numbers that are typed, and photographs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import Blueprint, request
from flask.typing import ResponseReturnValue

from labels.number import NumberError, validate
from labels.reading.acceptance import known
from labels.reading.errors import PictureError
from labels.reading.pictures import unpack
from partsbin.bench.answers import (
    Answer,
    Mode,
    Orders,
    State,
    orders_of,
    seen_once,
    take,
    unreadable,
    which,
)
from partsbin.bench.rooms import scan_count, scan_frames
from partsbin.bench.rooms.scan_page import answered, scanner
from partsbin.bench.shop import record, shop
from partsbin.bench.telling import plainly
from partsbin.errors import PartsbinError, UsageError
from partsbin.workshop.scanning import exists, in_reading_order

if TYPE_CHECKING:
    from collections.abc import Sequence

    from labels.number import LabelNumber
    from labels.reading.look import Reading

room = Blueprint("scan", __name__, url_prefix="/scan")
LARGEST_PHOTOGRAPH = 64_000_000
"""Pixels: the largest that phones make."""
MOST_LOOKED_UP = 60
"""Labels of one photograph that are shown."""


@room.get("/")
def page() -> ResponseReturnValue:
    """Show the scanner, set to look up, to put onto a bike or into a bin, or to count a bin."""
    try:
        with record().reading() as session:
            orders = orders_of(session, request.args)
    except PartsbinError as fault:
        mode = request.args.get("mode", "")
        orders = Orders(Mode(mode))
        return scanner(orders, [unreadable(plainly(fault))]), 404
    return scanner(orders)


@room.post("/number")
def number() -> ResponseReturnValue:
    """Do what is ordered with a number that was typed, sent by a keyboard scanner, or chosen."""
    orders = _ordered()
    try:
        typed = validate(request.form.get("number", ""))
    except NumberError as fault:
        return answered(orders, [unreadable(str(fault))])
    watch = request.form.get("watch", "")
    scan_frames.settled(watch, typed)
    return answered(orders, [take(record(), orders, typed)], _lines(orders, typed), watch)


def _ordered() -> Orders:
    with record().reading() as session:
        return orders_of(session, request.form)


def _lines(orders: Orders, *numbers: str) -> str:
    """Return the list of a count with more numbers at its end."""
    if orders.mode is not Mode.COUNT:
        return ""
    before = request.form.get("lines", "").rstrip()
    return "\n".join([*([before] if before else []), *numbers])


@room.post("/picture")
def picture() -> ResponseReturnValue:
    """Do what is ordered with the labels in a photograph."""
    orders = _ordered()
    sent = request.files.get("picture")
    if sent is None or not sent.filename:
        raise UsageError("choose a photograph, or take one")
    try:
        grey = unpack(sent.read(), "the picture", LARGEST_PHOTOGRAPH)
    except PictureError as fault:
        return answered(orders, [unreadable(str(fault))], _lines(orders))
    readings = in_reading_order(shop().watches.still(grey))
    if not readings:
        told = "no label was found; fill the picture with it, hold it flat and mind the light"
        return answered(orders, [unreadable(told)], _lines(orders))
    if orders.mode is Mode.COUNT and orders.to:
        found = [f"{one.number}{'' if _agreed(one) else '?'}" for one in readings]
        told = f"labels in the picture: {len(readings)}; they are at the end of the list"
        return answered(orders, [Answer(State.SHOWN, told)], _lines(orders, *found))
    if orders.mode is Mode.LOOK:
        shown = [take(record(), orders, one.number) for one in readings[:MOST_LOOKED_UP]]
        return answered(orders, shown)
    return answered(orders, _acted_on(orders, readings))


def _acted_on(orders: Orders, readings: Sequence[Reading]) -> list[Answer]:
    """Act on the one label that two looks agree on; of several, ask which is meant.

    Of a photograph a look is one symbol or one decoder; both must agree.
    """
    with record().reading() as session:
        there = known(readings, lambda found: exists(session, found))
    sure: list[LabelNumber] = [one.number for one in there if _agreed(one)]
    if len(sure) > 1:
        return [which(record(), sure)]
    if sure and len(there) == 1:
        return [take(record(), orders, sure[0])]
    return [seen_once(one.number) for one in there or readings if not _agreed(one)] or [
        take(record(), orders, readings[0].number)
    ]


def _agreed(reading: Reading) -> bool:
    return len(reading.symbols) > 1 or len(reading.decoders) > 1


room.post("/frame")(scan_frames.frame)
room.post("/count")(scan_count.count)
room.post("/count/write", endpoint="write_count")(scan_count.write)
