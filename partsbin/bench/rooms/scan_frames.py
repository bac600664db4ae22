"""The live picture: each frame that the browser sends is read, judged and answered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import abort, request
from flask.typing import ResponseReturnValue

from labels.reading.acceptance import Act, Ask, Unknown
from labels.reading.errors import PictureError
from labels.reading.pictures import unpack
from partsbin.bench.answers import Answer, orders_of, take, which
from partsbin.bench.guard import MEGABYTE
from partsbin.bench.rooms.scan_page import in_parts
from partsbin.bench.shop import record, shop
from partsbin.errors import UsageError
from partsbin.workshop.scanning import exists

if TYPE_CHECKING:
    from labels.number import LabelNumber
    from labels.reading.acceptance import Decision
    from partsbin.bench.answers import Orders
    from partsbin.bench.watches import Watch
    from partsbin.stock.database import Database

LARGEST_FRAME = 2 * MEGABYTE
MOST_PIXELS = 4_000_000
"""Of a frame; a camera is asked for 1280 x 720."""


def frame() -> ResponseReturnValue:
    """Read one frame, and say what stands in it and what was done about it."""
    if (request.content_length or 0) > LARGEST_FRAME:
        abort(413)
    database = record()
    with database.reading() as session:
        orders = orders_of(session, request.args)
    try:
        grey = unpack(request.get_data(), "the camera's picture", MOST_PIXELS)
    except PictureError as fault:
        raise UsageError(str(fault)) from fault
    name, watch = _watch(request.args.get("watch", ""), database)
    with watch.lock:
        readings = watch.reader.live(grey)
        decision = watch.acceptance.frame(readings)
        answers = _answers(decision, orders, watch, database)
    high, wide = grey.shape
    labels = [{"number": one.number, "corners": one.corners} for one in readings]
    answer = in_parts(orders, answers, name)
    return {"watch": name, "size": [wide, high], "labels": labels, "answer": answer}


def _watch(name: str, database: Database) -> tuple[str, Watch]:
    """Return the watch of that name; a new one if it has ended, or none was there yet."""

    def there(number: LabelNumber) -> bool:
        with database.reading() as session:
            return exists(session, number)

    open_ = shop().watches.get(name)
    return (name, open_) if open_ is not None else shop().watches.start(there)


def _answers(
    decision: Decision | None, orders: Orders, watch: Watch, database: Database
) -> list[Answer]:
    """Do what the acceptance allows. Where nothing is moved, several labels at once are welcome."""
    if isinstance(decision, Act | Unknown):
        return [take(database, orders, decision.number)]
    if not isinstance(decision, Ask):
        return []
    if orders.acts:
        return [which(database, decision.numbers)]
    watch.acceptance.choose(decision.numbers[0])
    return [take(database, orders, number) for number in decision.numbers]


def settled(name: str, number: LabelNumber) -> None:
    """Keep a camera from acting again on what its user chose by hand."""
    watch = shop().watches.get(name)
    if watch is not None:
        with watch.lock:
            watch.acceptance.choose(number)
