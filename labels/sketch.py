"""A label stock drawn with letters, for a terminal: which label is which number.

>>> from labels.stock import load
>>> print(sketch(load("a4-3x8-70x37")))
┌────┬────┬────┐
│  1 │  2 │  3 │
├────┼────┼────┤
│  4 │  5 │  6 │
╎    ╎    ╎    ╎
│ 22 │ 23 │ 24 │
└────┴────┴────┘
24 labels of 70 x 37 mm on a sheet of 210 x 297 mm
>>> print(sketch(load("roll-57x32")))
┌────┐
│  1 │
└────┘
labels of 57 x 32 mm on a roll
"""

from labels.stock import LabelStock

MOST_ROWS = 3
"""Rows that are drawn before some in the middle are left out."""


def sketch(stock: LabelStock) -> str:
    """Return the stock as lines of text: its labels with their positions, and its measures."""
    cell = max(4, round(2 * stock.label_width_um / stock.label_height_um))
    rows = [
        "│".join(
            f"{row * stock.columns + column + 1}".center(cell) for column in range(stock.columns)
        )
        for row in range(stock.rows)
    ]
    lines = [_rule("┌┬┐", cell, stock.columns)]
    for at, row in enumerate(rows if stock.rows <= MOST_ROWS else [rows[0], rows[1], rows[-1]]):
        if at == 2 and stock.rows > MOST_ROWS:
            lines.append("╎" + "╎".join([" " * cell] * stock.columns) + "╎")
        elif at:
            lines.append(_rule("├┼┤", cell, stock.columns))
        lines.append(f"│{row}│")
    lines.append(_rule("└┴┘", cell, stock.columns))
    size = f"labels of {_mm(stock.label_width_um)} x {_mm(stock.label_height_um)} mm"
    page = f"{_mm(stock.page_width_um)} x {_mm(stock.page_height_um)} mm"
    lines.append(
        f"{size} on a roll" if stock.roll else f"{stock.count} {size} on a sheet of {page}"
    )
    return "\n".join(lines)


def _rule(ends: str, cell: int, columns: int) -> str:
    """Return a line between rows: left end, crossing, right end."""
    return ends[0] + ends[1].join(["─" * cell] * columns) + ends[2]


def _mm(length_um: int) -> str:
    """Return a length in millimetres without noughts at its end."""
    return f"{length_um / 1000:g}"
