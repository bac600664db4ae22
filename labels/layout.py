"""Which layout a label gets, from its size; never one that is clipped or too small to read.

Labels of parts, lots and bikes: bars, QR and words where there is room; QR and words on smaller
labels; on the smallest the QR and the number. Bins: see `bin_layout`.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache

from labels import bin_layout
from labels import stock as stocks
from labels.label import Shape
from labels.plan import (
    MARGIN_UM,
    QR_LEAST_MODULE_UM,
    QR_MODULE_UM,
    QR_MODULES,
    SMALL_MARGIN_UM,
    SMALL_UM,
    Box,
    NumberRows,
    Plan,
    Room,
    Symbol,
    Words,
)
from labels.printer import Printer
from labels.stock import LabelStock

TITLE_POINTS, LINE_POINTS, NUMBER_POINTS = 10.0, 8.0, 10.0
SCALES = (3.0, 2.5, 2.0, 1.7, 1.45, 1.25, 1.1, 1.0, 0.9, 0.8)
"""Type sizes to try. The last gives titles of 8, lines of 6.4 and numbers of 8 points: the least
that is read at arm's length in bad light (common practice, no source)."""
LEAST_NUMBER_POINTS = 8.0
LINE_EMS = 7
"""Least width of the words, in ems of a line: about 14 letters."""
PLENTY_EMS = 40
"""Room for words, in ems of a line over all rows, past which more is not worth smaller type."""
SCALE_WEIGHT, SYMBOL_WEIGHT = 0.5, 0.8
"""How much the size of type and of symbols count when candidates are compared."""

HOLE_UM = 5_000
"""Diameter of the hole for the cable tie."""
HOLE_ZONE_UM = 8_000

LEAST_MARK_UM = 3_000
"""Least height of the caution mark."""

SUGGESTIONS = 3


class DoesNotFit(ValueError):  # noqa: N818 - the fault is the name
    """The label is too small for what must be on it; the sentence names stocks that would do."""


@cache
def plan_for(stock: LabelStock, printer: Printer, shape: Shape, digits: int, caution: bool) -> Plan:
    """Return where things stand on a label of the stock.

    `digits` is the length of the number. Raises DoesNotFit where not even QR and number go.
    """
    plan = _attempt(stock, printer, shape, digits, caution)
    if plan is None:
        others = _stocks_that_do(stock, printer, shape, digits, caution)
        hint = f"use {' or '.join(others)}." if others else "use a larger label."
        raise DoesNotFit(
            f"A {shape.value} label does not fit on {stock.name} "
            f"({stock.label_width_um / 1000:g} x {stock.label_height_um / 1000:g} mm) "
            f"at {printer.dpi} dots per inch without becoming hard to read: {hint}"
        )
    return plan


def _stocks_that_do(
    stock: LabelStock, printer: Printer, shape: Shape, digits: int, caution: bool
) -> list[str]:
    """Return names of the smallest stocks of the same media that take the label."""
    same = [
        other
        for other in stocks.bundled()
        if other.roll == stock.roll
        and (stock.roll or other.page_width_um == stock.page_width_um)
        and _attempt(other, printer, shape, digits, caution)
    ]
    same.sort(key=lambda other: other.label_width_um * other.label_height_um)
    return [other.name for other in same[:SUGGESTIONS]]


@cache
def _attempt(
    stock: LabelStock, printer: Printer, shape: Shape, digits: int, caution: bool
) -> Plan | None:
    """Return the first layout that fits, the fullest first, or None."""
    width, height = printer.dots(stock.label_width_um), printer.dots(stock.label_height_um)
    small = min(stock.label_width_um, stock.label_height_um) < SMALL_UM
    margin = SMALL_MARGIN_UM if small else MARGIN_UM
    rims = stock.rims(printer.edge_um)
    rim_x, rim_y = (printer.whole_dots(max(margin, rim)) for rim in rims)
    inside = Box(rim_x, rim_y, width - 2 * rim_x, height - 2 * rim_y)
    hole = None
    if shape is Shape.BIKE:
        inside, hole = _hole(inside, printer)
    room = Room(inside, printer, shape, digits, caution)
    makers: tuple[Callable[[Room], Iterator[tuple[float, Plan]]], ...] = (_full, _square, _bare)
    if shape is Shape.BIN:
        makers = (bin_layout.far, bin_layout.near)
    for maker in makers:
        best = max(maker(room), key=lambda candidate: candidate[0], default=None)
        if best is not None:
            return replace(best[1], hole=hole)
    return None


