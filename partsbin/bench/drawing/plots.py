"""The plots of the books as SVG for the page: the same bars, coloured by its style sheet."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape, quoteattr

from labels.lettering import shortened, tidy, width
from partsbin.workshop.plots import (
    BOTH,
    COST,
    GAIN,
    INK,
    PAPER,
    QUIET,
    ROW,
    RULE,
    USUAL,
    Area,
    Bar,
    Colour,
    Pencil,
    shown,
)

CLASSES = {
    INK: "ink",
    QUIET: "quiet",
    RULE: "rule",
    PAPER: "paper",
    GAIN: "gain",
    COST: "cost",
    BOTH: "both",
}
ANCHORS = {"left": "start", "middle": "middle", "right": "end"}
WIDE = 250.0
STANDING_HIGH = 140.0


class SvgPencil(Pencil):
    """Draws words and bars into an SVG of a size, whose upper edge is at `high`."""

    def __init__(self, high: float) -> None:
        self._high = high
        self._shapes: list[str] = []

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
        """Write a text on a line, shortened to its room if it has one.

        It is as wide as the plot reckons with, whatever letters the browser has.
        """
        text = tidy(text)
        if room:
            text = shortened(text, room / size, bold=bold)
        weight = ' font-weight="bold"' if bold else ""
        wide = width(text, bold=bold) * size
        self._shapes.append(
            f'<text class="{CLASSES[colour]}" x="{x:.1f}" y="{self._high - y:.1f}"'
            f' font-size="{size:g}" text-anchor="{ANCHORS[align]}"{weight}'
            f' textLength="{wide:.1f}" lengthAdjust="spacingAndGlyphs">{escape(text)}</text>'
        )

    def block(self, x: float, y: float, wide: float, high: float, colour: Colour) -> None:
        """Fill a rectangle; `y` is its lower edge."""
        self._shapes.append(
            f'<rect class="{CLASSES[colour]}" x="{x:.1f}" y="{self._high - y - high:.1f}"'
            f' width="{wide:.1f}" height="{high:.1f}"/>'
        )

    def rule(self, x1: float, y1: float, x2: float, y2: float, colour: Colour = RULE) -> None:
        """Draw a fine line."""
        self._shapes.append(
            f'<line class="{CLASSES[colour]}" x1="{x1:.1f}" y1="{self._high - y1:.1f}"'
            f' x2="{x2:.1f}" y2="{self._high - y2:.1f}"/>'
        )

    def head(self, area: Area, title: str, what: str = "") -> float:
        """Return where the plot begins: title and what stand beside it as words of the page."""
        del title, what
        return area.top - 2

    def svg(self, title: str) -> str:
        """Return the drawing, named for who cannot see it."""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE:g} {self._high:g}"'
            f' role="img" aria-label={quoteattr(title)}>{"".join(self._shapes)}</svg>'
        )


def lying(title: str, bars: Sequence[Bar]) -> str:
    """Return bars that lie below each other as SVG; what they say is in its name too."""
    high = max(len(bars), 1) * ROW + 8
    pencil = SvgPencil(high)
    pencil.lying(Area(2, high, WIDE - 4, high), title, "", bars)
    told = "; ".join(f"{bar.name} {shown(bar.amount)} {bar.note}".rstrip() for bar in bars)
    return pencil.svg(f"{title}: {told or 'nothing in this period'}")


def standing(title: str, bars: Sequence[tuple[str, str, int]]) -> str:
    """Return a bar for each month or year as SVG; those with an amount are in its name too."""
    pencil = SvgPencil(STANDING_HIGH)
    pencil.standing(Area(2, STANDING_HIGH, WIDE - 4, STANDING_HIGH - 12), title, "", bars)
    told = "; ".join(f"{name} {shown(amount)}" for name, _, amount in bars if amount)
    return pencil.svg(f"{title}: {told or 'nothing in this period'}")
