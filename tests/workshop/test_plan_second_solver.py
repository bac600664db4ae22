from __future__ import annotations

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.verdict import Verdict
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.modelling import model_of
from partsbin.workshop.planning.optimum import optimum
from partsbin.workshop.planning.pruning import kind_demand, pruned
from partsbin.workshop.planning.solving import solve
from tests.workshop.cp_sat import solved_by_cp_sat
from tests.workshop.small_shops import large_shop


@pytest.mark.parametrize("seed", range(12))
def test_another_solver_finds_the_same_optimum(seed: int) -> None:
    """On whole bikes with dozens of parts CP-SAT (OR-tools) finds the same figure in every stage.

    The programme is the one that may leave needs open, so that it can always be satisfied.
    """
    shop = large_shop(seed)
    bench = Bench(shop.shelf)
    demand = kind_demand([site.places for site in shop.sites])
    models = [pruned(bench, site.places, demand, unmet=True) for site in shop.sites]
    programme = model_of(bench, shop.shelf, models).programme

    ours = solve(programme)

    theirs = solved_by_cp_sat(programme)
    if ours is None:
        assert theirs is None
    else:
        assert ours.proven
        assert [stage.value for stage in ours.stages] == theirs


@pytest.mark.parametrize("seed", range(12))
def test_no_large_plan_clashes(seed: int) -> None:
    """Judged whole, no planned bike of a larger workshop clashes."""
    shop = large_shop(seed)
    for filled in optimum(shop.sites, shop.shelf, shop.units).chosen:
        there = [(place, choice.spec) for place, choice in filled if choice.spec is not None]

        judgement = judge([s.piece for _, s in there], [place.end for place, _ in there])

        assert judgement.verdict is not Verdict.CLASH
