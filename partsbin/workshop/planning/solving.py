"""Solves a programme by HiGHS, one objective after the other: solve, fix, solve the next."""

from __future__ import annotations

import math
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.workshop.planning.programme import OBJECTIVES, Programme, Row

if TYPE_CHECKING:
    import numpy as np
    from highspy import Highs
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Whole = NDArray[np.int32]

HALF = 0.5
"""All coefficients are whole: what is above the optimum is above it by one at least."""


@dataclass(frozen=True, slots=True)
class Stage:
    """One objective: its value, the proven bound, and whether the two are one."""

    objective: str
    value: int
    bound: int

    @property
    def proven(self) -> bool:
        """Return whether nothing better exists."""
        return self.value <= self.bound

    @property
    def gap(self) -> float:
        """Return how much of the value may be too much, as a share of it; 0 if it is proven."""
        return 0.0 if self.proven else (self.value - self.bound) / self.value


@dataclass(frozen=True, slots=True)
class Solved:
    """The columns of the best plan found, its objectives, and how long it took."""

    values: tuple[int, ...]
    stages: tuple[Stage, ...]
    seconds: float

    @property
    def proven(self) -> bool:
        """Return whether every objective is proven."""
        return len(self.stages) == len(OBJECTIVES) and all(stage.proven for stage in self.stages)


def solve(
    programme: Programme, limit: float | None = None, last: str = OBJECTIVES[-1]
) -> Solved | None:
    """Return the best values of a programme, None if it cannot be satisfied at all.

    Objectives after the `last` one are not made least.

    With a limit in seconds the best that was found by then is returned with its bound; then None
    may also mean that nothing was found.
    """
    started = time.monotonic()
    highs = _loaded(programme)
    values: list[int] | None = None
    stages: list[Stage] = []
    for objective in OBJECTIVES[: OBJECTIVES.index(last) + 1]:
        costs = programme.objectives[objective]
        if not costs or (values is not None and programme.figure(objective, values) == 0):
            # No coefficient is negative: nothing is less than nothing.
            stages.append(Stage(objective, 0, 0))
            _fix(highs, costs, 0)
            continue
        left = None if limit is None else limit - (time.monotonic() - started)
        found = _stage(highs, programme, costs, left)
        if found is None and values is not None and limit is None:
            # What was found before satisfies all rows: only rounding can have hidden it.
            highs.setOptionValue("presolve", "off")
            found = _stage(highs, programme, costs, left)
            highs.setOptionValue("presolve", "choose")
        if found is None:
            return None if values is None else _ended(programme, values, stages, started)
        values, bound = found
        figure = programme.figure(objective, values)
        stages.append(Stage(objective, figure, min(bound, figure)))
        if not stages[-1].proven:
            return _ended(programme, values, stages, started)
        _fix(highs, costs, figure)
    if values is None:
        # Nothing costs anything, but the rows must hold.
        found = _stage(highs, programme, {}, limit)
        if found is None:
            return None
        values = found[0]
    return _ended(programme, values, stages, started)


def is_feasible(programme: Programme, off: frozenset[object] = frozenset()) -> bool:
    """Return whether the rows can be satisfied, those with a label in `off` left out."""
    highs = _loaded(programme, off)
    return _stage(highs, programme, {}, None) is not None


def _ended(
    programme: Programme, values: list[int], stages: Sequence[Stage], started: float
) -> Solved:
    """Return what was found, with the objectives that were not reached without a bound."""
    reached = {stage.objective for stage in stages}
    rest = [
        Stage(name, programme.figure(name, values), 0) for name in OBJECTIVES if name not in reached
    ]
    return Solved(tuple(values), (*stages, *rest), time.monotonic() - started)


def _loaded(programme: Programme, off: frozenset[object] = frozenset()) -> Highs:
    import highspy
    import numpy as np

    highs = silent()
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.setOptionValue("mip_abs_gap", HALF)
    columns = len(programme.upper)
    upper = np.array(programme.upper, dtype=float)
    highs.addVars(columns, np.zeros(columns), upper)
    whole = np.flatnonzero(programme.whole).astype(np.int32)
    integer = np.full(len(whole), highspy.HighsVarType.kInteger.value, dtype=np.uint8)
    highs.changeColsIntegrality(len(whole), whole, integer)
    rows = [row for row in programme.rows if row.label is None or row.label not in off]
    highs.addRows(*rows_of(rows))
    return highs


def silent() -> Highs:
    """Return a solver that prints nothing and uses one thread."""
    import highspy

    class Quiet(highspy.Highs):
        """HiGHS without callbacks: to set them up would print its banner among the results."""

        def __init__(self) -> None:
            super(highspy.Highs, self).__init__()

    highs = Quiet()
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("threads", 1)
    return highs


def rows_of(rows: Sequence[Row]) -> tuple[int, Floats, Floats, int, Whole, Whole, Floats]:
    """Return rows as HiGHS takes them: how many, their bounds, and their terms one by one."""
    import numpy as np

    least = np.array([-math.inf if r.least is None else r.least for r in rows], dtype=float)
    most = np.array([math.inf if r.most is None else r.most for r in rows], dtype=float)
    sizes = np.array([len(r.terms) for r in rows], dtype=np.int32)
    starts = np.concatenate(([0], np.cumsum(sizes)[:-1])).astype(np.int32)
    index = np.array([c for r in rows for c in r.terms], dtype=np.int32)
    value = np.array([v for r in rows for v in r.terms.values()], dtype=float)
    return len(rows), least, most, len(index), starts, index, value


def _stage(
    highs: Highs,
    programme: Programme,
    costs: dict[int, int],
    limit: float | None,
) -> tuple[list[int], int] | None:
    """Return the best columns for one objective and its proven bound, None if there are none."""
    import highspy
    import numpy as np

    # Left to itself HiGHS may give back what an earlier stage had found.
    highs.clearSolver()
    if limit is not None:
        if limit <= 0:
            return None
        highs.setOptionValue("time_limit", highs.getRunTime() + limit)
    columns = len(programme.upper)
    cost = np.zeros(columns)
    for column, coefficient in costs.items():
        cost[column] = coefficient
    highs.changeColsCost(columns, np.arange(columns, dtype=np.int32), cost)

    highs.run()
    info = highs.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    values = [round(v) for v in highs.getSolution().col_value]
    figure = sum(coefficient * values[column] for column, coefficient in costs.items())
    if highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return values, max(0, min(figure, math.ceil(info.mip_dual_bound - HALF / 10)))
    if abs(figure - info.objective_function_value) > HALF:
        raise RuntimeError("the solver's columns are not those of its optimum")
    return values, figure


def _fix(highs: Highs, costs: dict[int, int], figure: int) -> None:
    import highspy
    import numpy as np

    if costs:
        index = np.array(list(costs), dtype=np.int32)
        value = np.array(list(costs.values()), dtype=float)
        highs.addRow(-highspy.kHighsInf, figure + HALF, len(index), index, value)
