"""One scan line across bars: its reflectance profile measured after ISO/IEC 15416's parameters.

Sources: the parameters and their limits as axicon.com/fractional-grading and the Printronix T5000r
manual (p. 73) give them; the decodability of Code 128 (edge to similar edge, and the sum of the
bars) from memory of ISO/IEC 15417. Neither standard itself was seen.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: Share of light that white paper is taken to return, since a picture has no absolute scale.
PAPER = 0.85
#: Modules beside the bars that are measured with them, within the 10 of the quiet zone.
BESIDE = 5
#: Elements (bars and spaces) and modules of a Code 128 character.
ELEMENTS, MODULES = 6, 11
#: Largest sum of bars that may be off, in modules (ISO/IEC 15417, from memory).
BARS_SLACK = 1.75


@dataclass(frozen=True, slots=True, eq=False)
class Scan:
    """What one scan line measures; shares are 0 to 1, lengths in modules (X)."""

    decoded: bool
    contrast: float = 0.0
    dark_enough: bool = False
    edge_contrast: float = 0.0
    modulation: float = 0.0
    defects: float = 1.0
    decodability: float = 0.0
    module: float = 0.0
    growth: float = 0.0
    offsets: tuple[float, ...] = ()
    worst_spot: float = 0.0


def measured(profile: NDArray[np.float64], expected: tuple[int, ...]) -> Scan:
    """Return the measures of a reflectance profile in which `expected` widths are to be found.

    Not `decoded` when the profile does not have these bars.
    """
    import numpy as np

    middle = (profile.max() + profile.min()) / 2
    edges = crossings(profile, float(middle))
    start = _start(profile, edges, expected, float(middle))
    if start is None:
        return Scan(decoded=False)
    symbol = edges[start : start + len(expected) + 1]
    module = float(symbol[-1] - symbol[0]) / sum(expected)
    first = max(int(symbol[0] - BESIDE * module), 0)
    last = min(int(symbol[-1] + BESIDE * module) + 1, len(profile))
    light, dark = float(profile[first:last].max()), float(profile[first:last].min())
    bounds = np.concatenate(([first], symbol, [last]))
    elements = [
        profile[int(np.ceil(a)) : max(int(np.ceil(b)), int(np.ceil(a)) + 1)]
        for a, b in pairwise(bounds)
    ]
    edge = _least_edge(elements)
    flaw, place = _worst_flaw(elements)
    contrast = light - dark
    decodability = _decodability(np.diff(symbol), expected)
    offsets, growth = _offsets(symbol, expected, module)
    return Scan(
        decoded=decodability > 0,
        contrast=contrast,
        dark_enough=dark <= light / 2,
        edge_contrast=edge,
        modulation=edge / contrast,
        defects=flaw / contrast,
        decodability=decodability,
        module=module,
        growth=growth,
        offsets=offsets,
        worst_spot=float((bounds[place] - symbol[0]) / module),
    )


def crossings(profile: NDArray[np.float64], level: float) -> NDArray[np.float64]:
    """Return where the profile crosses the level, between samples."""
    import numpy as np

    above = profile > level
    at = np.nonzero(above[1:] != above[:-1])[0]
    rise = profile[at + 1] - profile[at]
    return np.asarray(at + (level - profile[at]) / rise, dtype=np.float64)


def _start(
    profile: NDArray[np.float64],
    edges: NDArray[np.float64],
    expected: tuple[int, ...],
    level: float,
) -> int | None:
    """Return the edge that the symbol starts at: the one from which the widths fit best."""
    import numpy as np

    wanted = np.array(expected, np.float64)
    best, found = 0.9, None
    for start in range(len(edges) - len(expected)):
        if profile[min(int(edges[start]) + 1, len(profile) - 1)] > level:
            continue  # a space: symbols start with a bar
        widths = np.diff(edges[start : start + len(expected) + 1])
        error = float(np.abs(widths / widths.sum() * wanted.sum() - wanted).max())
        if error < best:
            best, found = error, start
    return found


def _least_edge(elements: list[NDArray[np.float64]]) -> float:
    """Return the smallest step in reflectance between a space and the bar beside it."""
    extremes = [part.min() if at % 2 else part.max() for at, part in enumerate(elements)]
    return float(min(abs(a - b) for a, b in pairwise(extremes)))


def _worst_flaw(elements: list[NDArray[np.float64]]) -> tuple[float, int]:
    """Return the largest unevenness inside one element (a spot or void), and which element."""
    worst, place = 0.0, 0
    for at, element in enumerate(elements):
        # A bar's flaw is a light peak in it, a space's a dark dip: turn spaces over.
        part = element if at % 2 else -element
        peaks = part[1:-1][(part[1:-1] >= part[:-2]) & (part[1:-1] >= part[2:])]
        if len(peaks) and peaks.max() - part.min() > worst:
            worst, place = float(peaks.max() - part.min()), at
    return worst, place


def _decodability(widths: NDArray[np.float64], expected: tuple[int, ...]) -> float:
    """Return the smallest margin of any character, 1 perfect, 0 misread."""
    margins = []
    for start in range(0, len(expected) - 1, ELEMENTS):
        character = slice(start, start + ELEMENTS)
        margins.append(_margin(widths[character], expected[character]))
    return max(min(margins), 0.0)


def _margin(widths: NDArray[np.float64], expected: tuple[int, ...]) -> float:
    scaled = widths / widths.sum() * sum(expected)
    pairs = [
        0.5 - abs(scaled[at] + scaled[at + 1] - expected[at] - expected[at + 1])
        for at in range(ELEMENTS - 2)
    ]
    bars = abs(scaled[::2].sum() - sum(expected[::2]))
    return float(min(min(pairs) / 0.5, (BARS_SLACK - bars) / BARS_SLACK))


def _offsets(
    symbol: NDArray[np.float64], expected: tuple[int, ...], module: float
) -> tuple[tuple[float, ...], float]:
    """Return how far each edge stands from its place, and how much too wide the bars are, in X.

    A smooth stretch along the symbol is the camera's view, not the printer's, and is taken out.
    """
    import numpy as np

    places = np.concatenate(([0], np.cumsum(expected))).astype(np.float64)
    side = np.where(np.arange(len(places)) % 2 == 0, -0.5, 0.5)
    basis = np.column_stack((np.ones_like(places), places, places**2, side))
    seen = symbol / module
    weights = np.linalg.lstsq(basis, seen, rcond=None)[0]
    return tuple(float(value) for value in seen - basis @ weights), float(weights[3])
