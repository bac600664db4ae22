"""The words of a label broken into rows that fit their box."""

from dataclasses import dataclass

from labels.label import Label, Shape
from labels.lettering import CAP, DESCENT, flowed, shortened, tidy, width, wrapped
from labels.plan import LEADING, Words

NAME_STEP = 0.94
"""From one type size of a bin's name to the next smaller one that is tried."""
NAME_LEADING = 1.08
STATUS_GAP = 0.7
"""White between the bin and the grade, in ems."""
TITLE_ROWS = 2


@dataclass(frozen=True, slots=True)
class Row:
    """One row of type: where its baseline starts and how high it is, in dots."""

    x: int
    y: int
    size: int
    text: str
    bold: bool


def composed(label: Label, words: Words) -> tuple[Row, ...]:
    """Return the rows of a label's words; nothing of them stands outside the box of `words`."""
    return upper(*upper_part(label, words), words) + lower(*lower_part(label, words), words)


def upper_part(label: Label, words: Words) -> tuple[Shape, str, tuple[str, ...], int]:
    """Return what the upper rows of the label are made of: shape, title, lines, rows for them."""
    last = tuple(text for text in (label.grade, label.bin_name) if text)
    if label.shape is Shape.BIN:
        return label.shape, label.title, label.lines, words.rows
    if words.rows < 2:
        return label.shape, label.title, label.lines + last, words.rows
    return label.shape, label.title, label.lines, words.rows - bool(last)


def lower_part(label: Label, words: Words) -> tuple[str, str]:
    """Return what the last row of the label is made of: grade and bin, if they have a row."""
    if label.shape is Shape.BIN or words.rows < 2:
        return "", ""
    return label.grade, label.bin_name


def upper(
    shape: Shape, title: str, lines: tuple[str, ...], rows: int, words: Words
) -> tuple[Row, ...]:
    """Return title and lines, the lines on at most `rows` rows."""
    if shape is Shape.BIN:
        return _name(title, lines, words)
    return _head(title, lines, words, rows)


def _head(title: str, lines: tuple[str, ...], words: Words, rows: int) -> tuple[Row, ...]:
    """Return the title and the lines under it, on at most `rows` rows besides the title."""
    box = words.box
    room = (box.width - words.indent) / words.title
    # A second row of title costs about two rows of lines: only where there are enough.
    titles = wrapped(tidy(title), room, TITLE_ROWS if rows > 2 else 1, bold=True)
    y = box.y + box.height - CAP * words.title
    made = []
    for at, text in enumerate(titles):
        y -= at and LEADING * words.title
        made.append(Row(box.x + words.indent, round(y), words.title, text, bold=True))
    items = tuple(text for line in lines if (text := tidy(line)))
    left = rows - (2 if len(titles) > 1 else 0)
    for at, text in enumerate(flowed(items, box.width / words.line, left)):
        y -= LEADING * words.line if at else words.lead
        made.append(Row(box.x, round(y), words.line, text, bold=False))
    return tuple(made)


def lower(grade: str, bin_name: str, words: Words) -> tuple[Row, ...]:
    """Return the last row: the bin in bold, then the grade."""
    box, size = words.box, words.line
    room = box.width / size
    y = box.y + round(DESCENT * size)
    place, state = tidy(bin_name), tidy(grade)
    aside = 0.0
    made = []
    if place:
        # The grade is one short word: it keeps its room, a long bin name gives way.
        kept = min(width(state, bold=False) + STATUS_GAP, room / 2) if state else 0
        place = shortened(place, room - kept, bold=True)
        made.append(Row(box.x, y, size, place, bold=True))
        aside = width(place, bold=True) + STATUS_GAP
    if state:
        text = shortened(state, room - aside, bold=False)
        made.append(Row(box.x + round(aside * size), y, size, text, bold=False))
    return tuple(made)


def _name(name: str, lines: tuple[str, ...], words: Words) -> tuple[Row, ...]:
    """Return a bin's name as large as it goes, and under it the lines if there is room."""
    box = words.box
    size, texts = _largest(tidy(name), words)
    y = box.y + box.height - CAP * size
    made = []
    for at, text in enumerate(texts):
        y -= at and NAME_LEADING * size
        made.append(Row(box.x, round(y), size, text, bold=True))
    y -= DESCENT * size + CAP * words.line
    rows = int((y - DESCENT * words.line - box.y) / (LEADING * words.line) + 1)
    items = tuple(text for line in lines if (text := tidy(line)))
    for at, text in enumerate(flowed(items, box.width / words.line, max(0, rows))):
        made.append(Row(box.x, round(y - at * LEADING * words.line), words.line, text, bold=False))
    return tuple(made)


def _largest(name: str, words: Words) -> tuple[int, list[str]]:
    """Return the largest size at which the name is whole, and its rows at that size.

    Where it is not whole even at the least size, it is shortened.
    """
    box = words.box
    size = int(box.height / (CAP + DESCENT))
    while True:
        size = max(size, words.title)
        rows = int((box.height / size - CAP - DESCENT) / NAME_LEADING) + 1
        room = box.width / size
        texts = wrapped(name, room, rows, bold=True)
        whole = " ".join(texts) == name
        if whole or size == words.title:
            return size, texts
        size = int(size * NAME_STEP)
