"""Letters on labels: lines of type in any script, their sizes, wrapping and shortening.

A letter that no embedded font has is drawn as a box, and whoever draws is told.
"""

import unicodedata
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache, partial
from itertools import groupby

from labels import shaping
from labels.script import turned
from labels.shaping import JOINERS, Glyph, clusters, sticks
from labels.typefaces import BOLD, PLAIN, Ink, family, glyph_of, has, home

CAP = 0.73
"""Height of a capital or a digit, in ems (DejaVu Sans: 1493 of 2048 units)."""
DESCENT = 0.24
"""Depth below the baseline, in ems (DejaVu Sans: 483 of 2048 units)."""

HIDDEN = {"Cc", "Cf", "Cs", "Co", "Cn"}
"""Unicode categories that draw nothing: controls, format characters, surrogates, unassigned."""

BOX = "\N{WHITE SQUARE}"
ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"
BETWEEN = "\N{MIDDLE DOT}"
NEAR = 1e-6
"""Ems that are no distance."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Letters of one font that follow each other as wide as they are, and where they start."""

    font: str
    text: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Line:
    """A line of type as it is drawn, in ems: no ink stands left of 0 or right of `width`.

    `top` and `bottom` are the highest and lowest ink, from the baseline.
    """

    pieces: tuple[Piece, ...]
    width: float
    top: float
    bottom: float
    missing: frozenset[str]


def tidy(text: str) -> str:
    """Return the text on one line, composed, without what cannot be seen or drawn."""
    composed = unicodedata.normalize("NFC", " ".join(text.split()))
    return "".join(
        letter
        for letter in composed
        if letter in JOINERS or unicodedata.category(letter) not in HIDDEN
    )


@lru_cache(maxsize=1 << 15)
def line(text: str, *, bold: bool) -> Line:
    """Return the text as it is drawn."""
    glyphs: list[tuple[str, Glyph]] = []
    missing: set[str] = set()
    end = 0.0
    for run, rtl in turned(text):
        parts = list(_by_font(run, bold=bold, missing=missing))
        for name, part, whole in parts[::-1] if rtl else parts:
            drawn, wide = _drawn(name, part, rtl=rtl, as_it_is=whole and not rtl)
            glyphs += [(name, glyph._replace(x=glyph.x + end)) for glyph in drawn]
            end += wide
    inks = [
        Ink(glyph.x + ink.left, glyph.x + ink.right, glyph.y + ink.top, glyph.y + ink.bottom)
        for _, glyph in glyphs
        if (ink := glyph.ink).top != ink.bottom
    ]
    left = min([0.0, *(ink.left for ink in inks)])
    return Line(
        pieces=tuple(_pieces(glyphs, -left)),
        width=max([end, *(ink.right for ink in inks)]) - left,
        top=max((ink.top for ink in inks), default=0.0),
        bottom=min((ink.bottom for ink in inks), default=0.0),
        missing=frozenset(missing),
    )


def _by_font(run: str, *, bold: bool, missing: set[str]) -> Iterator[tuple[str, str, bool]]:
    """Yield parts of a run with the font of each, and whether its letters are drawn as they are.

    What no font has becomes a box and is added to `missing`.
    """
    for (script, simple), group in groupby(clusters(run), _script):
        part = "".join(group)
        letters = [letter for letter in part if letter not in JOINERS]
        names = (BOLD if bold else PLAIN, PLAIN, script or PLAIN)
        one = next((name for name in names if all(has(name, letter) for letter in letters)), None)
        if one is not None:
            yield one, part, simple
            continue
        for name, run_of in groupby(part, lambda letter: home(letter, bold=bold)):
            some = "".join(run_of)
            if name is None:
                missing.update(set(some) - set(JOINERS))
                boxes = "".join(BOX for letter in some if not sticks(letter))
                yield PLAIN, boxes, True
            else:
                yield name, some, simple


def _script(cluster: str) -> tuple[str | None, bool]:
    """Return the font made for a cluster's script, and whether it is a plain letter of none."""
    script = family(cluster[0])
    return script, script is None and len(cluster) == 1


def _drawn(name: str, part: str, *, rtl: bool, as_it_is: bool) -> tuple[list[Glyph], float]:
    """Return the glyphs of a part and its width."""
    if not as_it_is:
        return shaping.shaped(name, part, rtl=rtl)
    glyphs = []
    x = 0.0
    for letter in part:
        wide, ink = glyph_of(name, letter)
        glyphs.append(Glyph(letter, x, 0.0, wide, ink))
        x += wide
    return glyphs, x


