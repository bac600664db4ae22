"""The words of a label: as large as they go in their box, whole wherever they can be read so."""

from collections.abc import Iterator

from labels.column import Column, Row
from labels.label import Label, Shape
from labels.lettering import CAP, DESCENT, line, shortened, tidy, whole, width, wrapped
from labels.plan import LEADING, Box, Words

STEP = 0.93
"""From one type size to the next smaller one that is tried."""
GROWTH = (1.5, 1.3, 1.15)
"""Larger type than planned, where a title of one row and all lines have room for it."""
NAME_LEADING = 1.08
LINE_SHARE = 0.4
"""Size of the lines under a bin's name, at most, in ems of the name."""
FAR_SHARE = 0.6
"""Least size of a bin's name that is too long to be read from two metres, of that which is not."""
STATUS_GAP = 0.7
"""White between the bin and the grade, in ems."""
TITLE_ROWS = 2
TITLE_SHARE = 1.25
"""Least size of a title in ems of the smallest line."""


def composed(label: Label, words: Words) -> tuple[Row, ...]:
    """Return the rows of a label's words; nothing of them stands outside the box of `words`."""
    return upper(*upper_part(label, words), words) + lower(*lower_part(label, words), words)


def upper_part(label: Label, words: Words) -> tuple[Shape, str, tuple[str, ...], bool]:
    """Return what the upper rows are made of: shape, title, lines, whether a last row follows."""
    last = tuple(text for text in (label.grade, label.bin_name) if text)
    if label.shape is Shape.BIN:
        return label.shape, label.title, label.lines, False
    if words.rows < 2:
        return label.shape, label.title, label.lines + last, False
    return label.shape, label.title, label.lines, bool(last)


def lower_part(label: Label, words: Words) -> tuple[str, str]:
    """Return what the last row of the label is made of: grade and bin, if they have a row."""
    if label.shape is Shape.BIN or words.rows < 2:
        return "", ""
    return label.grade, label.bin_name


def upper(
    shape: Shape, title: str, lines: tuple[str, ...], last: bool, words: Words
) -> tuple[Row, ...]:
    """Return title and lines, above the `last` row if there is one."""
    items = tuple(text for one in lines if (text := tidy(one)))
    box = words.box.above(words.last_row, 0) if last else words.box
    attempts = _names if shape is Shape.BIN else _heads
    rows: tuple[Row, ...] = ()
    for rows, good in attempts(tidy(title), items, box, words):  # noqa: B007 - the last one stays
        if good:
            break
    return rows


def _heads(
    title: str, items: tuple[str, ...], box: Box, words: Words
) -> Iterator[tuple[tuple[Row, ...], bool]]:
    """Yield ways to set title and lines, the best first, and whether each will do."""
    least = round(words.least * TITLE_SHARE)
    for scale in GROWTH:
        size, small = round(words.title * scale), round(words.line * scale)
        if any(width(item, bold=False) * small > box.width for item in items):
            continue
        column, told = _head(title, box, words, size, rows=1)
        all_told = column.flow(items, small, _lead(size, small)) and told
        yield column.rows, all_told and column.fits
    for size in _sizes(words.title, least):
        small = max(words.least, round(words.line * size / words.title))
        column, told = _head(title, box, words, size)
        all_told = column.flow(items, small, _lead(size, small)) and told
        yield column.rows, all_told and column.fits
    # Not all can be told: the title is, in the largest letters that leave the lines a row, if
    # need be under the mark.
    small = words.least
    for below in (False, True):
        for size in _sizes(words.title, small):
            column, told = _head(title, box, words, size, below=below)
            fits, before = column.fits, len(column.rows)
            column.flow(items, small, _lead(size, small))
            yield column.rows, told and fits and (not items or len(column.rows) > before)
    for below in (True, False):
        column, told = _head(title, box, words, small, below=below)
        yield column.rows, told and column.fits
    for size in _sizes(small, 1):
        column, _told = _head(title, box, words, size)
        yield column.rows, column.fits


def _head(
    title: str, box: Box, words: Words, size: int, *, rows: int = TITLE_ROWS, below: bool = False
) -> tuple[Column, bool]:
    """Return a column with the title, and whether the title is whole and unbroken.

    It starts beside the caution mark, or `below` it.
    """
    column = Column(box, (words.indent, words.mark))
    room = column.room(size)
    beside = room if below else (box.width - words.indent) / size
    # A second row goes under the mark where the letters are as large as it.
    under = below or LEADING * size >= words.mark
    rest = room if under else beside
    texts: list[str] = []
    for count in range(1, rows + 1):
        texts = wrapped(title, rest, count, bold=True, first=beside)
        if whole(texts, (title,)):
            break
    for at, text in enumerate(texts):
        clear = below or (at > 0 and under)
        column.set(text, size, bold=True, step=LEADING * size, beside=not clear)
    return column, whole(texts, (title,)) or not title


