"""Finds the best plan of some bikes: judges, prunes, writes the programme, solves it."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.modelling import model_of
from partsbin.workshop.planning.places import (
    UNMET,
    Choice,
    Offer,
    Place,
    Site,
    Source,
    StockItem,
    Unit,
)
from partsbin.workshop.planning.programme import OBJECTIVES
from partsbin.workshop.planning.pruning import Pruned, kind_demand, pruned
from partsbin.workshop.planning.solving import Solved, Stage, is_feasible, solve

if TYPE_CHECKING:
    from partsbin.stock.ids import SpecId

Units = Callable[[Mapping["SpecId", int]], Mapping["SpecId", Sequence[Unit]]]
"""Returns the units of some specs in the order of their use, as many as are asked of each."""


@dataclass(frozen=True, slots=True)
class Optimum:
    """The best plan: what fills each place of each bike, and the proof."""

    chosen: list[list[tuple[Place, Choice]]]
    solved: Solved


def optimum(
    sites: Sequence[Site],
    shelf: Offer,
    units: Units,
    limit: float | None = None,
    bench: Bench | None = None,
) -> Optimum:
    """Return the best plan of some bikes; a need that cannot be met is left open and counted.

    First every need is to be met; only if that is shown to be impossible for a bike, it may leave
    needs open, and only then, if its parts clash among themselves, lose some of them.
    """
    ends = math.inf if limit is None else time.monotonic() + limit
    bench = bench or Bench(shelf)
    demand = kind_demand([site.places for site in sites])
    if (best := _strict(bench, sites, shelf, units, demand, ends)) is not None:
        return best
    levels = [0] * len(sites)
    while time.monotonic() < ends:
        models = [
            _pruned(bench, site, demand, level) for site, level in zip(sites, levels, strict=True)
        ]
        models = _with_units(models, units)
        if not _relaxed(bench, shelf, models, levels):
            model = model_of(bench, shelf, models)
            solved = solve(model.programme, _left(ends))
            if solved is not None:
                return Optimum(model.chosen(solved.values), solved)
            levels = [min(level + 1, LAST) for level in levels]
    return _nothing(sites)


def _left(ends: float) -> float | None:
    return None if math.isinf(ends) else max(ends - time.monotonic(), 0.0)


def _strict(
    bench: Bench,
    sites: Sequence[Site],
    shelf: Offer,
    units: Units,
    demand: Mapping[str, int],
    ends: float,
) -> Optimum | None:
    """Return the best plan that buys nothing and leaves no doubt, None if there is none.

    If there is one it is the best of all: no plan spends less than nothing.
    """
    models = [pruned(bench, site.places, demand, strict=True) for site in sites]
    if any(c is UNMET for one in models for place in one.places for c in place.choices):
        return None
    model = model_of(bench, shelf, _with_units(models, units))
    for name in ("money", "doubts"):
        # An adapter may still cost money or be a doubt.
        model.programme.row(model.programme.objectives[name].items(), None, 0)
        model.programme.objectives[name] = {}
    solved = solve(model.programme, _left(ends))
    return None if solved is None else Optimum(model.chosen(solved.values), solved)


STANDING = (Source.KEPT, Source.EMPTY, Source.UNMET, Source.SHARED)
"""What is in a place if nothing is done, the first of these that may be."""


def _nothing(sites: Sequence[Site]) -> Optimum:
    """Return that nothing is done, for want of time to find better."""
    chosen = []
    for site in sites:
        of_site = []
        for place in site.places:
            choices = (c for source in STANDING for c in place.choices if c.source is source)
            of_site.append((place, next(choices, UNMET)))
        chosen.append(of_site)
    unmet = sum(c is UNMET for of_site in chosen for _, c in of_site)
    stages = [Stage(name, unmet if name == "unmet" else 0, 0) for name in OBJECTIVES]
    return Optimum(chosen, Solved((), tuple(stages), 0.0))


LAST = 2
"""Everything may be left out; then there is always a plan."""


def _relaxed(bench: Bench, shelf: Offer, models: Sequence[Pruned], levels: list[int]) -> bool:
    """Return whether a bike had to be allowed more, because alone it cannot be made right."""
    changed = False
    for i, one in enumerate(models):
        if levels[i] == LAST:
            continue
        if not is_feasible(model_of(bench, shelf, [one]).programme):
            levels[i] += 1
            changed = True
    return changed


def _pruned(bench: Bench, site: Site, demand: Mapping[str, int], level: int) -> Pruned:
    places = site.places if level < LAST else tuple(map(_may_go, site.places))
    return pruned(bench, places, demand, unmet=level > 0)


def _may_go(place: Place) -> Place:
    """Return a place that may also be left open; the frame stays, for the bike hangs on it."""
    if place.name == "frame" or UNMET in place.choices:
        return place
    return place.having((*place.choices, UNMET))


def _with_units(models: Sequence[Pruned], units: Units) -> list[Pruned]:
    """Return the bikes with as many units of each spec as they could use together."""
    uses: dict[SpecId, int] = {}
    items: dict[SpecId, StockItem] = {}
    for one in models:
        for place in one.places:
            for choice in place.choices:
                if choice.stock is not None:
                    uses[choice.stock.id] = uses.get(choice.stock.id, 0) + 1
                    items[choice.stock.id] = choice.stock
    several = {spec: count for spec, count in uses.items() if count > 1}
    more = units(several) if several else {}
    full = {spec: replace(items[spec], units=tuple(found)) for spec, found in more.items()}
    return [_refilled(one, full) for one in models] if full else list(models)


def _refilled(one: Pruned, full: Mapping[SpecId, StockItem]) -> Pruned:
    places = tuple(
        place.having(
            replace(c, stock=full[c.stock.id]) if c.stock and c.stock.id in full else c
            for c in place.choices
        )
        for place in one.places
    )
    return replace(one, places=places)


def open_needs(chosen: Collection[tuple[Place, Choice]]) -> list[Place]:
    """Return the places that a plan leaves open."""
    return [place for place, choice in chosen if choice.source is Source.UNMET]
