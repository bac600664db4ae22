"""Where things stand on a label, in printer dots from its lower left corner."""

from dataclasses import dataclass
from math import ceil

from labels.code128 import CHARACTER, SHORTEST
from labels.code128 import QUIET as BARS_QUIET
from labels.label import Shape
from labels.lettering import CAP, DESCENT, width
from labels.number import GROUP, LabelNumber, grouped
from labels.printer import Printer
from labels.qr import QUIET as QR_QUIET
from labels.qr import SIDE

MARGIN_UM = 1_500
"""White rim of every label; 1 mm on labels lower than 20 mm (common practice, no source)."""
SMALL_MARGIN_UM = 1_000
SMALL_UM = 20_000
GAP_UM = 1_000
"""White between blocks."""

BARS_X_UM = (250, 508)
"""Least and most X-dimension: comfortable for hand-held reading to as wide as is useful
(from memory; scanner manuals at manualsdump.com read 10.4 mil to 127 mm)."""
BARS_LEAST_HEIGHT_UM = 6_350
"""Bars are at least 6.35 mm high or 15 % of their length (reportlab's code128 names the rule)."""
QR_MODULE_UM = (375, 1_200)
QR_LEAST_MODULE_UM = 250
"""The module of the smallest labels, whose QR has no company."""

POINT_UM = 25_400 / 72
LEAST_POINTS = 6.4
"""The least type that is read at arm's length in bad light (common practice, no source)."""

LEADING = 1.25
"""Baseline to baseline, in ems."""
NUMBER_LEADING = 0.92
"""The same for the rows of a number, which has no descenders."""
LAST_ROW_APART = 0.11
"""White over the last row, in ems."""
OVERSHOOT = 0.016
"""How far round digits reach over a flat one and below the baseline, in ems (DejaVu Sans)."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle of the label, from its lower left corner."""

    x: int
    y: int
    width: int
    height: int

    def right_of(self, width: int, gap: int) -> "Box":
        """Return what is left of the box right of `width` and a gap."""
        return Box(self.x + width + gap, self.y, self.width - width - gap, self.height)

    def above(self, height: int, gap: int) -> "Box":
        """Return what is left of the box above `height` and a gap."""
        return Box(self.x, self.y + height + gap, self.width, self.height - height - gap)

    def below_top(self, height: int, gap: int) -> "Box":
        """Return what is left of the box under `height` and a gap."""
        return Box(self.x, self.y, self.width, self.height - height - gap)


@dataclass(frozen=True, slots=True)
class Symbol:
    """Bars or a QR: its first dark module's corner, the dots of a module, the height."""

    x: int
    y: int
    unit: int
    height: int


@dataclass(frozen=True, slots=True)
class NumberRows:
    """The number: its box, type size in dots and on how many rows."""

    box: Box
    size: int
    rows: int

    @classmethod
    def height(cls, size: int, rows: int) -> int:
        """Return the height of a number of that size on so many rows."""
        return ceil(size * (CAP + 2 * OVERSHOOT + (rows - 1) * NUMBER_LEADING))

    @property
    def baseline(self) -> int:
        """Where its last row stands: the round digits reach a little below."""
        return self.box.y + ceil(OVERSHOOT * self.size)


@dataclass(frozen=True, slots=True)
class Words:
    """The box of the words, and how large they are set in it, all in dots.

    `title` and `line` are the sizes that suit the label, `least` is the smallest that can be read.
    A caution mark `mark` high at the upper left indents the title beside it by `indent`.
    """

    box: Box
    title: int
    line: int
    least: int
    indent: int = 0
    mark: int = 0

    @property
    def rows(self) -> int:
        """Rows of lines under one row of title."""
        below = self.box.height - CAP * self.title - self.lead - DESCENT * self.line
        return max(0, int(below / (self.line * LEADING) + 1))

    @property
    def last_row(self) -> int:
        """Height of the row at the foot of the box."""
        return ceil((CAP + DESCENT + LAST_ROW_APART) * self.line)

    @property
    def lead(self) -> float:
        """Distance from the title's baseline to that of the first line."""
        return LEADING * self.line + 0.2 * self.title


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A whole label; what is None is not on it."""

    qr: Symbol
    bars: Symbol | None = None
    number: NumberRows
    words: Words | None = None
    caution: Box | None = None
    hole: tuple[int, int, int] | None = None


@dataclass(frozen=True, slots=True)
class Room:
    """What a layout is made for: the label's inside, the printer, and what must go on."""

    inside: Box
    printer: Printer
    shape: Shape
    digits: int
    caution: bool

    def dots(self, length_um: float) -> int:
        """Return a length in dots."""
        return self.printer.dots(round(length_um))

    def points(self, size: float) -> int:
        """Return a type size of so many points in dots, never a dot less."""
        return self.printer.whole_dots(round(size * POINT_UM))

    def words(self, box: Box, title: int, line: int) -> Words:
        """Return the words of a box in type of these sizes."""
        return Words(box, title, line, min(line, self.points(LEAST_POINTS)))

    @property
    def gap(self) -> int:
        """White between blocks, in dots."""
        return self.dots(GAP_UM)

    def number_width(self, size: int, rows: int) -> int:
        """Return the width of the number on one row, or with each group on a row of its own."""
        sample = "0" * GROUP if rows > 1 else grouped(LabelNumber("0" * self.digits))
        return ceil(size * width(sample, bold=True))

    @property
    def groups(self) -> int:
        """Groups of digits in the number."""
        return ceil(self.digits / GROUP)

    @property
    def bars_modules(self) -> int:
        """Modules of the bars without quiet zones: 79 for 8 digits, 90 for 10."""
        return SHORTEST + CHARACTER * (self.digits // 2)

    @property
    def bars_modules_with_quiet(self) -> int:
        """Modules of the bars and the white on both sides."""
        return self.bars_modules + 2 * BARS_QUIET

    def x_dimensions(self) -> range:
        """Return the X-dimensions to try, in dots, the narrowest first."""
        least, most = BARS_X_UM
        return range(
            self.printer.whole_dots(least), max(self.printer.whole_dots(least), self.dots(most)) + 1
        )

    def bars_height(self, unit: int) -> int:
        """Return the least height of bars of that X-dimension, in dots."""
        return max(
            self.printer.whole_dots(BARS_LEAST_HEIGHT_UM), self.bars_modules * unit * 15 // 100 + 1
        )

    def bars_at(self, box: Box, unit: int) -> Symbol:
        """Return the bars in the middle of a box as high as it."""
        spare = box.width - self.bars_modules_with_quiet * unit
        return Symbol(box.x + spare // 2 + BARS_QUIET * unit, box.y, unit, box.height)

    def qr_unit(self, width: int, height: int) -> int:
        """Return the dots of a module of the largest QR with quiet zone in that space."""
        return min(width // QR_MODULES, height // QR_MODULES, self.dots(QR_MODULE_UM[1]))

    def qr_at(self, box: Box, unit: int) -> Symbol:
        """Return the QR at the upper left of a box, its quiet zone inside the box."""
        quiet = QR_QUIET * unit
        top = box.y + box.height - quiet
        return Symbol(box.x + quiet, top - SIDE * unit, unit, SIDE * unit)


QR_MODULES = SIDE + 2 * QR_QUIET
"""Modules of the QR and the white around it."""
