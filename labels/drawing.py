"""A label as one string of PDF drawing operators.

Everything is in quarter dots of the printer: symbols stand on whole dots, and each bar is a quarter
dot narrower on every side. Its edges then never lie on the border between two dots, where one
renderer would paint the dot and another would not; every renderer paints the same whole dots.
"""

import re
from functools import cache
from typing import Any

from labels import code128, lettering, qr, typefaces, words
from labels.column import Row
from labels.label import Label
from labels.number import LabelNumber, grouped
from labels.plan import NUMBER_LEADING, Box, NumberRows, Plan, Symbol, Words

PARTS = 4
"""Drawing units in a dot."""
DARK = re.compile("1+")
CIRCLE = 0.5523
"""Distance of a Bezier curve's control points that makes a quarter circle of radius 1."""


class Pen:
    """Writes type into one document, whose fonts it embeds; gathers what no font has."""

    def __init__(self, canvas: Any) -> None:
        # What ReportLab's own text objects use; its stubs leave both out.
        self._document = canvas._doc  # noqa: SLF001 - the only door to a font's subsets
        self._escape = canvas._escape  # noqa: SLF001 - quotes the bytes of a PDF string
        self._known: dict[tuple[str, bool], list[tuple[str, str, float, float]]] = {}
        self.missing: set[str] = set()
        # The subsets begin with ASCII as it is, so the number's codes are its own digits.
        self.digits = self._pieces("0123456789 ", bold=True)[0][0]

    def row(self, row: Row) -> str:
        """Return the operators of a row of type."""
        parts = []
        size = PARTS * row.size
        for name, text, aside, up in self._pieces(row.text, bold=row.bold):
            x, y = PARTS * row.x + round(size * aside), PARTS * row.y + round(size * up)
            parts.append(f"BT/{name} {size} Tf {x} {y} Td({text})Tj ET\n")
        drawn = "".join(parts)
        if lettering.as_read(row.text, bold=row.bold):
            return drawn
        # Joined and reordered glyphs do not say their letters: who copies or seeks text needs them
        # (ISO 32000-1, 14.9.4).
        said = row.text.encode("utf-16-be").hex().upper()
        return f"/Span<</ActualText<FEFF{said}>>>BDC\n{drawn}EMC\n"

    def _pieces(self, text: str, *, bold: bool) -> list[tuple[str, str, float, float]]:
        """Return font, quoted codes and place in ems of each piece of the text."""
        known = self._known.get((text, bold))
        if known is None:
            known = self._known[text, bold] = self._split(text, bold=bold)
        return known

    def _split(self, text: str, *, bold: bool) -> list[tuple[str, str, float, float]]:
        """Return what `_pieces` keeps: text is split by font and by subset of the font."""
        line = lettering.line(text, bold=bold)
        self.missing |= line.missing
        pieces = []
        for piece in line.pieces:
            font = typefaces.font(piece.font)
            aside, at = piece.x, 0
            for subset, codes in font.splitString(piece.text, self._document):
                internal = font.getSubsetInternalName(subset, self._document).lstrip("/")
                pieces.append((internal, self._escape(codes), aside, piece.y))
                aside += lettering.advance(piece.font, piece.text[at : at + len(codes)])
                at += len(codes)
        return pieces


class Drawing:
    """Draws labels of one plan into one document; words that come again are kept."""

    def __init__(self, pen: Pen, plan: Plan) -> None:
        self._pen = pen
        self._plan = plan
        self._upper: dict[object, str] = {}
        self._lower: dict[object, str] = {}
        self._marks = (_caution(plan.caution) if plan.caution else "") + (
            _hole(*plan.hole) if plan.hole else ""
        )

    def label(self, label: Label, x: int, y: int) -> str:
        """Return the operators of a label whose lower left corner is at `x`, `y` dots."""
        plan = self._plan
        bars = _bars(label.number, plan.bars) if plan.bars else ""
        texts = self._words(label, plan.words) if plan.words else ""
        return (
            f"q 1 0 0 1 {PARTS * x} {PARTS * y} cm\n{bars}{_qr(label.number, plan.qr)}"
            f"{self._marks}{texts}{self._number(label.number, plan.number)}Q\n"
        )

    def _words(self, label: Label, place: Words) -> str:
        """Return the operators of the words."""
        above, below = words.upper_part(label, place), words.lower_part(label, place)
        if above not in self._upper:
            self._upper[above] = "".join(map(self._pen.row, words.upper(*above, place)))
        if below not in self._lower:
            self._lower[below] = "".join(map(self._pen.row, words.lower(*below, place)))
        return self._upper[above] + self._lower[below]

    def _number(self, number: LabelNumber, place: NumberRows) -> str:
        """Return the operators of the number, on one row or a group to a row."""
        size = PARTS * place.size
        rows = grouped(number).split() if place.rows > 1 else [grouped(number)]
        step = round(NUMBER_LEADING * size)
        y = PARTS * place.baseline + step * (len(rows) - 1)
        shown = f" 0 -{step} Td".join([f"({row})Tj" for row in rows])
        return f"BT/{self._pen.digits} {size} Tf {PARTS * place.box.x} {y} Td{shown} ET\n"