def _lead(title: int, small: int) -> float:
    """Return the distance from the title's baseline to that of the first line."""
    return LEADING * small + 0.2 * title


def _sizes(size: int, least: int) -> Iterator[int]:
    """Yield type sizes from `size` down to `least`, each smaller than the last."""
    while size > least:
        yield size
        size = min(size - 1, round(size * STEP))
    yield least


def lower(grade: str, bin_name: str, words: Words) -> tuple[Row, ...]:
    """Return the last row: the bin in bold, then the grade, in letters for which it has room."""
    place, state = tidy(bin_name), tidy(grade)
    for size in _sizes(words.line, words.least):
        wide = width(place, bold=True) + width(state, bold=False) + STATUS_GAP * bool(place)
        if wide * size <= words.box.width:
            break
    # The grade is one short word: it keeps its room, a long bin name gives way.
    room = words.box.width / size
    kept = min(width(state, bold=False) + STATUS_GAP, room / 2) if state else 0
    place = shortened(place, room - kept, bold=True) if place else ""
    aside = width(place, bold=True) + STATUS_GAP if place else 0.0
    state = shortened(state, room - aside, bold=False) if state else ""
    drawn = [(place, True, 0.0), (state, False, aside)]
    inks = [line(text, bold=bold) for text, bold, _ in drawn if text]
    depth = max([DESCENT, *(-ink.bottom for ink in inks)])
    high = max([CAP, *(ink.top for ink in inks)])
    size = min(size, int(words.last_row / (depth + high)))
    y = words.box.y + int(-(-depth * size // 1))
    return tuple(
        Row(words.box.x + round(x * size), y, size, text, bold) for text, bold, x in drawn if text
    )


def _names(
    name: str, items: tuple[str, ...], box: Box, words: Words
) -> Iterator[tuple[tuple[Row, ...], bool]]:
    """Yield ways to set a bin's name and its lines, the best first, and whether each will do."""
    largest = max(words.title, int(box.height / (CAP + DESCENT)))
    for size in _sizes(largest, words.title):
        small = max(words.line, round(LINE_SHARE * size))
        yield _name(name, items, box, size, small, all_told=True)
    for small in _sizes(words.line, words.least):
        yield _name(name, items, box, words.title, small, all_told=True)
    # Not all can be told, or not from two metres: a long name is set smaller for its lines, a
    # short one is not; then as many of the lines as go.
    smaller = list(_sizes(words.title, round(FAR_SHARE * words.title)))
    long = width(name, bold=True) * words.title > box.width
    for small in (words.line, words.least) if long else ():
        for size in smaller:
            yield _name(name, items, box, size, small, all_told=True)
    small = words.least
    for size in smaller if long else [words.title]:
        rows, good = _name(name, items, box, size, small, all_told=False)
        yield rows, good and any(not row.bold for row in rows)
    for size in smaller:
        yield _name(name, items, box, size, small, all_told=False)
    readable = round(words.least * TITLE_SHARE)
    for size in _sizes(smaller[-1], readable):
        yield _name(name, (), box, size, small, all_told=False)
    for size in _sizes(readable, 1):
        rows, _good = _name(name, (), box, size, small, all_told=False)
        yield rows, all(row.y - DESCENT * size >= box.y for row in rows)


def _name(
    name: str, items: tuple[str, ...], box: Box, size: int, small: int, *, all_told: bool
) -> tuple[tuple[Row, ...], bool]:
    """Return a name on the fewest rows, its lines, and whether all, or at least it, is told."""
    column = Column(box)
    texts: list[str] = []
    for count in range(1, max(1, int(box.height / size / NAME_LEADING)) + 1):
        texts = wrapped(name, column.room(size), count, bold=True)
        if whole(texts, (name,)):
            break
    for text in texts:
        column.set(text, size, bold=True, step=NAME_LEADING * size)
    told = (whole(texts, (name,)) or not name) and column.fits
    lines_told = column.flow(items, small, _lead(0, small) + 0.25 * size)
    return column.rows, told and (lines_told or not all_told)
