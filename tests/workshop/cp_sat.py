"""A second solver for the programmes of plans: CP-SAT of OR-tools, stage after stage."""

from __future__ import annotations

from ortools.sat.python import cp_model

from partsbin.workshop.planning.programme import OBJECTIVES, Programme


def solved_by_cp_sat(programme: Programme) -> list[int] | None:
    """Return the optimum of each objective, the former ones fixed; None if nothing is possible."""
    model = cp_model.CpModel()
    columns = [model.new_int_var(0, upper, f"x{n}") for n, upper in enumerate(programme.upper)]
    for row in programme.rows:
        total = sum(coefficient * columns[c] for c, coefficient in row.terms.items())
        if not row.terms:
            if (row.least or 0) > 0:
                return None
            continue
        if row.least is not None:
            model.add(total >= row.least)
        if row.most is not None:
            model.add(total <= row.most)
    best = []
    for name in OBJECTIVES:
        costs = programme.objectives[name]
        total = sum(cost * columns[c] for c, cost in costs.items())
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        model.minimize(total)
        if solver.solve(model) != cp_model.OPTIMAL:
            return None
        figure = round(solver.objective_value) if costs else 0
        best.append(figure)
        if costs:
            model.add(total <= figure)
    return best