def _hole(inside: Box, printer: Printer) -> tuple[Box, tuple[int, int, int]]:
    """Return what is left of the label beside the hole of a tag, and the hole's centre and radius.

    The hole is at the left of a wide tag and at the top of a high one.
    """
    zone = printer.dots(HOLE_ZONE_UM)
    radius = printer.dots(HOLE_UM) // 2
    if inside.width >= inside.height:
        centre = inside.x + zone // 2, inside.y + inside.height // 2
        return inside.right_of(zone, 0), (*centre, radius)
    centre = inside.x + inside.width // 2, inside.y + inside.height - zone // 2
    return inside.below_top(zone, 0), (*centre, radius)


def _marked(room: Room, words: Words) -> tuple[Words, Box | None]:
    """Return the words, with room for a caution mark before the title, and the mark's box."""
    if not room.caution:
        return words, None
    high = words.title * 11 // 10
    wide = _mark_width(high)
    top = words.box.y + words.box.height
    marked = replace(words, indent=wide + words.title // 3, mark=high)
    return marked, Box(words.box.x, top - high, wide, high)


def _sizes(room: Room) -> Iterator[tuple[float, int, int, int]]:
    """Return the scales to try with the dots of title, line and number."""
    for scale in SCALES:
        yield (
            scale,
            room.points(scale * TITLE_POINTS),
            room.points(scale * LINE_POINTS),
            room.points(scale * NUMBER_POINTS),
        )


def _worth(scale: float, words: Words) -> float:
    """Return what type of that scale in that box is worth: large, but with room for the words."""
    ems = (words.rows + 1) * words.box.width / words.line
    return float(scale**SCALE_WEIGHT) * min(1.0, ems / PLENTY_EMS)


def _full(room: Room) -> Iterator[tuple[float, Plan]]:
    """Return ways to put bars, QR, words and number on the label, each with its worth."""
    for scale, title, line, number in _sizes(room):
        for unit in room.x_dimensions():
            wide = max(room.bars_modules_with_quiet * unit, room.number_width(number, 1))
            high = max(room.bars_height(unit), room.inside.height * 22 // 100)
            block = high + room.gap + NumberRows.height(number, 1)
            for plan in (
                _beside(room, wide, block, (title, line)),
                _under(room, wide, block, (title, line)),
            ):
                if plan is None:
                    continue
                qr, bars, words = plan
                words, mark = _marked(room, words)
                if words.rows < 2 or words.box.width < LINE_EMS * line + words.indent:
                    continue
                bottom = Box(bars.x, bars.y, bars.width, NumberRows.height(number, 1))
                symbol = room.bars_at(bars.above(bottom.height, room.gap), unit)
                left = min(symbol.x, bars.x + bars.width - room.number_width(number, 1))
                number_box = Box(left, bars.y, bars.width, bottom.height)
                yield (
                    _worth(scale, words) * (unit * qr.unit) ** SYMBOL_WEIGHT,
                    Plan(
                        qr=qr,
                        bars=symbol,
                        number=NumberRows(number_box, number, 1),
                        words=words,
                        caution=mark,
                    ),
                )


def _beside(
    room: Room, wide: int, block: int, type_sizes: tuple[int, int]
) -> tuple[Symbol, Box, Words] | None:
    """Return a QR at the left, and right of it words over bars."""
    title, line = type_sizes
    inside = room.inside
    unit = room.qr_unit(inside.width - max(wide, LINE_EMS * line), inside.height)
    if unit < room.printer.whole_dots(QR_MODULE_UM[0]):
        return None
    right = inside.right_of(unit * QR_MODULES, 0)
    words = room.words(right.above(block, room.gap), title, line)
    return room.qr_at(inside, unit), Box(right.x, right.y, right.width, block), words


def _under(
    room: Room, wide: int, block: int, type_sizes: tuple[int, int]
) -> tuple[Symbol, Box, Words] | None:
    """Return a QR with words right of it, and bars under both."""
    title, line = type_sizes
    inside = room.inside
    top = inside.above(block, 0)
    unit = room.qr_unit(inside.width - LINE_EMS * line, top.height)
    if wide > inside.width or unit < room.printer.whole_dots(QR_MODULE_UM[0]):
        return None
    words = room.words(top.right_of(unit * QR_MODULES, 0).above(room.gap, 0), title, line)
    return room.qr_at(top, unit), Box(inside.x, inside.y, inside.width, block), words


def _square(room: Room) -> Iterator[tuple[float, Plan]]:
    """Return ways to put the QR at the left and words over the number right of it."""
    inside = room.inside
    for scale, title, line, number in _sizes(room):
        wide = max(room.number_width(number, 1), LINE_EMS * line)
        unit = room.qr_unit(inside.width - wide, inside.height)
        right = inside.right_of(unit * QR_MODULES, 0)
        high = NumberRows.height(number, 1)
        words, mark = _marked(room, room.words(right.above(high, room.gap), title, line))
        if unit >= room.printer.whole_dots(QR_MODULE_UM[0]) and words.rows >= 1:
            rows = NumberRows(Box(right.x, right.y, right.width, high), number, 1)
            plan = Plan(qr=room.qr_at(inside, unit), number=rows, words=words, caution=mark)
            yield _worth(scale, words) * unit**SYMBOL_WEIGHT, plan


def _bare(room: Room) -> Iterator[tuple[float, Plan]]:
    """Return ways to put just the QR and the number, beside or under it, after the mark."""
    inside = room.inside
    least = room.printer.whole_dots(QR_LEAST_MODULE_UM)
    mark = room.printer.whole_dots(LEAST_MARK_UM) if room.caution else 0
    aside = mark and _mark_width(mark) + mark // 3
    for scale in SCALES:
        size = room.points(scale * LEAST_NUMBER_POINTS / SCALES[-1])
        for rows in {1, room.groups}:
            wide = aside + room.number_width(size, rows)
            high = max(mark, NumberRows.height(size, rows))
            unit = room.qr_unit(inside.width - wide, inside.height)
            if unit >= least and high <= inside.height:
                right = inside.right_of(unit * QR_MODULES, 0)
                box = Box(right.x, right.y + (right.height - high) // 2, wide, high)
                yield scale * unit, _bare_plan(room.qr_at(inside, unit), box, (size, rows, mark))
        wide = aside + room.number_width(size, 1)
        high = max(mark, NumberRows.height(size, 1))
        unit = room.qr_unit(inside.width, inside.height - high)
        if unit >= least and wide <= inside.width:
            box = Box(inside.x + (inside.width - wide) // 2, inside.y, wide, high)
            left = inside.x + (inside.width - unit * QR_MODULES) // 2
            square = Box(left, inside.y + high, unit * QR_MODULES, inside.height - high)
            yield scale * unit, _bare_plan(room.qr_at(square, unit), box, (size, 1, mark))


def _bare_plan(qr: Symbol, box: Box, sizes: tuple[int, int, int]) -> Plan:
    """Return a QR and, in the box, the mark and right of it the number, both half way up."""
    size, rows, mark = sizes
    high = NumberRows.height(size, rows)
    wide = _mark_width(mark)
    number = Box(box.x, box.y + (box.height - high) // 2, box.width, high)
    if not mark:
        return Plan(qr=qr, number=NumberRows(number, size, rows))
    return Plan(
        qr=qr,
        number=NumberRows(number.right_of(wide, mark // 3), size, rows),
        caution=Box(box.x, box.y + (box.height - mark) // 2, wide, mark),
    )


def _mark_width(high: int) -> int:
    """Return the width of a caution mark of that height: its sides are equally long."""
    return high * 8 // 7
