"""Plots of amounts as vectors: bars that lie, steps from one sum to another, months that stand.

Every bar has its figure beside it, so that nothing is read off an axis or from a colour alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from labels import lettering
from labels.lettering import shortened, tidy, width
from labels.typefaces import BOLD, PLAIN, font

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Colour = tuple[float, float, float]

INK: Colour = (0.11, 0.16, 0.20)
QUIET: Colour = (0.40, 0.45, 0.48)
RULE: Colour = (0.82, 0.84, 0.85)
PAPER: Colour = (0.95, 0.96, 0.95)
GAIN: Colour = (0.04, 0.42, 0.40)
COST: Colour = (0.83, 0.47, 0.10)
BOTH: Colour = (0.55, 0.66, 0.70)
"""Blue-green, orange and grey differ for every kind of colour sight and in lightness on paper."""

SMALL, USUAL, HEAD = 7.5, 8.5, 11.0
ROW = 17.0


def shown(amount: int) -> str:
    """Return an amount with its minor units, a true minus sign, and thin gaps in long ones.

    >>> shown(-123456)
    '\N{MINUS SIGN}1\N{NARROW NO-BREAK SPACE}234.56'
    """
    sign = "\N{MINUS SIGN}" if amount < 0 else ""
    whole, cents = divmod(abs(amount), 100)
    return f"{sign}{whole:,}.{cents:02}".replace(",", "\N{NARROW NO-BREAK SPACE}")


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle of the page in points; `top` is its upper edge."""

    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar with its name and what stands after its figure."""

    name: str
    amount: int
    note: str = ""
    colour: Colour | None = None
    start: int = 0
    """Where it begins, for a step of a staircase."""


class Pencil:
    """Draws words and bars on a canvas."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        for name in (PLAIN, BOLD):
            font(name)

    def words(
        self,
        x: float,
        y: float,
        text: str,
        size: float = USUAL,
        *,
        bold: bool = False,
        colour: Colour = INK,
        align: str = "left",
        room: float = 0,
    ) -> None:
        """Write a text on a line, shortened to its room if it has one."""
        text = tidy(text)
        if room:
            text = shortened(text, room / size, bold=bold)
        wide = width(text, bold=bold) * size
        x -= {"left": 0.0, "middle": wide / 2, "right": wide}[align]
        self.canvas.setFillColorRGB(*colour)
        line = self.canvas.beginText(x, y)
        for piece in lettering.line(text, bold=bold).pieces:
            font(piece.font)
            line.setTextOrigin(x + size * piece.x, y + size * piece.y)
            line.setFont(piece.font, size)
            line.textOut(piece.text)
        self.canvas.drawText(line)

    def whole(self, x: float, y: float, figure: str, size: float, *, room: float) -> None:
        """Write a figure in bold letters, in smaller ones if it is wide: it is never cut."""
        wide = width(figure, bold=True) * size
        self.words(x, y, figure, size * min(1.0, room / wide), bold=True)

    def block(self, x: float, y: float, wide: float, high: float, colour: Colour) -> None:
        """Fill a rectangle; `y` is its lower edge."""
        self.canvas.setFillColorRGB(*colour)
        self.canvas.rect(x, y, wide, high, stroke=0, fill=1)

    def rule(self, x1: float, y1: float, x2: float, y2: float, colour: Colour = RULE) -> None:
        """Draw a fine line."""
        self.canvas.setStrokeColorRGB(*colour)
        self.canvas.setLineWidth(0.6)
        self.canvas.line(x1, y1, x2, y2)

    def head(self, area: Area, title: str, what: str = "") -> float:
        """Write the title of a plot, and under it what it shows; return where the plot begins."""
        self.words(area.left, area.top - HEAD, title, HEAD, bold=True, room=area.width)
        if what:
            y = area.top - HEAD - 11
            self.words(area.left, y, what, SMALL, colour=QUIET, room=area.width)
        return area.top - HEAD - (20 if what else 9)

    def lying(self, area: Area, title: str, what: str, bars: Sequence[Bar]) -> None:
        """Draw bars that lie below each other, to the right for gain and to the left for loss."""
        top = self.head(area, title, what)
        if not bars:
            self.words(area.left, top - 12, "nothing in this period", colour=QUIET)
            return
        widest = max(width(tidy(bar.name), bold=False) for bar in bars) * USUAL
        names = min(0.34 * area.width, widest + 6)
        figures = max(width(_figure(b), bold=False) for b in bars) * USUAL + 10
        low = min(0, *(min(b.start, b.start + b.amount) for b in bars))
        high = max(0, *(max(b.start, b.start + b.amount) for b in bars))
        room = max(20.0, area.width - names - figures)
        scale = room / ((high - low) or 1)
        zero = area.left + names - low * scale
        for row, bar in enumerate(bars):
            y = top - (row + 1) * ROW
            ends = sorted((zero + bar.start * scale, zero + (bar.start + bar.amount) * scale))
            colour = bar.colour or (GAIN if bar.amount >= 0 else COST)
            self.words(area.left, y + 4, bar.name, room=names - 6)
            if bar.amount:
                self.block(ends[0], y + 1, max(0.8, ends[1] - ends[0]), ROW - 5, colour)
            self.words(max(ends[1], zero) + 4, y + 4, _figure(bar))
        self.rule(zero, top, zero, top - len(bars) * ROW, QUIET)

    def standing(
        self, area: Area, title: str, what: str, bars: Sequence[tuple[str, str, int]]
    ) -> None:
        """Draw a bar for each month or year, up for profit and down for loss.

        Each has a name, a second line under that, and its amount.
        """
        top = self.head(area, title, what)
        bottom = area.top - area.height + 14
        amounts = [amount for _, _, amount in bars]
        low, high = min(0, *amounts), max(0, *amounts)
        scale = (top - bottom - 22) / ((high - low) or 1)
        zero = bottom + 11 - low * scale
        step = area.width / max(len(bars), 6)
        every = max(1, round(30 / step))
        biggest = max(map(abs, amounts))
        for at, (name, under, amount) in enumerate(bars):
            x = area.left + at * step
            middle = x + step / 2
            high_end = zero + max(0, amount * scale)
            low_end = zero + min(0, amount * scale)
            self.block(
                x + step * 0.15, low_end, step * 0.7, high_end - low_end,
                GAIN if amount >= 0 else COST,
            )  # fmt: skip
            if amount and (every == 1 or abs(amount) == biggest):
                y = high_end + 3 if amount > 0 else low_end - 9
                self.words(middle, y, _rounded(amount), SMALL, align="middle")
            if at % every == 0:
                self.words(middle, bottom - 9, name, SMALL, colour=QUIET, align="middle")
            self.words(middle, bottom - 19, under, SMALL, colour=QUIET, align="middle")
        self.rule(area.left, zero, area.left + step * max(len(bars), 6), zero, QUIET)


def _figure(bar: Bar) -> str:
    return shown(bar.amount) + (f"  {bar.note}" if bar.note else "")


def _rounded(amount: int) -> str:
    """Return an amount in whole units, for the narrow room over a month."""
    return shown(round(amount, -2)).removesuffix(".00")
