from __future__ import annotations

import random
from dataclasses import replace

import pytest

from partsbin.stock.ids import BikeId
from partsbin.workshop.planning import alone
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.bounding import bound_of
from partsbin.workshop.planning.drawing import Terms
from partsbin.workshop.planning.modelling import model_of
from partsbin.workshop.planning.optimum import optimum
from partsbin.workshop.planning.places import UNMET, Choice, Place, Site, Source
from partsbin.workshop.planning.pruning import kind_demand, pruned
from tests.workshop.cp_sat import solved_by_cp_sat
from tests.workshop.small_shops import SmallShop, best, large_shop, small_shop, vector_of


def crowded(seed: int) -> SmallShop:
    """Return a workshop where several bikes like the first one want the same few parts."""
    shop = small_shop(seed)
    first = shop.sites[0]
    sites = [_again(first, n) for n in range(random.Random(seed).randint(3, 5))]
    return replace(shop, sites=sites)


def _again(one: Site, n: int) -> Site:
    places = tuple(replace(place, bike=n) for place in one.places)
    return Site(n, BikeId(n + 1), f"Bike {n}", places)


@pytest.mark.parametrize("first", range(0, 200, 25))
def test_a_few_choices_at_first_lead_to_the_same_plan(
    first: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """If only one choice of a place is looked at first, the plan still is the best of all."""
    monkeypatch.setattr(alone, "FEW", 1)
    monkeypatch.setattr(alone, "MORE", 2)
    for seed in range(first, first + 25):
        shop = small_shop(seed)

        found = optimum(shop.sites, shop.shelf, shop.units)

        assert found.solved.proven, seed
        assert vector_of(found.chosen) == best(shop), seed
        assert tuple(s.value for s in found.solved.stages) == vector_of(found.chosen), seed


@pytest.mark.parametrize("first", range(0, 60, 10))
def test_bikes_that_quarrel_are_planned_as_well_as_in_one_programme(first: int) -> None:
    """Bikes planned apart at prices cost together what CP-SAT (OR-tools) finds for all at once.

    The one programme has all bikes and may leave needs open, or parts out if nothing else helps.
    """
    for seed in range(first, first + 10):
        shop = crowded(seed)

        found = optimum(shop.sites, shop.shelf, shop.units)

        assert found.solved.proven, seed
        figures = [stage.value for stage in found.solved.stages]
        assert figures == _at_once(shop), seed
        assert tuple(figures) == vector_of(found.chosen), seed


def _at_once(shop: SmallShop) -> list[int] | None:
    bench = Bench(shop.shelf)
    for out in (False, True):
        bikes = [[p.having(_choices(p, out=out)) for p in one.places] for one in shop.sites]
        demand = kind_demand(bikes)
        models = [pruned(bench, places, demand, unmet=True) for places in bikes]
        model = model_of(bench, shop.shelf, models, Terms(shop.units).drawn)
        found = solved_by_cp_sat(model.programme)
        if found is not None:
            return found
    return None


def _choices(place: Place, *, out: bool) -> tuple[Choice, ...]:
    more = out and place.name != "frame" and UNMET not in place.choices
    return (*place.choices, UNMET) if more else place.choices


def test_the_workshops_are_crowded() -> None:
    """In some of them a spec goes to several bikes, and in some a need stays open."""
    shared = left = 0
    for seed in range(60):
        found = optimum((shop := crowded(seed)).sites, shop.shelf, shop.units)
        uses = [{c.stock.id for _, c in f if c.stock is not None} for f in found.chosen]
        shared += sum(map(len, uses)) > len(set().union(*uses))
        left += any(c.source is Source.UNMET for f in found.chosen for _, c in f)

    assert shared >= 5
    assert left >= 5


@pytest.mark.parametrize("seed", range(6))
def test_no_plan_is_below_the_bound(seed: int) -> None:
    """The best plan that CP-SAT (OR-tools) finds costs what the bound says, or more."""
    shop = large_shop(seed)
    one = shop.sites[0]
    bench = Bench(shop.shelf)
    left = pruned(bench, one.places, kind_demand([one.places]), unmet=True)
    programme = model_of(bench, shop.shelf, [left], Terms(shop.units).endless).programme
    figures = solved_by_cp_sat(programme)

    bound = bound_of(programme, figures)

    if figures is None:
        assert bound is None
        return
    assert bound is not None
    assert list(bound.before) == figures[: len(bound.before)]
    assert bound.complete or bound.least <= figures[len(bound.before)] + 0.01
    assert not bound.beyond(figures).all()
