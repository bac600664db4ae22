"""Rows of type set one under the other from the top of a box."""

from copy import copy
from dataclasses import dataclass

from labels.lettering import CAP, DESCENT, flowed, line, whole
from labels.plan import LEADING, Box

APART = 0.06
"""Least white between the ink of two rows, in ems of the lower one."""
LEADING_LEAST = 1.06
"""Baseline to baseline where rows stand close, in ems."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of type: where its baseline starts and how high it is, in dots."""

    x: int
    y: int
    size: int
    text: str
    bold: bool


class Column:
    """Rows in a box, from its top; a row with high or deep letters takes more room.

    `corner` is the width and height of what stands at the box's upper left already.
    """

    def __init__(self, box: Box, corner: tuple[int, int] = (0, 0)) -> None:
        self._box = box
        self._aside, corner_high = corner
        self._beside = box.y + box.height - corner_high * 9 // 8
        self._foot = self._lowest = float(box.y + box.height)
        self.rows: tuple[Row, ...] = ()

    @property
    def fits(self) -> bool:
        """Whether the last row stands above the foot of the box."""
        return self._lowest >= self._box.y

    def room(self, size: int) -> float:
        """Return the width of the box in ems."""
        return self._box.width / size

    def set(self, text: str, size: int, *, bold: bool, step: float, beside: bool = False) -> None:
        """Set a row `step` dots under the last one, or as much lower as its ink asks for.

        It stands `beside` the corner, or is lowered until it is clear of it.
        """
        drawn = line(text, bold=bold)
        rise, depth = max(CAP, drawn.top) * size, max(DESCENT, -drawn.bottom) * size
        if self.rows:
            y = min(self.rows[-1].y - step, self._foot - rise - APART * size)
        else:
            y = self._foot - rise
        if not beside:
            y = min(y, self._beside - rise)
        at = int(y // 1)
        x = self._box.x + (self._aside if beside else 0)
        self.rows += (Row(x, at, size, text, bold),)
        self._foot, self._lowest = at + min(drawn.bottom, 0) * size, at - depth

    def flow(self, items: tuple[str, ...], size: int, lead: float) -> bool:
        """Set items on as many rows as go, the first `lead` under the last row.

        Return whether all of them are told.
        """
        most = int((self._lowest - self._box.y) / (LEADING_LEAST * size)) + 1
        for count in range(most, 0, -1):
            texts = flowed(items, self.room(size), count)
            for leading in (LEADING, LEADING_LEAST):
                trial = copy(self)
                for at, text in enumerate(texts):
                    trial.set(text, size, bold=False, step=leading * size if at else lead)
                if trial.fits:
                    vars(self).update(vars(trial))
                    return whole(texts, items)
        return not items
