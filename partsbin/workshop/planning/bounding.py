"""Proves from below what plans cost at least, and how much more with one choice or another.

The linear relaxation of a programme gives the price of each row. Whatever those prices are, a bound
follows from them by adding up, so that the proof rests on no tolerance of the solver.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.workshop.planning.programme import OBJECTIVES, Programme
from partsbin.workshop.planning.solving import rows_of, silent

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SLACK = 0.01
"""More than what adding up in floating point can be wrong by; objectives are whole numbers."""
USED = OBJECTIVES.index("value")
"""The objective at which plans of a well-stocked workshop differ."""


@dataclass(frozen=True, slots=True)
class Bound:
    """What every plan costs at least.

    None has less than `before` in the first objectives. Of those that have just that, none has less
    than `least` in the next one, and with a column `more` on top.
    """

    before: tuple[int, ...]
    least: float
    more: NDArray[np.float64]

    @property
    def complete(self) -> bool:
        """Return whether no plan is better than that for which it was found."""
        return len(self.before) == len(OBJECTIVES)

    def applies(self, best: Sequence[int]) -> bool:
        """Return whether plans at least as good as the best are among those it speaks of."""
        return self.before == tuple(best[: len(self.before)])

    def beyond(self, best: Sequence[int]) -> NDArray[np.bool_]:
        """Return for each column whether every plan that has it is worse than the best."""
        if self.complete:
            return self.more > 0
        return self.least + self.more > best[len(self.before)] + SLACK


def bound_of(programme: Programme, best: Sequence[int] | None = None) -> Bound | None:
    """Return what the plans of a programme cost at least, None if it cannot be satisfied.

    It is that of the first objective in which the best known plan may be beaten; without one that
    of the value of stock used.
    """
    import numpy as np

    relaxed = _Relaxed(programme)
    before: list[int] = []
    for name in OBJECTIVES:
        costs = programme.objectives[name]
        if not costs or (best is not None and best[len(before)] == 0):
            relaxed.bar(costs)
            before.append(0)
            continue
        found = relaxed.solved(costs)
        if found is None:
            return None
        least, more = found
        figure = max(0, math.ceil(least - SLACK))
        better = best is not None and figure < best[len(before)]
        if better or (best is None and len(before) == USED):
            return Bound(tuple(before), least, more)
        relaxed.fix(costs, figure)
        before.append(figure)
    return Bound(tuple(before), 0.0, np.where(relaxed.barred, math.inf, 0.0))


class _Relaxed:
    """The linear relaxation of a programme, to which rows are added."""

    def __init__(self, programme: Programme) -> None:
        import numpy as np

        self._highs = silent()
        self._upper = np.array(programme.upper, dtype=float)
        self._size = len(self._upper)
        self._highs.addVars(self._size, np.zeros(self._size), self._upper)
        rows = rows_of(programme.rows)
        self._highs.addRows(*rows)
        _, self._least, self._most, _, starts, self._index, self._value = rows
        counts = np.diff([*starts, len(self._index)])
        self._row = np.repeat(np.arange(len(starts)), counts)
        self.barred = np.zeros(self._size, dtype=bool)

    def bar(self, costs: dict[int, int]) -> None:
        """Leave out the columns that cost anything."""
        import numpy as np

        index = np.array([column for column, cost in costs.items() if cost > 0], dtype=np.int32)
        if len(index):
            self.barred[index] = True
            self._highs.changeColsBounds(
                len(index), index, np.zeros(len(index)), np.zeros(len(index))
            )

    def fix(self, costs: dict[int, int], figure: int) -> None:
        """Leave out what costs more than a figure."""
        import numpy as np

        index = np.array(list(costs), dtype=np.int32)
        value = np.array(list(costs.values()), dtype=float)
        self._highs.addRow(-math.inf, figure, len(index), index, value)
        self._row = np.concatenate((self._row, np.full(len(index), len(self._least))))
        self._index = np.concatenate((self._index, index))
        self._value = np.concatenate((self._value, value))
        self._least = np.append(self._least, -math.inf)
        self._most = np.append(self._most, figure)

    def solved(self, costs: dict[int, int]) -> tuple[float, NDArray[np.float64]] | None:
        """Return what is paid at least, and how much more with each column; None if nothing is."""
        import highspy
        import numpy as np

        cost = np.zeros(self._size)
        cost[list(costs)] = list(costs.values())
        self._highs.changeColsCost(self._size, np.arange(self._size, dtype=np.int32), cost)
        self._highs.run()
        if self._highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        # A price may only have the sign of a bound that is there; any such prices are a proof.
        price = np.array(self._highs.getSolution().row_dual)
        price[np.isinf(self._least)] = np.minimum(price[np.isinf(self._least)], 0)
        price[np.isinf(self._most)] = np.maximum(price[np.isinf(self._most)], 0)
        bound = np.where(price > 0, self._least, self._most)
        paid = price[price != 0] @ bound[price != 0]
        reduced = cost - np.bincount(self._index, self._value * price[self._row], self._size)
        free = np.where(self.barred, 0.0, self._upper)
        least = paid + np.minimum(reduced, 0) @ free
        return least, np.where(self.barred, math.inf, np.maximum(reduced, 0))
