"""Outlines from points: discs, rings, bars and ribbons as SVG path data.

Lengths are millimetres of the drawing, x to the front and y down, as SVG counts.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import atan2, cos, hypot, pi, sin
from typing import NamedTuple


class Point(NamedTuple):
    """A place in the drawing."""

    x: float
    y: float

    def to(self, along: float, angle: float) -> Point:
        """Return the point so far away at an angle in radians, from x towards y."""
        return Point(self.x + along * cos(angle), self.y + along * sin(angle))

    def moved(self, x: float = 0, y: float = 0) -> Point:
        """Return the point moved."""
        return Point(self.x + x, self.y + y)


def between(a: Point, b: Point, share: float) -> Point:
    """Return the point after a share of the way.

    >>> between(Point(0, 0), Point(10, 20), 0.5)
    Point(x=5.0, y=10.0)
    """
    return Point(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)


def heading(a: Point, b: Point) -> float:
    """Return the angle from one point to another in radians."""
    return atan2(b.y - a.y, b.x - a.x)


def distance(a: Point, b: Point) -> float:
    """Return how far apart two points are."""
    return hypot(b.x - a.x, b.y - a.y)


def disc(middle: Point, radius: float) -> str:
    """Return a filled circle.

    >>> disc(Point(0, 0), 10)
    'M10 0A10 10 0 1 1 -10 0A10 10 0 1 1 10 0Z'
    """
    right, left = _at(middle.moved(radius)), _at(middle.moved(-radius))
    arc = f"A{_n(radius)} {_n(radius)} 0 1 1 "
    return f"M{right}{arc}{left}{arc}{right}Z"


def ring(middle: Point, outer: float, inner: float) -> str:
    """Return a ring; it is hollow where a fill follows the even-odd rule."""
    return disc(middle, outer) + disc(middle, inner)


def polygon(points: Iterable[Point]) -> str:
    """Return a closed outline through some points.

    >>> polygon([Point(0, 0), Point(5, 0), Point(5, 2.4)])
    'M0 0L5 0L5 2Z'
    """
    return "M" + "L".join(_at(point) for point in points) + "Z"


def bar(a: Point, b: Point, wide: float, end: float | None = None) -> str:
    """Return a tube from one point to another, `end` as wide at its other end, with round ends."""
    across = heading(a, b) + pi / 2
    first, last = wide / 2, (wide if end is None else end) / 2
    arc = f"A{_n(last)} {_n(last)} 0 0 1 "
    back = f"A{_n(first)} {_n(first)} 0 0 1 "
    return (
        f"M{_at(a.to(-first, across))}L{_at(b.to(-last, across))}{arc}{_at(b.to(last, across))}"
        f"L{_at(a.to(first, across))}{back}{_at(a.to(-first, across))}Z"
    )


def ribbon(course: Sequence[Point], wide: float) -> str:
    """Return a band of one width along a course of points."""
    left, right = [], []
    for at, point in enumerate(course):
        before, after = course[max(at - 1, 0)], course[min(at + 1, len(course) - 1)]
        across = heading(before, after) + pi / 2
        left.append(point.to(-wide / 2, across))
        right.append(point.to(wide / 2, across))
    return polygon([*left, *reversed(right)])


def arc(middle: Point, radius: float, start: float, end: float, steps: int = 14) -> list[Point]:
    """Return points along a circle between two angles in radians."""
    return [middle.to(radius, start + (end - start) * n / steps) for n in range(steps + 1)]


def toothed(middle: Point, radius: float, teeth: int, deep: float = 7) -> str:
    """Return a wheel with teeth; `radius` is that of the chain's run."""
    step = 2 * pi / teeth
    corners = (
        (0.0, radius + deep / 2), (0.2, radius + deep / 2),
        (0.5, radius - deep / 2), (0.7, radius - deep / 2),
    )  # fmt: skip
    return polygon(middle.to(r, step * (n + part)) for n in range(teeth) for part, r in corners)


def spokes(middle: Point, inner: float, outer: float, count: int) -> str:
    """Return spokes that cross, from the flange of a hub to the rim, as lines."""
    lines = []
    for n in range(count):
        outside = 2 * pi * n / count
        lean = 1.1 if n % 2 else -1.1
        lines.append(f"M{_at(middle.to(inner, outside + lean))}L{_at(middle.to(outer, outside))}")
    return "".join(lines)


def _n(number: float) -> str:
    """Return a length to the nearest millimetre: finer than a screen shows."""
    return str(round(number))


def _at(point: Point) -> str:
    return f"{_n(point.x)} {_n(point.y)}"
