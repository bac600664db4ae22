"""A pen for small line drawings as SVG, coloured by the page's own style sheet.

Lengths are units of the drawing; every shape has a class, so that it is as readable in the dark.
"""

from __future__ import annotations

from math import atan2, cos, pi, sin
from xml.sax.saxutils import escape, quoteattr

WIDE, HIGH = 200, 112
ARROW, SPREAD = 7.0, 0.38
"""How long an arrow's head is, and by what angle its sides open, in radians."""


class Pen:
    """Collects the shapes of one drawing; `svg` gives it with its title for who cannot see it."""

    def __init__(self, title: str, wide: int = WIDE, high: int = HIGH) -> None:
        self._title = title
        self._size = wide, high
        self._shapes: list[str] = []

    def line(self, x1: float, y1: float, x2: float, y2: float, kind: str = "part") -> None:
        """Draw a straight line."""
        self.path(f"M{x1:g} {y1:g}L{x2:g} {y2:g}", kind)

    def path(self, course: str, kind: str = "part") -> None:
        """Draw along an SVG path."""
        self._shapes.append(f'<path class="{kind}" d="{course}"/>')

    def circle(self, x: float, y: float, radius: float, kind: str = "part") -> None:
        """Draw a circle."""
        self._shapes.append(f'<circle class="{kind}" cx="{x:g}" cy="{y:g}" r="{radius:g}"/>')

    def box(
        self, x: float, y: float, wide: float, high: float, kind: str = "part", round_: float = 0
    ) -> None:
        """Draw a rectangle, `round_` at its corners."""
        self._shapes.append(
            f'<rect class="{kind}" x="{x:g}" y="{y:g}" width="{wide:g}" height="{high:g}"'
            f' rx="{round_:g}"/>'
        )

    def words(self, x: float, y: float, text: str, align: str = "middle") -> None:
        """Write a text on its base line."""
        self._shapes.append(
            f'<text x="{x:g}" y="{y:g}" text-anchor="{align}">{escape(text)}</text>'
        )

    def across(self, x1: float, y1: float, x2: float, y2: float, text: str = "") -> None:
        """Draw a dimension with an arrow at each end, and its name above its middle."""
        angle = atan2(y2 - y1, x2 - x1)
        self.line(x1, y1, x2, y2, "dim")
        for x, y, turned in ((x1, y1, angle), (x2, y2, angle + pi)):
            ends = [
                (x + ARROW * cos(turned + side), y + ARROW * sin(turned + side))
                for side in (SPREAD, -SPREAD)
            ]
            (xa, ya), (xb, yb) = ends
            self.path(f"M{x:.1f} {y:.1f}L{xa:.1f} {ya:.1f}L{xb:.1f} {yb:.1f}Z", "head")
        if not text:
            return
        upright = abs(x2 - x1) < abs(y2 - y1)
        x, y = (x1 + x2) / 2, (y1 + y2) / 2
        self.words(x + 5 if upright else x, y + 4 if upright else y - 4, text,
                   "start" if upright else "middle")  # fmt: skip

    def from_edge(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Draw the thin line that leads from an edge to its dimension."""
        self.line(x1, y1, x2, y2, "lead")

    def svg(self) -> str:
        """Return the drawing."""
        wide, high = self._size
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}" role="img"'
            f" aria-label={quoteattr(self._title)}>{''.join(self._shapes)}</svg>"
        )
