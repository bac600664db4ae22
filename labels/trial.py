"""The test page of a stock: frames where the labels should be, and rulers to measure."""

from pathlib import Path

from labels.column import Row
from labels.drawing import PARTS, Pen
from labels.printer import Printer
from labels.sheet import corner, document, open_page, page_dots
from labels.stock import LabelStock

MM = 1_000
REACH_MM = 3
"""Millimetres that a scale reaches to both sides of a label's edge."""
TICK_UM, LONG_TICK_UM = 1_200, 2_400
"""Lengths of a tick, and of the one at nought or at a centimetre."""
LINE_UM = 100
LONGEST_RULER_MM = 100
RIM_MM = 6
"""White between a ruler's end and the page's edge."""
TYPE_UM = 2_500


def write_test_page(stock: LabelStock, printer: Printer, path: Path) -> int:
    """Write the test page to a PDF at `path`; return the length of its rulers in millimetres.

    It is to be printed at 100 % on the labels themselves. The first and the last label carry
    scales of 3 mm to both sides of their left and top edges: how far right of and below the cut
    edge the nought stands, and how long the rulers come out, go into `Printer.corrected`. Rulers
    have the printer's scale applied, so that a second test page shows what is left.
    """
    shorter = min(stock.page_width_um, stock.page_height_um) // MM - 2 * RIM_MM
    length = max(5, min(LONGEST_RULER_MM, shorter) // 10 * 10)
    with document(stock, printer, path) as canvas:
        open_page(canvas, printer)
        canvas.addLiteral(f"{PARTS * max(1, printer.dots(LINE_UM))} w\n")
        for position in range(1, stock.count + 1):
            canvas.addLiteral(_frame(stock, printer, position))
        for position in sorted({1, stock.count}):
            canvas.addLiteral(_scales(stock, printer, position))
        canvas.addLiteral(_rulers(stock, printer, length))
        width, height = page_dots(stock, printer)
        size = printer.dots(TYPE_UM)
        note = Row(width // 2 + size, height // 2 + size, size, f"{length} mm", bold=False)
        canvas.addLiteral(Pen(canvas).row(note))
        canvas.showPage()
    return length


def _frame(stock: LabelStock, printer: Printer, position: int) -> str:
    """Return a fine frame on the label's edge."""
    x, y = corner(stock, printer, position)
    wide, high = printer.dots(stock.label_width_um), printer.dots(stock.label_height_um)
    return f"{PARTS * x} {PARTS * y} {PARTS * wide} {PARTS * high} re S\n"


def _scales(stock: LabelStock, printer: Printer, position: int) -> str:
    """Return scales across the middle of the label's left edge and of its top edge."""
    x, y = corner(stock, printer, position)
    wide, high = printer.dots(stock.label_width_um), printer.dots(stock.label_height_um)
    ticks = []
    for mm in range(-REACH_MM, REACH_MM + 1):
        aside = printer.dots(mm * MM)
        arm = printer.dots(TICK_UM if mm else LONG_TICK_UM)
        ticks.append(_line(x + aside, y + high // 2 - arm, x + aside, y + high // 2 + arm))
        ticks.append(
            _line(x + wide // 2 - arm, y + high + aside, x + wide // 2 + arm, y + high + aside)
        )
    reach = printer.dots(REACH_MM * MM)
    ticks.append(_line(x - reach, y + high // 2, x + reach, y + high // 2))
    ticks.append(_line(x + wide // 2, y + high - reach, x + wide // 2, y + high + reach))
    return "".join(ticks)


def _rulers(stock: LabelStock, printer: Printer, length: int) -> str:
    """Return a ruler across the page and one down it, through its middle, a tick a millimetre."""
    width, height = page_dots(stock, printer)
    middle_x, middle_y = width // 2, height // 2
    across = [_spread(mm, printer.scale_x_ppm, printer) for mm in range(length + 1)]
    down = [_spread(mm, printer.scale_y_ppm, printer) for mm in range(length + 1)]
    left, top = middle_x - across[-1] // 2, middle_y + down[-1] // 2
    marks = [
        _line(left, middle_y, left + across[-1], middle_y),
        _line(middle_x, top, middle_x, top - down[-1]),
    ]
    for mm, (right, below) in enumerate(zip(across, down, strict=True)):
        arm = printer.dots(TICK_UM if mm % 10 else LONG_TICK_UM)
        marks.append(_line(left + right, middle_y, left + right, middle_y - arm))
        marks.append(_line(middle_x, top - below, middle_x - arm, top - below))
    return "".join(marks)


def _spread(mm: int, scale_ppm: int, printer: Printer) -> int:
    """Return a length in dots with the printer's scale applied."""
    return printer.dots(mm * MM * (1_000_000 + scale_ppm) // 1_000_000)


def _line(from_x: int, from_y: int, to_x: int, to_y: int) -> str:
    """Return a line between two points in dots."""
    return f"{PARTS * from_x} {PARTS * from_y} m {PARTS * to_x} {PARTS * to_y} l S\n"
