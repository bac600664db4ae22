"""The layout of a bin's label: name and number are read from two metres away, or the name is.

Letters are read at about 300 times the height of a capital (common practice, no source), so at
2 m a capital has to be 6.7 mm high; we ask for 7.
"""

from collections.abc import Iterator

from labels.lettering import CAP, DESCENT
from labels.plan import (
    LEADING,
    POINT_UM,
    QR_MODULE_UM,
    QR_MODULES,
    Box,
    NumberRows,
    Plan,
    Room,
    Words,
)

LEAST_CAPITAL_UM = 7_000
CAPITALS_UM = (7_000, 8_000, 9_000, 10_000, 12_000, 14_000, 18_000, 24_000)
"""Heights of the number to try."""
NEAR_POINTS = (8, 10, 12, 14, 17)
"""Sizes to try of a number that is read at arm's length."""
NAME_HEIGHT = CAP + DESCENT
"""Least height of the name's box, in ems of its least size."""
NAME_EMS = 2.5
"""Least width of the name in ems of its least size: about 4 letters."""
LINE_POINTS = 10.0


def far(room: Room) -> Iterator[tuple[float, Plan]]:
    """Return ways to lay out the label of a bin, each with its worth: all is read from afar."""
    for worth, plan in _with_numbers(room, [round(capital / CAP) for capital in CAPITALS_UM]):
        if plan.words and _lines(plan.words):
            yield worth, plan


def near(room: Room) -> Iterator[tuple[float, Plan]]:
    """Return the same for smaller labels: the name is read from afar, the number at arm's length.

    >>> from labels.label import Shape
    >>> from labels.printer import Printer
    >>> room = Room(Box(0, 0, 370, 176), Printer(dpi="203.2"), Shape.BIN, 8, False)
    >>> len(list(far(room))), len(list(near(room))) > 0
    (0, True)
    """
    return _with_numbers(room, [round(points * POINT_UM) for points in NEAR_POINTS])


def _with_numbers(room: Room, sizes_um: list[int]) -> Iterator[tuple[float, Plan]]:
    name = room.printer.whole_dots(round(LEAST_CAPITAL_UM / CAP))
    line = room.points(LINE_POINTS)
    for number in map(room.printer.whole_dots, sizes_um):
        yield from _beside(room, number, (name, line))
        for unit in room.x_dimensions():
            yield from _over_bars(room, number, unit, (name, line))


def _beside(room: Room, number: int, sizes: tuple[int, int]) -> Iterator[tuple[float, Plan]]:
    """Return a QR at the left, and right of it the name over the number; no bars."""
    name, line = sizes
    inside = room.inside
    wide = max(room.number_width(number, 1), round(NAME_EMS * name))
    unit = room.qr_unit(inside.width - wide, inside.height)
    right = inside.right_of(unit * QR_MODULES, 0)
    high = NumberRows.height(number, 1)
    words = room.words(right.above(high, room.gap), name, line)
    if unit >= room.printer.whole_dots(QR_MODULE_UM[0]) and words.box.height >= NAME_HEIGHT * name:
        box = Box(right.x, right.y, right.width, high)
        plan = Plan(qr=room.qr_at(inside, unit), number=NumberRows(box, number, 1), words=words)
        yield LINES_WORTH[_lines(words)] * number * unit**0.5, plan


def _over_bars(
    room: Room, number: int, unit: int, sizes: tuple[int, int]
) -> Iterator[tuple[float, Plan]]:
    """Return QR and name over the number over the bars."""
    name, line = sizes
    inside = room.inside
    bars = max(room.bars_height(unit), inside.height * 15 // 100)
    high = NumberRows.height(number, 1)
    top = inside.above(bars + high, 2 * room.gap)
    qr = room.qr_unit(inside.width - round(NAME_EMS * name), top.height)
    wide = max(room.number_width(number, 1), room.bars_modules_with_quiet * unit)
    words = room.words(top.right_of(qr * QR_MODULES, 0).above(room.gap, 0), name, line)
    fits = wide <= inside.width and words.box.height >= NAME_HEIGHT * name
    if fits and qr >= room.printer.whole_dots(QR_MODULE_UM[0]):
        box = Box(inside.x, inside.y, inside.width, bars)
        above = Box(inside.x, inside.y + bars + room.gap, inside.width, high)
        plan = Plan(
            qr=room.qr_at(top, qr),
            bars=room.bars_at(box, unit),
            number=NumberRows(above, number, 1),
            words=words,
        )
        symbols = (qr * unit / room.x_dimensions()[0]) ** 0.5
        yield LINES_WORTH[_lines(words)] * BARS_WORTH * number * symbols, plan


def _lines(words: Words) -> int:
    """Return for how many lines there is room under a name of the least size, 3 at most."""
    rows = int((words.box.height - NAME_HEIGHT * words.title) / (LEADING * words.line))
    return min(rows, len(LINES_WORTH) - 1)


BARS_WORTH = 1.5
"""Bars beside the QR are worth some size: they survive the scratches that a QR does not."""

LINES_WORTH = (1.0, 1.7, 2.4, 2.7)
"""Worth of a label by the lines that have room under a name of the least size: what the bin is
for is asked more often than its number is read from farther than two metres."""
