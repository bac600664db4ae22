"""What to change at the printer, told from the scan lines of a print. Limits: common practice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from labels.reading.grades import DEFECTS, MODULATION, by_limits, grades_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from labels.reading.scan_profile import Scan

#: Below this many pixels a module the picture's blur, or the camera's sharpening, hides the print.
FEW_PIXELS = 4.0
#: Bars wider or narrower than drawn by more than this many X.
MUCH_GROWTH = 0.2
#: Mean error of the edges' places, in X, that a print exact to the dot stays under.
UNEVEN_EDGES = 0.1
#: A flaw at one place, within this many X, in this share of the lines is a streak.
STREAK_WIDTH, STREAK_SHARE = 1.5, 0.6


def advice_for(scans: Sequence[Scan], pixels_per_module: float) -> tuple[str, ...]:
    """Return what would better the print, the surest first; nothing when it is good."""
    read = [scan for scan in scans if scan.decoded]
    if not read:
        return (
            "The bars could be found but not measured: take the picture nearer and straight on.",
        )
    found = [
        _picture(pixels_per_module),
        _contrast(read),
        _growth(read),
        _edges(read),
        _flaws(read),
        _modulation(read),
    ]
    return tuple(sentence for sentence in found if sentence)


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


def _picture(pixels_per_module: float) -> str:
    if pixels_per_module >= FEW_PIXELS:
        return ""
    return (
        f"The narrowest bar is only {pixels_per_module:.1f} pixels wide, so the picture tells"
        " little of the print: take it nearer, or scan it at 600 dpi."
    )


def _contrast(scans: Sequence[Scan]) -> str:
    if _mean([grades_of(scan)["symbol contrast"] for scan in scans]) >= 3:
        return ""
    return "Bars and paper differ too little: print darker, or on whiter, matt labels."


def _growth(scans: Sequence[Scan]) -> str:
    growth = _mean([scan.growth for scan in scans])
    if growth > MUCH_GROWTH:
        return (
            f"The bars are {growth:.2f} X too wide: lower the darkness or the ink,"
            " or choose a larger X."
        )
    if growth < -MUCH_GROWTH:
        return f"The bars are {-growth:.2f} X too narrow: print darker or slower."
    return ""


def _edges(scans: Sequence[Scan]) -> str:
    """Say whether edges stand wrong in the same places in all lines: the drawing, not the ink."""
    lines = [scan.offsets for scan in scans]
    means = [_mean(places) for places in zip(*lines, strict=True)]
    if _mean([mean * mean for mean in means]) ** 0.5 <= UNEVEN_EDGES:
        return ""
    return (
        "The bars are not exact to the printer's dots: set the printer's true dots per inch,"
        " and print at 100 %, not fitted to the page."
    )


def _flaws(scans: Sequence[Scan]) -> str:
    bad = [scan.worst_spot for scan in scans if by_limits(scan.defects, DEFECTS) < 3]
    if len(bad) < STREAK_SHARE * len(scans):
        return "" if not bad else "There are spots or gaps in some lines: clean the label."
    middle = sorted(bad)[len(bad) // 2]
    near = [place for place in bad if abs(place - middle) <= STREAK_WIDTH]
    if len(near) >= STREAK_SHARE * len(scans):
        return (
            f"A streak runs through the bars {middle:.0f} X from their start: clean the print head"
            " or the drum; if it stays, a dot is burnt out."
        )
    return "Spots or gaps are all over the bars: clean the head, and use smoother labels."


def _modulation(scans: Sequence[Scan]) -> str:
    if _mean([by_limits(scan.modulation, MODULATION) for scan in scans]) >= 3:
        return ""
    return "Narrow bars and spaces are much fainter than wide ones: choose a larger X."
