"""Finds the best plan of several bikes, that only what they draw from the same stock joins.

One bike after the other is planned beside what the others take. The proof puts one price on each
spec, between the last unit taken and the next: what each bike costs at least alone at these prices,
less what the units taken cost less than them, is a bound for all bikes together in every objective
(Lagrange's relaxation). If the plans cost no more they are the best. If they do, the bikes are
solved as one programme, of the choices that are within the difference.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from operator import add, sub
from typing import TYPE_CHECKING

from partsbin.workshop.planning.alone import LAST, Alone, Search, Vector, alone, time_left
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.drawing import Filled, Terms, Units, beside, singly, uses_of
from partsbin.workshop.planning.modelling import LEFT_OUT, model_of
from partsbin.workshop.planning.places import Choice, Offer, Site, Unit
from partsbin.workshop.planning.programme import OBJECTIVES
from partsbin.workshop.planning.pruning import Pruned, kind_demand
from partsbin.workshop.planning.solving import Solved, Stage, solve

if TYPE_CHECKING:
    from partsbin.stock.ids import SpecId

UNMET, VALUE, AGE = map(OBJECTIVES.index, ("unmet", "value", "age"))


@dataclass(slots=True)
class Together:
    """The plans of several bikes while they are brought together."""

    bench: Bench
    shelf: Offer
    units: Units
    ends: float
    plans: list[Alone] = field(default_factory=list)
    held: dict[SpecId, list[Unit]] = field(default_factory=dict)
    """The first units of specs, one by one."""

    def best(self, sites: Sequence[Site]) -> tuple[list[Filled], Solved]:
        """Return the best plan of all bikes, and the proof."""
        for site in sites:
            terms = beside(self.units, self._uses())
            self.plans.append(alone(self.bench, self.shelf, site, terms, self.ends))
        proven = all(one.search and one.solved.proven for one in self.plans)
        if not proven or len(sites) == 1:
            return self._result(tuple(stage.bound for stage in self._stages()))
        prices = self._prices()
        cheapest = [self._on(one, prices) for one in self.plans]
        if not all(one.solved.proven for one in cheapest):
            return self._result(tuple(0 for _ in OBJECTIVES))
        least = self._least(cheapest, prices)
        more = tuple(map(sub, self._figures(), least))
        together = self._as_one(cheapest, prices, more) if any(more) else None
        return together or self._result(least)

    def _uses(self) -> Counter[SpecId]:
        return uses_of(one.filled for one in self.plans)

    def _hold(self, uses: Mapping[SpecId, int]) -> None:
        """Look up so many units of each spec, and one more."""
        more = {spec: n + 1 for spec, n in uses.items() if len(self.held.get(spec, ())) <= n}
        found = self.units(more) if more else {}
        self.held.update({spec: singly(us, more[spec]) for spec, us in found.items()})

    def _prices(self) -> Terms:
        """Return terms with one price for each spec in use, for which nobody should want another.

        It is halfway from the last unit taken to the next, or that of the last one there is.
        """
        uses = self._uses()
        self._hold(uses)
        prices: dict[SpecId, Unit | None] = {}
        for spec, count in uses.items():
            last, *after = self.held[spec][count - 1 : count + 1]
            value = sum(u.value for u in (last, *after)) // (1 + len(after))
            prices[spec] = replace(last, value=value)
        return Terms(self.units, prices, flat=True)

    def _cost(self, uses: Mapping[SpecId, int], terms: Terms) -> tuple[int, int]:
        """Return value and age of what a bike uses, on some terms."""
        value = age = 0
        found = {} if terms.flat else terms.units(uses)
        for spec, count in uses.items():
            price = terms.first.get(spec)
            units = [price] * count if terms.flat and price else singly(found[spec], count)
            value += sum(unit.value for unit in units)
            age += sum(unit.part for unit in units)
        return value, age

    def _on(self, one: Alone, terms: Terms) -> Alone:
        """Return the best plan of a bike on other terms, on which its plan can be had too."""
        assert one.search is not None
        value, age = self._cost(uses_of([one.filled]), terms)
        figures = (*one.vector[:VALUE], value, one.vector[VALUE + 1], age)
        stages = tuple(map(Stage, OBJECTIVES, figures, figures))
        known = replace(one, solved=replace(one.solved, stages=stages))
        found = one.search.best(terms, self.ends, known)
        return found or replace(known, solved=replace(known.solved, stages=stages[:1]))

    def _least(self, cheapest: Sequence[Alone], terms: Terms) -> Vector:
        """Return what no plan of all bikes falls below, given the best at some prices."""
        total = list(map(sum, zip(*(one.vector for one in cheapest), strict=True)))
        for spec, price in terms.first.items():
            assert price is not None
            for unit in self.held[spec]:
                if _rank(unit) < _rank(price):
                    total[VALUE] -= price.value - unit.value
                    total[AGE] -= price.part - unit.part
        return tuple(total)

    def _figures(self) -> Vector:
        """Return what the plans cost."""
        total = list(map(sum, zip(*(one.vector for one in self.plans), strict=True)))
        uses = self._uses()
        self._hold(uses)
        taken = [unit for spec, count in uses.items() for unit in self.held[spec][:count]]
        total[VALUE] = sum(unit.value for unit in taken)
        total[AGE] = sum(unit.part for unit in taken)
        return tuple(total)

    def _stages(self) -> tuple[Stage, ...]:
        return stages_of([one.solved for one in self.plans])

    def _result(self, least: Vector) -> tuple[list[Filled], Solved]:
        """Return the plans as they are, given what none falls below."""
        stages: list[Stage] = []
        for name, value, bound in zip(OBJECTIVES, self._figures(), least, strict=True):
            sure = all(stage.proven for stage in stages)
            stages.append(Stage(name, value, min(value, bound) if sure else 0))
        seconds = sum(one.solved.seconds for one in self.plans)
        return self._drawn([one.filled for one in self.plans], tuple(stages), seconds)

    def _drawn(
        self, chosen: Sequence[Filled], stages: tuple[Stage, ...], seconds: float
    ) -> tuple[list[Filled], Solved]:
        """Return plans that draw on the units that there are, not on terms."""
        self._hold(uses_of(chosen))
        drawn = [[(place, self._from_stock(choice)) for place, choice in f] for f in chosen]
        return drawn, Solved((), stages, seconds)

    def _from_stock(self, choice: Choice) -> Choice:
        if choice.stock is None:
            return choice
        units = tuple(self.held[choice.stock.id])
        return replace(choice, stock=replace(choice.stock, units=units))

    def _as_one(
        self, cheapest: Sequence[Alone], prices: Terms, more: Vector
    ) -> tuple[list[Filled], Solved] | None:
        """Return the best plan of all, each within `more` than it costs alone; None without time.

        Bikes are one programme only if they might use the same spec.
        """
        budgets = [tuple(map(add, one.vector, more)) for one in cheapest]
        searches = [self._wide(*both) for both in zip(cheapest, budgets, strict=True)]
        bikes = self._narrow(searches, prices, budgets)
        terms = Terms(self.units)
        chosen: list[Filled] = [[] for _ in bikes]
        found = []
        for group in _joined(bikes):
            model = model_of(self.bench, self.shelf, [bikes[n] for n in group], terms.drawn)
            solved = solve(model.programme, time_left(self.ends))
            if solved is None:
                return None
            found.append(solved)
            for n, filled in zip(group, model.chosen(solved.values), strict=True):
                chosen[n] = filled
        seconds = sum(one.seconds for one in (*found, *(one.solved for one in self.plans)))
        return self._drawn(chosen, stages_of(found), seconds)

    def _narrow(
        self, searches: Sequence[Search], prices: Terms, budgets: Sequence[Vector]
    ) -> list[Pruned]:
        """Return the bikes with the choices of plans that cost so much at most at some prices."""
        terms = Terms(self.units)
        each = list(zip(searches, budgets, strict=True))
        places = [terms.left(search.within(prices, budget)) for search, budget in each]
        demand = kind_demand(places)
        left = [s.pruned(of, terms, demand) for s, of in zip(searches, places, strict=True)]
        tight = [
            search.tightened(one, prices, budget)
            for one, (search, budget) in zip(left, each, strict=True)
        ]
        demand = kind_demand(tight)
        return [s.pruned(of, terms, demand) for s, of in zip(searches, tight, strict=True)]

    def _wide(self, one: Alone, budget: Vector) -> Search:
        """Return the search for plans of a bike that cost so much at most."""
        assert one.search is not None
        if budget[:VALUE] == one.vector[:VALUE]:
            return one.search
        open_ = budget[UNMET] - one.vector[UNMET]
        level = LAST if open_ >= LEFT_OUT else max(one.search.level, int(open_ > 0))
        return Search(self.bench, self.shelf, one.site, level, strict=False)


def _rank(unit: Unit) -> tuple[int, int]:
    return unit.value, unit.part


def stages_of(found: Sequence[Solved]) -> tuple[Stage, ...]:
    """Return the objectives of solutions that have nothing in common, added up."""
    added: list[Stage] = []
    for stages in zip(*(one.stages for one in found), strict=True):
        value, bound = sum(s.value for s in stages), sum(s.bound for s in stages)
        # What comes after an objective that may be less is not known to be least.
        sure = all(stage.proven for stage in added)
        added.append(Stage(stages[0].objective, value, bound if sure else 0))
    return tuple(added)


def _joined(bikes: Sequence[Pruned]) -> list[list[int]]:
    """Return the bikes in groups, of which no two could use the same spec from stock."""
    group = list(range(len(bikes)))
    first: dict[SpecId, int] = {}
    for n, bike in enumerate(bikes):
        for spec in {c.stock.id for p in bike.places for c in p.choices if c.stock is not None}:
            mine, other = group[n], group[first.setdefault(spec, n)]
            group = [mine if of == other else of for of in group]
    return [[n for n, of in enumerate(group) if of == one] for one in dict.fromkeys(group)]
