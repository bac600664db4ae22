"""The pick list of plans as a PDF: a line for each thing to do, with the bars of each part."""

from __future__ import annotations

import re
from io import BytesIO
from typing import TYPE_CHECKING, Any

from labels import code128, lettering, typefaces
from labels.number import grouped
from partsbin.workshop.planning.words import Line, lines

if TYPE_CHECKING:
    from labels.number import LabelNumber
    from partsbin.workshop.planning.answer import Plans

POINT = 1.0
MM = 72 / 25.4
WIDE, HIGH = 210 * MM, 297 * MM
MARGIN = 15 * MM
MODULE = 0.33 * MM
"""Width of the narrowest bar: 0.33 mm is read by a cheap scanner from an arm's length."""
BAR_HEIGHT = 9 * MM
ROW = 16 * MM
TEXT, SMALL, HEAD = 9 * POINT, 7.5 * POINT, 14 * POINT
LEADING = 1.25
BARS_AT = WIDE - MARGIN - 100 * MODULE


class PickList:
    """Draws plans onto pages, from the top of each."""

    def __init__(self) -> None:
        from reportlab.pdfgen.canvas import Canvas

        self._file = BytesIO()
        # Uncompressed pages differ only where the plan does, and time stamps are left out.
        self._canvas: Any = Canvas(self._file, pagesize=(WIDE, HIGH), invariant=1)
        self._canvas.setTitle("Pick list")
        self._y = HIGH - MARGIN

    def drawn(self, plans: Plans) -> bytes:
        """Return the document."""
        for bike in plans.bikes:
            self._room(3 * ROW)
            self._y -= HEAD
            self._text(MARGIN, bike.name, HEAD, bold=True)
            self._y -= 6 * MM
            numbers: dict[str, LabelNumber] = {take.slot: take.number for take in bike.take}
            waiting = list(bike.take)
            for line in lines(bike):
                number = None
                if (
                    line.verb in ("take", "adapter")
                    and waiting
                    and grouped(waiting[0].number) in line.what
                ):
                    number = waiting.pop(0).number
                self._line(line, number)
            del numbers
            self._y -= 6 * MM
        self._canvas.save()
        return self._file.getvalue()

    def _line(self, line: Line, number: LabelNumber | None) -> None:
        room = (BARS_AT if number else WIDE - MARGIN) - MARGIN - 5 * MM
        told = [(f"{line.verb}: {line.slot}", TEXT, True)]
        told += [(row, TEXT, False) for row in _rows(line.what, room, TEXT)]
        for below in line.below:
            told += [(row, SMALL, False) for row in _rows(below, room, SMALL)]
        high = max(sum(LEADING * size for _, size, _ in told), ROW if number else 0) + 3 * MM
        self._room(high)
        top = self._y
        self._canvas.rect(MARGIN, top - TEXT, 3 * MM, 3 * MM)
        if number is not None:
            self._bars(number, top - BAR_HEIGHT)
        for text, size, bold in told:
            self._y -= LEADING * size
            self._text(MARGIN + 5 * MM, text, size, bold=bold)
        self._y = top - high

    def _room(self, high: float) -> None:
        if self._y - high < MARGIN:
            self._canvas.showPage()
            self._y = HIGH - MARGIN

    def _text(self, x: float, text: str, size: float, *, bold: bool) -> None:
        for piece in lettering.line(lettering.tidy(text), bold=bold).pieces:
            typefaces.font(piece.font)
            self._canvas.setFont(piece.font, size)
            self._canvas.drawString(x + size * piece.x, self._y + size * piece.y, piece.text)

    def _bars(self, number: LabelNumber, y: float) -> None:
        """Draw the bars of a number, as labels have them."""
        for bar in re.finditer("1+", code128.modules(number)):
            x = BARS_AT + (code128.QUIET + bar.start()) * MODULE
            wide = (bar.end() - bar.start()) * MODULE
            self._canvas.rect(x, y, wide, BAR_HEIGHT, stroke=0, fill=1)


def _rows(text: str, room: float, size: float) -> list[str]:
    return lettering.wrapped(lettering.tidy(text), room / size, 6, bold=False)


def pick_list(plans: Plans) -> bytes:
    """Return the pick list of some plans as a PDF document."""
    return PickList().drawn(plans)