def _bars(number: str, symbol: Symbol) -> str:
    """Return the bars, character by character, each starting where the last one ends."""
    modules = code128.modules(number)
    unit, height = symbol.unit, symbol.height
    stop = len(modules) - len(code128.STOP)
    bars = "".join(
        [
            _character(modules[at : at + code128.CHARACTER], unit, height)
            for at in range(0, stop, code128.CHARACTER)
        ]
    )
    return (
        f"q 1 0 0 1 {PARTS * symbol.x} {PARTS * symbol.y} cm\n{bars}"
        f"{_character(code128.STOP, unit, height)}Q\n"
    )


@cache
def _character(modules: str, unit: int, height: int) -> str:
    """Return the bars of a character, and the step to the next one."""
    module = PARTS * unit
    bars = "".join(
        f"{bar.start() * module + 1} 1 {(bar.end() - bar.start()) * module - 2} "
        f"{PARTS * height - 2} re\n"
        for bar in DARK.finditer(modules)
    )
    return f"{bars}f 1 0 0 1 {len(modules) * module} 0 cm\n"


def _qr(number: str, symbol: Symbol) -> str:
    """Return the QR as a mask of a bit a module, stretched a quarter dot short on every side."""
    side = PARTS * symbol.height - 2
    return (
        f"q {side} 0 0 {side} {PARTS * symbol.x + 1} {PARTS * symbol.y + 1} cm\n"
        f"BI/W {qr.SIDE}/H {qr.SIDE}/IM true/D[1 0]/F/AHx ID {qr.packed(number)}>EI Q\n"
    )


@cache
def _caution(box: Box) -> str:
    """Return the caution mark: a triangle with rounded corners and an exclamation mark."""
    x, y, wide, high = (PARTS * length for length in (box.x, box.y, box.width, box.height))
    line = high // 10
    middle = x + wide // 2
    left, right, low, top = x + line, x + wide - line, y + line // 2, y + high - line
    stroke, foot = high // 16, high * 20 // 100
    return (
        f"q {line} w 1 j {left} {low} m {right} {low} l {middle} {top} l s Q\n"
        f"{middle - stroke} {y + foot} {2 * stroke} {2 * stroke} re f\n"
        f"{middle - stroke} {y + high * 38 // 100} m {middle + stroke} {y + high * 38 // 100} l "
        f"{middle + stroke * 5 // 4} {y + high * 68 // 100} l "
        f"{middle - stroke * 5 // 4} {y + high * 68 // 100} l f\n"
    )


@cache
def _hole(x: int, y: int, radius: int) -> str:
    """Return the mark of the hole: a fine circle and a cross where the punch is set."""
    x, y, radius = PARTS * x, PARTS * y, PARTS * radius
    bend = round(CIRCLE * radius)
    arm = radius // 3
    return (
        f"q {max(PARTS, radius // 16)} w {x + radius} {y} m "
        f"{x + radius} {y + bend} {x + bend} {y + radius} {x} {y + radius} c "
        f"{x - bend} {y + radius} {x - radius} {y + bend} {x - radius} {y} c "
        f"{x - radius} {y - bend} {x - bend} {y - radius} {x} {y - radius} c "
        f"{x + bend} {y - radius} {x + radius} {y - bend} {x + radius} {y} c s "
        f"{x - arm} {y} m {x + arm} {y} l {x} {y - arm} m {x} {y + arm} l S Q\n"
    )
