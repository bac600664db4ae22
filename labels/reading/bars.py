"""Where bars are in a picture and how they run, found from the directions of its gradients.

Bars are a patch in which nearly all gradients share one direction, across the bars. Where the
gradients are strongly one-directional and neighbouring cells agree on the direction, there is a
patch. This costs one pass over the picture, whatever the turn, where turning the picture costs a
pass for each angle and misses those between.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from labels.reading.gradients import CELL, Tensor
from labels.reading.patches import Patch

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: Directions are sorted into this many sectors, and gathered from each two that are neighbours.
SECTORS = 12
NOWHERE = 255
#: A smaller group of cells is no bars; 79 modules of 1.1 pixels are 11 cells long.
LEAST_CELLS = 16
SHORTEST = 60.0
#: Bars are seldom higher than wide; wires and edges are, by far.
HIGHEST_RATIO = 2.0
#: Strength that one direction must have at least.
DIRECTED = 8.0
#: Share of the gradients (beyond the noise) that must run one way.
COHERENCE = 0.45
#: The box is widened by these: ends that are covered or faint still belong to the bars.
WIDER, HIGHER = 1.2, 1.1


def find_bars(tensor: Tensor, most: int) -> list[Patch]:
    """Return the likeliest patches of bars, the strongest first, at most `most`."""
    import numpy as np

    strong = one_way(tensor) & tensor.filled
    sectors = np.where(strong, tensor.angle * (SECTORS / 180), NOWHERE).astype(np.uint8)
    groups: list[tuple[int, NDArray[np.intp], NDArray[np.intp]]] = []
    for sector in range(SECTORS):
        both = (sectors == sector) | (sectors == (sector + 1) % SECTORS)
        groups.extend(cell_groups(both, LEAST_CELLS))
    groups.sort(key=lambda group: -group[0])
    found = [_patch(tensor, rows, columns) for _, rows, columns in groups[: 3 * most]]
    return _distinct([patch for patch in found if _may_be_bars(patch)], most)


def _may_be_bars(patch: Patch) -> bool:
    return patch.length > WIDER * SHORTEST and patch.height < HIGHEST_RATIO * patch.length


def one_way(tensor: Tensor) -> NDArray[np.bool_]:
    """Return the cells whose gradients run mostly one way, beyond what noise would give."""
    import numpy as np

    strong = tensor.directed > max(DIRECTED, 0.5 * tensor.noise)
    clear = tensor.directed > COHERENCE * np.maximum(tensor.energy - tensor.noise, 0.01)
    return np.asarray(strong & clear)


def cell_groups(
    mask: NDArray[np.bool_], least: int
) -> list[tuple[int, NDArray[np.intp], NDArray[np.intp]]]:
    """Return the connected groups of at least `least` cells: their size, rows and columns."""
    import cv2
    import numpy as np

    count, marks, stats, _ = cv2.connectedComponentsWithStats(mask.astype(np.uint8), connectivity=8)
    found = []
    for mark in range(1, count):
        left, top, wide, high, area = (int(value) for value in stats[mark])
        if area >= least:
            rows, columns = np.nonzero(marks[top : top + high, left : left + wide] == mark)
            found.append((area, rows + top, columns + left))
    return found


def _patch(tensor: Tensor, rows: NDArray[np.intp], columns: NDArray[np.intp]) -> Patch:
    """Return the box round one connected group of cells."""
    import numpy as np

    directed = tensor.directed[rows, columns]
    twice = np.deg2rad(2 * tensor.angle[rows, columns])
    turn = np.arctan2((directed * np.sin(twice)).sum(), (directed * np.cos(twice)).sum()) / 2
    x, y = (columns + 0.5) * CELL, (rows + 0.5) * CELL
    along = x * np.cos(turn) + y * np.sin(turn)
    upward = -x * np.sin(turn) + y * np.cos(turn)
    middle, level = (along.min() + along.max()) / 2, (upward.min() + upward.max()) / 2
    return Patch(
        x=float(middle * np.cos(turn) - level * np.sin(turn)),
        y=float(middle * np.sin(turn) + level * np.cos(turn)),
        angle=float(np.rad2deg(turn)),
        length=float(np.ptp(along) + CELL) * WIDER,
        height=float(np.ptp(upward) + CELL) * HIGHER,
        weight=float(np.sqrt(directed).sum()),
    )


def _distinct(found: list[Patch], most: int) -> list[Patch]:
    """Return the heaviest patches, without those that lie on one already taken."""
    kept: list[Patch] = []
    for patch in sorted(found, key=lambda patch: -patch.weight):
        if all(not _same(patch, other) for other in kept):
            kept.append(patch)
            if len(kept) == most:
                break
    return kept


def _same(one: Patch, other: Patch) -> bool:
    """Return whether two patches are one, seen from two neighbouring sectors."""
    turned = abs((one.angle - other.angle + 90) % 180 - 90)
    apart = max(abs(one.x - other.x), abs(one.y - other.y))
    return turned < 20 and apart < 0.3 * max(one.length, one.height)
