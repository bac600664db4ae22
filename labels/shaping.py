"""Letters as glyphs in their places: joined, reordered and with their marks, by HarfBuzz.

PDF draws the glyphs that it is given where it is told to. In Arabic a letter's shape hangs on its
neighbours, in the scripts of India letters merge and change places, in Thai marks are stacked:
what to draw stands in the font's tables, and HarfBuzz reads them.
"""

import unicodedata
from functools import cache
from typing import NamedTuple

from labels import typefaces
from labels.typefaces import Ink

PRIVATE = 0xE000
"""Glyphs that stand for no letter of their own get code points of the private use area."""
LAST_PRIVATE = 0xF8FF

NON_JOINER, JOINER = "\N{ZERO WIDTH NON-JOINER}", "\N{ZERO WIDTH JOINER}"
JOINERS = NON_JOINER + JOINER


class Glyph(NamedTuple):
    """One glyph: the letter that draws it, where it starts, its width and its ink, in ems."""

    letter: str
    x: float
    y: float
    width: float
    ink: Ink


@cache
def sticks(letter: str) -> bool:
    """Return whether the letter belongs to the one before it: a mark or a joiner."""
    return letter in JOINERS or unicodedata.category(letter).startswith("M")


def clusters(text: str) -> list[str]:
    """Return the text in pieces that may not be cut: a letter, its marks, what merges with it.

    >>> clusters("ab कि क्षि")
    ['a', 'b', ' ', 'कि', ' ', 'क्षि']
    """
    made: list[str] = []
    for letter in text:
        if made and (sticks(letter) or _binds(made[-1][-1])):
            made[-1] += letter
        else:
            made.append(letter)
    return made


@cache
def _binds(letter: str) -> bool:
    """Return whether the letter makes the next one merge: a joiner or a virama (class 9)."""
    return letter == JOINER or unicodedata.combining(letter) == 9


def shaped(name: str, text: str, *, rtl: bool) -> tuple[list[Glyph], float]:
    """Return the glyphs of a text of one direction, from left to right, and its width in ems.

    The letters of the glyphs are known to ReportLab's font of that name from then on.
    """
    import uharfbuzz

    face = typefaces.shaper(name)
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    buffer.direction = "rtl" if rtl else "ltr"
    # The language would come from the computer's locale, and other labels with it.
    buffer.language = "und"
    uharfbuzz.shape(face, buffer)
    em = face.face.upem
    glyphs = []
    x = y = 0
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        glyphs.append(
            Glyph(
                _letter(name, info.codepoint),
                (x + place.x_offset) / em,
                (y + place.y_offset) / em,
                face.get_glyph_h_advance(info.codepoint) / em,
                typefaces.ink(name, info.codepoint),
            )
        )
        x += place.x_advance
        y += place.y_advance
    return glyphs, x / em


@cache
def _letter(name: str, glyph: int) -> str:
    """Return the letter under which ReportLab draws a glyph: its own, or one made up for it."""
    own = _letters(name).get(glyph)
    if own is not None:
        return own
    code = PRIVATE + glyph
    if code > LAST_PRIVATE:
        raise ValueError(f"{name} has more glyphs than code points can be made up for.")
    shaper = typefaces.shaper(name)
    face = typefaces.font(name).face
    face.charToGlyph[code] = glyph
    face.charWidths[code] = shaper.get_glyph_h_advance(glyph) * 1000 / shaper.face.upem
    return chr(code)


@cache
def _letters(name: str) -> dict[int, str]:
    """Return the letter of each glyph that has one of the first plane, the lowest one.

    PDF can name no others for those who copy text from a label.
    """
    codes = typefaces.font(name).face.charToGlyph.items()
    return {
        glyph: chr(code)
        for code, glyph in sorted(codes, reverse=True)
        if 32 <= code < PRIVATE or LAST_PRIVATE < code <= 0xFFFF
    }
