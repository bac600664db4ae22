"""A printer: its dots, and what its test page showed.

Bars are exact only if the X-dimension is a whole number of printer dots and the first bar starts
on a dot. Heads of "203 dpi" have 8 dots/mm (203.2), those of "300" 11.81 or 12 (304.8), those of
"600" 23.62; source: barcodefactory.com and blog.uniquepos.com (2013).

>>> printer = Printer(dpi="203.2")
>>> printer.dots(1_000), printer.whole_dots(250)
(8, 2)
>>> Printer(dpi=300).whole_dots(250)
3
"""

from dataclasses import dataclass, replace
from decimal import Decimal
from math import ceil

UM_PER_INCH = 25_400
LOWEST_DPI = 100
HIGHEST_DPI = 5_000
FARTHEST_SHIFT_UM = 10_000
LARGEST_SCALE_PPM = 50_000


class PrinterError(ValueError):
    """A setting that no printer has."""


@dataclass(frozen=True, slots=True)
class Printer:
    """A printer's resolution and the corrections read off its test page.

    `shift_x_um` moves everything right, `shift_y_um` down. `scale_x_ppm` and `scale_y_ppm` spread
    the labels apart by millionths, never the bars themselves. `edge_um` is the rim of a sheet
    that the printer cannot reach (4.2 mm: common practice, no source). Raises PrinterError for
    what cannot be a printer.
    """

    dpi: Decimal | int | str = 600
    shift_x_um: int = 0
    shift_y_um: int = 0
    scale_x_ppm: int = 0
    scale_y_ppm: int = 0
    edge_um: int = 4_200

    def __post_init__(self) -> None:
        object.__setattr__(self, "dpi", _resolution(self.dpi))
        for shift in (self.shift_x_um, self.shift_y_um):
            if abs(shift) > FARTHEST_SHIFT_UM:
                raise PrinterError(
                    f"A shift of {shift / 1000:g} mm is more than a printer is ever out "
                    f"({FARTHEST_SHIFT_UM / 1000:g} mm): measure the test page again."
                )
        for scale in (self.scale_x_ppm, self.scale_y_ppm):
            if abs(scale) > LARGEST_SCALE_PPM:
                raise PrinterError(
                    f"A scale of {scale / 10_000:g} % is no printer's error: print the test page "
                    'at 100 %, without "fit to page", and measure it again.'
                )

    @property
    def dots_per_inch(self) -> Decimal:
        """The resolution as an exact number."""
        return Decimal(self.dpi)

    def dots(self, length_um: int) -> int:
        """Return the whole number of dots nearest to a length."""
        return round(length_um * self.dots_per_inch / UM_PER_INCH)

    def whole_dots(self, least_um: int) -> int:
        """Return the fewest dots that are at least `least_um` wide: an X-dimension."""
        return ceil(least_um * self.dots_per_inch / UM_PER_INCH)

    def length_um(self, dots: int) -> int:
        """Return the length of so many dots, in whole micrometres."""
        return round(dots * UM_PER_INCH / self.dots_per_inch)

    def place(self, x_um: int, y_um: int) -> tuple[int, int]:
        """Return the dots right and down of the sheet's corner at which a point is to be printed.

        Shift and scale are applied here, then the point is snapped to the nearest dot.
        """
        x = x_um * (1_000_000 + self.scale_x_ppm) // 1_000_000 + self.shift_x_um
        y = y_um * (1_000_000 + self.scale_y_ppm) // 1_000_000 + self.shift_y_um
        return self.dots(x), self.dots(y)

    def corrected(
        self,
        *,
        right_um: int = 0,
        down_um: int = 0,
        ruler_x_um: int | None = None,
        ruler_y_um: int | None = None,
        ruler_um: int = 100_000,
    ) -> "Printer":
        """Return this printer with what its test page showed taken back.

        `right_um` and `down_um` say how far the frames lie right of and below the labels' edges;
        `ruler_x_um` and `ruler_y_um` how long the rulers of `ruler_um` came out.
        """
        return replace(
            self,
            shift_x_um=self.shift_x_um - right_um,
            shift_y_um=self.shift_y_um - down_um,
            scale_x_ppm=self.scale_x_ppm + _ppm(ruler_um, ruler_x_um),
            scale_y_ppm=self.scale_y_ppm + _ppm(ruler_um, ruler_y_um),
        )


def _resolution(dpi: Decimal | int | str) -> Decimal:
    """Return the dots per inch as a Decimal; raises PrinterError outside 100 to 5000."""
    try:
        exact = Decimal(dpi)
    except ArithmeticError:
        exact = Decimal("NaN")
    if not exact.is_finite():
        raise PrinterError(
            f"{dpi!r} is no resolution: give dots per inch, for instance 203.2, 300 or 600."
        )
    if not LOWEST_DPI <= exact <= HIGHEST_DPI:
        raise PrinterError(
            f"No label printer has {dpi} dots per inch: "
            f"give a number from {LOWEST_DPI} to {HIGHEST_DPI}."
        )
    return exact


def _ppm(wanted_um: int, measured_um: int | None) -> int:
    """Return by how many millionths to spread so that `measured_um` becomes `wanted_um`."""
    if measured_um is None:
        return 0
    if measured_um <= 0:
        raise PrinterError("A ruler has some length: measure the printed ruler again.")
    return round((wanted_um - measured_um) * 1_000_000 / measured_um)
