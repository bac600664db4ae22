"""The layout of a bin's label: name and number are read from two metres away.

Letters are read at about 300 times the height of a capital (common practice, no source), so at
2 m a capital has to be 6.7 mm high; we ask for 7.
"""

from collections.abc import Iterator

from labels.lettering import CAP, DESCENT
from labels.plan import QR_MODULES, Box, NumberRows, Plan, Room, Words

LEAST_CAPITAL_UM = 7_000
CAPITALS_UM = (7_000, 8_000, 9_000, 10_000, 12_000, 14_000, 18_000, 24_000)
"""Heights of the number to try."""
NAME_HEIGHT = CAP + DESCENT
"""Least height of the name's box, in ems of its least size."""
NAME_EMS = 3
"""Least width of the name in ems of its least size: about 4 letters."""
QR_LEAST_UM = 500
LINE_POINTS = 10.0


def candidates(room: Room) -> Iterator[tuple[float, Plan]]:
    """Return ways to lay out the label of a bin, each with its worth."""
    name = room.printer.whole_dots(round(LEAST_CAPITAL_UM / CAP))
    line = room.points(LINE_POINTS)
    for capital in CAPITALS_UM:
        number = room.printer.whole_dots(round(capital / CAP))
        for rows in {1, room.groups}:
            yield from _beside(room, number, rows, (name, line))
        for unit in room.x_dimensions():
            yield from _over_bars(room, number, unit, (name, line))


def _beside(
    room: Room, number: int, rows: int, sizes: tuple[int, int]
) -> Iterator[tuple[float, Plan]]:
    """Return a QR at the left, and right of it the name over the number; no bars."""
    name, line = sizes
    inside = room.inside
    wide = max(room.number_width(number, rows), NAME_EMS * name)
    unit = room.qr_unit(inside.width - wide, inside.height)
    right = inside.right_of(unit * QR_MODULES, 0)
    high = NumberRows.height(number, rows)
    words = Words(right.above(high, room.gap), name, line)
    if unit >= room.printer.whole_dots(QR_LEAST_UM) and words.box.height >= NAME_HEIGHT * name:
        box = Box(right.x, right.y, right.width, high)
        plan = Plan(qr=room.qr_at(inside, unit), number=NumberRows(box, number, rows), words=words)
        yield number * unit**0.5 / rows, plan


def _over_bars(
    room: Room, number: int, unit: int, sizes: tuple[int, int]
) -> Iterator[tuple[float, Plan]]:
    """Return QR and name over the number over the bars."""
    name, line = sizes
    inside = room.inside
    bars = max(room.bars_height(unit), inside.height * 15 // 100)
    high = NumberRows.height(number, 1)
    top = inside.above(bars + high, 2 * room.gap)
    qr = room.qr_unit(inside.width - NAME_EMS * name, top.height)
    wide = max(room.number_width(number, 1), room.bars_modules_with_quiet * unit)
    words = Words(top.right_of(qr * QR_MODULES, 0).above(room.gap, 0), name, line)
    fits = wide <= inside.width and words.box.height >= NAME_HEIGHT * name
    if fits and qr >= room.printer.whole_dots(QR_LEAST_UM):
        box = Box(inside.x, inside.y, inside.width, bars)
        plan = Plan(
            qr=room.qr_at(top, qr),
            bars=room.bars_at(box, unit),
            number=NumberRows(
                Box(inside.x, inside.y + bars + room.gap, inside.width, high), number, 1
            ),
            words=words,
        )
        yield BARS_WORTH * number * (qr * unit / room.x_dimensions()[0]) ** 0.5, plan


BARS_WORTH = 1.5
"""Bars beside the QR are worth some size: they survive the scratches that a QR does not."""
