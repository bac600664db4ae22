from __future__ import annotations

from functools import cache

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.verdict import Verdict
from partsbin.workshop.planning.optimum import Optimum, optimum
from partsbin.workshop.planning.places import Source
from tests.workshop.small_shops import SmallShop, best, small_shop, vector_of

SHOPS = 500
AT_ONCE = 25


@cache
def planned(seed: int) -> tuple[SmallShop, Optimum]:
    """Return a small shop and its plan, found only once."""
    shop = small_shop(seed)
    return shop, optimum(shop.sites, shop.shelf, shop.units)


@pytest.mark.parametrize("first", range(0, SHOPS, AT_ONCE))
def test_no_plan_is_better_than_the_one_found(first: int) -> None:
    """In small shops the plan equals the best of all combinations, in every objective.

    Every combination of choices is judged as a whole bike by the judge itself; the tables, the
    pruning and the programme of the plan take no part in it.
    """
    for seed in range(first, first + AT_ONCE):
        shop, found = planned(seed)

        assert found.solved.proven, seed
        assert vector_of(found.chosen) == best(shop), seed


@pytest.mark.parametrize("first", range(0, SHOPS, 100))
def test_no_planned_bike_clashes(first: int) -> None:
    """Judged whole, with its adapters, no planned bike clashes, whatever the shop."""
    for seed in range(first, first + 100):
        for filled in planned(seed)[1].chosen:
            there = [(place, choice.spec) for place, choice in filled if choice.spec is not None]
            pieces = [spec.piece for _, spec in there]

            judgement = judge(pieces, [place.end for place, _ in there])

            assert judgement.verdict is not Verdict.CLASH, (seed, judgement.interfaces[0])


def test_the_shops_are_of_all_sorts() -> None:
    """The small shops have purchases, makeshifts, doubts, open needs, swaps and combined levers."""
    seen: dict[str, int] = {}
    for seed in range(SHOPS):
        found = planned(seed)[1]
        for stage in found.solved.stages:
            seen[stage.objective] = seen.get(stage.objective, 0) + (stage.value > 0)
        for filled in found.chosen:
            for place, choice in filled:
                if choice.source is Source.SHARED:
                    seen["combined"] = seen.get("combined", 0) + 1
                if place.now and not place.need and choice.source in (Source.STOCK, Source.BOUGHT):
                    seen["swap"] = seen.get("swap", 0) + 1

    assert {name for name, count in seen.items() if count >= 3} >= {
        *("makeshift", "money", "doubts", "value", "adapters", "age", "combined", "swap")
    }
