"""Listed sizes, and the size that a reading is taken for."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass, field

from partsbin.standards.length import Length, mm

NEAREST_TO_MIDPOINT = mm(0.05)
"""A reading nearer than this to the middle between two sizes is taken for neither."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes that a table lists for one dimension, and the names that mean the same size."""

    listed: tuple[Length, ...]
    source: str
    same: Mapping[Length, Length] = field(default_factory=dict)
    _points: tuple[Length, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_points", tuple(sorted({*self.listed, *self.same})))

    def possible(self, reading: Length) -> tuple[Length, ...]:
        """Return the one listed size that a reading is taken for, or the two it lies between.

        A reading far beyond the ends of the table is a size of its own.

        >>> seatposts = sizes("27.0 27.2 27.4", source="example")
        >>> seatposts.possible(mm(27.18))
        (27200,)
        >>> seatposts.possible(mm(27.10))
        (27000, 27200)
        """
        points, same = self._points, self.same
        at = bisect_left(points, reading)
        if at < len(points) and points[at] == reading:
            return (same.get(reading, reading),)
        if at == 0:
            return self._beyond(reading, points[0], self.listed[:2])
        if at == len(points):
            return self._beyond(reading, points[-1], self.listed[-2:])
        low, high = points[at - 1], points[at]
        from_middle = 2 * reading - (low + high)
        below, above = same.get(low, low), same.get(high, high)
        if below != above and abs(from_middle) < 2 * NEAREST_TO_MIDPOINT:
            return (below, above)
        return (below,) if from_middle < 0 else (above,)

    def _beyond(
        self, reading: Length, end: Length, last_two: tuple[Length, ...]
    ) -> tuple[Length, ...]:
        half_gap = (last_two[-1] - last_two[0]) // 2
        near = abs(reading - end) <= half_gap - NEAREST_TO_MIDPOINT
        return (self.same.get(end, end),) if near else (reading,)


def sizes(listed: str, *, source: str, same: Mapping[str, str] | None = None) -> Sizes:
    """Return the table of the sizes that a row of millimetre figures names, in order.

    >>> sizes("25.4 31.8", source="example", same={"31.7": "31.8"}).possible(mm(31.7))
    (31800,)
    """
    return Sizes(
        tuple(sorted(mm(figure) for figure in listed.split())),
        source,
        {mm(other): mm(usual) for other, usual in (same or {}).items()},
    )