def _pieces(glyphs: list[tuple[str, Glyph]], aside: float) -> Iterator[Piece]:
    """Yield the glyphs put together where one starts at the end of the other."""
    for (name, _, _), group in groupby(_joints(glyphs), lambda joint: joint[:3]):
        run = [glyph for *_, glyph in group]
        yield Piece(name, "".join(glyph.letter for glyph in run), run[0].x + aside, run[0].y)


def _joints(glyphs: list[tuple[str, Glyph]]) -> Iterator[tuple[str, int, float, Glyph]]:
    """Yield each glyph with its font, the number of gaps before it, and its height."""
    gaps, end = 0, 0.0
    for name, glyph in glyphs:
        gaps += abs(glyph.x - end) > NEAR
        end = glyph.x + glyph.width
        yield name, gaps, glyph.y, glyph


def as_read(text: str, *, bold: bool) -> bool:
    """Return whether readers of the file find the text, or what can be of it, by its glyphs.

    They put right-to-left letters in order themselves, and whole texts would be turned twice.
    """
    drawn = line(text, bold=bold)
    if drawn.missing or any(rtl for _, rtl in turned(text)):
        return True
    return "".join(piece.text for piece in drawn.pieces) == text


def width(text: str, *, bold: bool) -> float:
    """Return the width of the text in ems."""
    return line(text, bold=bold).width


def advance(name: str, piece: str) -> float:
    """Return the width in ems of a piece of a line in the font of that name."""
    return sum(glyph_of(name, letter)[0] for letter in piece)


def shortened(text: str, room: float, *, bold: bool) -> str:
    """Return the text, cut with an ellipsis if it is wider than `room` ems."""
    if width(text, bold=bold) <= room:
        return text
    pieces = clusters(text)

    def without(lost: int) -> str:
        return "".join(pieces[: len(pieces) - lost]).rstrip() + ELLIPSIS

    fits = partial(_fits, room=room, bold=bold)
    lost = bisect_left(range(len(pieces)), True, key=lambda lost: fits(without(lost)))
    return without(lost)


def _fits(text: str, *, room: float, bold: bool) -> bool:
    return width(text, bold=bold) <= room


def wrapped(
    text: str, room: float, rows: int, *, bold: bool, first: float | None = None
) -> list[str]:
    """Return the text on at most `rows` rows of `room` ems (the `first` maybe of less).

    It is broken at spaces, a word wider than a row where the row ends; what is left over after
    the last row is shown by an ellipsis.
    """
    made: list[str] = []
    rest = text
    here = room if first is None else first
    while rest and len(made) < rows - 1 and width(rest, bold=bold) > here:
        row = _head(rest, here, bold=bold)
        made.append(row.rstrip())
        rest = rest[len(row) :].lstrip()
        here = room
    if rest and rows > 0:
        made.append(shortened(rest, here, bold=bold))
    return made


def _head(text: str, room: float, *, bold: bool) -> str:
    """Return the start of the text that goes on one row: whole words, or part of a long one."""
    pieces = clusters(text)
    fits = partial(_fits, room=room, bold=bold)
    too_long = bisect_left(
        range(1, len(pieces)), True, key=lambda end: not fits("".join(pieces[: end + 1]).rstrip())
    )
    end = too_long + 1
    head = "".join(pieces[:end])
    if pieces[end : end + 1] == [" "]:
        return head
    space = head.rfind(" ")
    return head[: space + 1] if space > 0 else head


def flowed(items: tuple[str, ...], room: float, rows: int) -> list[str]:
    """Return the items on at most `rows` rows, as many to a row as go, a middle dot between.

    An item starts a row of its own rather than being broken; one that is too wide for a row goes
    on more. Items for which no row is left are shown by an ellipsis.
    """
    made: list[str] = []
    for at, item in enumerate(items):
        joined = f"{made[-1]} {BETWEEN} {item}" if made else item
        if made and width(joined, bold=False) <= room:
            made[-1] = joined
            continue
        free = rows - len(made)
        if free <= 0:
            made[-1:] = [shortened(joined, room, bold=False)] if made else []
            break
        # What comes later keeps a row.
        later = at + 1 < len(items) and free > 1
        made += wrapped(item, room, free - later, bold=False)
    return made


def whole(rows: list[str], texts: tuple[str, ...]) -> bool:
    """Return whether the rows say all of the texts, and break none of their words.

    >>> whole(["rear", "hub · 36"], ("rear hub", "36")), whole(["re", "ar"], ("rear",))
    (True, False)
    """
    return " ".join(rows).replace(f" {BETWEEN} ", " ") == " ".join(texts)
