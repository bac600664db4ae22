"""Letters on labels: embedded fonts, widths, wrapping and shortening.

The fonts are DejaVu Sans Condensed, plain and bold, and Droid Sans Fallback for what they lack
(Chinese characters and kana); their licences stand beside them in `labels/fonts`. A character that
none of them has is drawn as a box, and whoever draws is told.
"""

import unicodedata
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from labels.script import NON_JOINER, visual

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont

FOLDER = Path(__file__).with_name("fonts")
PLAIN = "DejaVuSansCondensed"
BOLD = "DejaVuSansCondensed-Bold"
FALLBACK = "DroidSansFallbackFull"

CAP = 0.73
"""Height of a capital or a digit, in ems (DejaVu Sans: 1493 of 2048 units)."""
DESCENT = 0.24
"""Depth below the baseline, in ems (DejaVu Sans: 483 of 2048 units)."""

HIDDEN = {"Cc", "Cf", "Cs", "Co", "Cn"}
"""Unicode categories that draw nothing: controls, format characters, surrogates, unassigned."""

BOX = "\N{WHITE SQUARE}"
ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"


@cache
def font(name: str) -> "TTFont":
    """Return the embedded font of that name, known to ReportLab from then on."""
    from reportlab.pdfbase import pdfmetrics, ttfonts

    face = ttfonts.TTFont(name, str(FOLDER / f"{name}.ttf"))
    pdfmetrics.registerFont(face)
    return face


def tidy(text: str) -> str:
    """Return the text on one line, composed, without what cannot be seen or drawn."""
    composed = unicodedata.normalize("NFC", " ".join(text.split()))
    return "".join(
        letter
        for letter in composed
        if letter == NON_JOINER or unicodedata.category(letter) not in HIDDEN
    )


@cache
def home(letter: str, *, bold: bool) -> str | None:
    """Return the name of the font that has the letter, or None."""
    for name in (BOLD if bold else PLAIN, PLAIN, FALLBACK):
        if ord(letter) in font(name).face.charToGlyph:
            return name
    return None


def runs(text: str, *, bold: bool) -> list[tuple[str, str]]:
    """Return the text in drawing order, in pieces with the font that draws each.

    What no font has becomes a box.
    """
    pieces: list[tuple[str, str]] = []
    for letter in visual(text):
        name = home(letter, bold=bold)
        name, letter = (name, letter) if name else (PLAIN, BOX)  # noqa: PLW2901 - the box stands in
        if pieces and pieces[-1][0] == name:
            pieces[-1] = (name, pieces[-1][1] + letter)
        else:
            pieces.append((name, letter))
    return pieces


def missing(text: str) -> set[str]:
    """Return the letters that no font has."""
    return {letter for letter in visual(text) if home(letter, bold=False) is None}


@lru_cache(maxsize=1 << 15)
def width(text: str, *, bold: bool) -> float:
    """Return the width of the text in ems."""
    return sum(advance(name, piece) for name, piece in runs(text, bold=bold))


def advance(name: str, piece: str) -> float:
    """Return the width in ems of a piece, in drawing order, in the font of that name."""
    face = font(name).face
    units: float = sum(face.charWidths.get(ord(letter), face.defaultWidth) for letter in piece)
    return units / 1000


def shortened(text: str, room: float, *, bold: bool) -> str:
    """Return the text, cut with an ellipsis if it is wider than `room` ems."""
    if width(text, bold=bold) <= room:
        return text
    kept = text
    while kept and width(kept.rstrip() + ELLIPSIS, bold=bold) > room:
        kept = kept[:-1]
    return kept.rstrip() + ELLIPSIS


def wrapped(text: str, room: float, rows: int, *, bold: bool) -> list[str]:
    """Return the text on at most `rows` rows of `room` ems, broken at spaces.

    A word wider than a row is broken where the row ends; what is left over after the last row
    is shown by an ellipsis.
    """
    made: list[str] = []
    rest = text
    while rest and len(made) < rows - 1 and width(rest, bold=bold) > room:
        row = _head(rest, room, bold=bold)
        made.append(row.rstrip())
        rest = rest[len(row) :].lstrip()
    if rest and rows > 0:
        made.append(shortened(rest, room, bold=bold))
    return made


def _head(text: str, room: float, *, bold: bool) -> str:
    """Return the start of the text that goes on one row: whole words, or part of a long one."""
    end = 1
    while end < len(text) and width(text[: end + 1].rstrip(), bold=bold) <= room:
        end += 1
    if text[end : end + 1] == " ":
        return text[:end]
    space = text.rfind(" ", 0, end)
    return text[: space + 1] if space > 0 else text[:end]


def flowed(items: tuple[str, ...], room: float, rows: int) -> list[str]:
    """Return the items on at most `rows` rows, as many to a row as go, a middle dot between.

    An item starts a row of its own rather than being broken; items for which no row is left are
    shown by an ellipsis.
    """
    made: list[str] = []
    for at, item in enumerate(items):
        joined = f"{made[-1]} \N{MIDDLE DOT} {item}" if made else item
        if made and width(joined, bold=False) <= room:
            made[-1] = joined
            continue
        free = rows - len(made)
        if free <= 0:
            made[-1:] = [shortened(joined, room, bold=False)] if made else []
            break
        later = at + 1 < len(items)
        made += wrapped(item, room, 1 if later else free, bold=False)
    return made
