"""Finds the best plan of one bike: of a few near choices first, then of all that may beat it."""

from __future__ import annotations

import math
import time
from collections.abc import Collection, Sequence
from copy import copy
from dataclasses import dataclass, field, replace

from partsbin.fit.rule import Rule
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.bounding import USED, Bound, bound_of
from partsbin.workshop.planning.drawing import Filled, Terms
from partsbin.workshop.planning.modelling import Draw, Model, model_of
from partsbin.workshop.planning.places import NEW, UNMET, Offer, Place, Site, Source
from partsbin.workshop.planning.programme import OBJECTIVES
from partsbin.workshop.planning.pruning import Demand, Pruned, kind_demand, pruned, settled
from partsbin.workshop.planning.solving import Solved, Stage, solve
from partsbin.workshop.planning.table import Table
from partsbin.workshop.planning.tables import Tabler

FEW = 9
"""So many new choices of a place are looked at first, those that a bound says are nearest."""
MORE = 4
"""How many times as many are looked at if those cannot be made into a plan."""
ENOUGH = 100
"""If of so many no strict plan can be made, one that buys or measures is looked for."""
LAST = 2
"""Everything may be left out; then there is always a plan."""
LEVELS = ((0, True), (0, False), (1, False), (LAST, False))

Vector = tuple[int, ...]
"""The figures of all objectives."""


@dataclass(slots=True)
class Search:
    """The search for the best plan of one bike that may leave out so much.

    At level 0 every need is met for which anything is there; at 1 needs may stay open; at 2 what is
    on the bike may go too. A strict plan buys nothing, has no makeshift and leaves no doubt: the
    best of them, if there is any, is the best of all, for no plan spends less than nothing.
    """

    bench: Bench
    shelf: Offer
    site: Site
    level: int
    strict: bool
    tabler: Tabler = field(init=False)
    places: tuple[Place, ...] = field(init=False)
    """With what the interfaces between two of them leave."""
    pairs: tuple[Table, ...] = field(init=False)
    terms: Terms | None = field(init=False, default=None)
    relaxed: Model = field(init=False)
    """The programme at some terms, without the trains: each plan is one of its own."""
    bound: Bound | None = field(init=False, default=None)

    def __post_init__(self) -> None:
        self.tabler = Tabler(self.bench, self.strict)
        places = self.site.places if self.level < LAST else tuple(map(_may_go, self.site.places))
        self.places = tuple(settled(self.tabler, places, unmet=self.level > 0))
        self.pairs = tuple(self.tabler.tables(self.places, 2))

    def best(self, terms: Terms, ends: float, known: Alone | None = None) -> Alone | None:
        """Return the best plan on some terms, None if there is none, or no time.

        The best plan of a few choices is the best of all if all others are beyond it. A `known`
        plan, with what it costs on these terms, does as well.
        """
        if known is None:
            left_open = self.strict and any(
                UNMET in now.choices and len(before.choices) > 1
                for before, now in zip(self.site.places, self.places, strict=True)
            )
            if left_open or not self._relax(terms, None):
                return None
            known, whole = self._first(terms, ends)
            if known is None or whole or not _to_value(known):
                return known
        within = self.within(terms, known.vector)
        if self.bound is not None and self.bound.complete:
            stages = tuple(replace(stage, bound=stage.value) for stage in known.solved.stages)
            return replace(known, solved=replace(known.solved, stages=stages), search=self)
        return self._solved(within, terms, ends, best=known.vector) or known

    def _first(self, terms: Terms, ends: float) -> tuple[Alone | None, bool]:
        """Return the best plan of the nearest choices of which there is one, and if those are all.

        If they are not, nothing is made least beyond the value of stock used.
        """
        few = FEW
        while True:
            near = self._near(few)
            whole = _size(near) == _size(self.places)
            last = OBJECTIVES[-1 if whole else USED]
            found = self._solved(near, terms, ends, last)
            if found is not None or whole or (self.strict and few >= ENOUGH):
                return found, whole
            few *= MORE

    def _relax(self, terms: Terms, best: Vector | None) -> bool:
        """Find what all plans on some terms cost at least; return whether there may be any."""
        if self.terms is not terms:
            self.terms = terms
            self.relaxed = self._model(Pruned(self.places, self.pairs), terms.endless)
            self.bound = None
        if self.bound is None or (best is not None and not self.bound.applies(best)):
            self.bound = bound_of(self.relaxed.programme, best)
        return self.bound is not None

    def _model(self, left: Pruned, draw: Draw) -> Model:
        model = model_of(self.bench, self.shelf, [left], draw)
        if self.strict:
            for name in ("makeshift", "money", "doubts"):
                # An adapter may still cost money or be a doubt.
                model.programme.row(model.programme.objectives[name].items(), None, 0)
                model.programme.objectives[name] = {}
        return model

    def _near(self, few: int) -> list[Place]:
        """Return the places with so many new choices each that the bound says are nearest."""
        assert self.bound is not None
        more = self.bound.more
        left = []
        for place, columns in zip(self.places, self.relaxed.columns[0], strict=False):
            new = [n for n, c in enumerate(place.choices) if c.source in NEW]
            gone = set(sorted(new, key=lambda n, of=columns: more[of[n]])[few:])  # type: ignore[misc]
            left.append(_without(place, gone))
        return left

    def within(self, terms: Terms, best: Vector) -> list[Place]:
        """Return the places with the choices of plans that are as good as the best or better."""
        possible = self._relax(terms, best)
        assert possible
        assert self.bound is not None
        return _kept(self.places, self.relaxed, self.bound, best)

    def pruned(self, places: Sequence[Place], terms: Terms, demand: Demand) -> Pruned:
        """Return some of the places' choices with only those that a best plan may need."""
        return pruned(
            self.bench,
            terms.left(places),
            demand,
            unmet=self.level > 0,
            tabler=self.tabler,
            rank=terms.rank,
        )

    def tightened(self, left: Pruned, terms: Terms, best: Vector) -> list[Place]:
        """Return what is left with the choices of plans that are as good as the best or better.

        Here the bound knows the trains too.
        """
        model = self._model(left, terms.endless)
        bound = bound_of(model.programme, best)
        assert bound is not None
        return _kept(left.places, model, bound, best)

    def refusing(self, rules: Collection[Rule]) -> Search:
        """Return the same search, to be used where more combinations of some rules are refused."""
        again = copy(self)
        again.tabler = self.tabler.without(rules)
        again.pairs = tuple(again.tabler.tables(again.places, 2))
        again.terms = None
        return again

    def _solved(
        self,
        places: Sequence[Place],
        terms: Terms,
        ends: float,
        last: str = OBJECTIVES[-1],
        best: Vector | None = None,
    ) -> Alone | None:
        """Return the best plan of some of the places' choices, None if there is none.

        It is looked for among those that are as good as the `best` known one.
        """
        left = self.pruned(places, terms, kind_demand([places]))
        if best is not None:
            tight = self.tightened(left, terms, best)
            left = self.pruned(tight, terms, kind_demand([tight]))
        model = self._model(left, terms.drawn)
        found = solve(model.programme, time_left(ends), last)
        if found is None:
            return None
        (filled,) = model.chosen(found.values)
        return Alone(self.site, filled, found, self)


@dataclass(frozen=True, slots=True)
class Alone:
    """The best plan of one bike on some terms, and how it was found."""

    site: Site
    filled: Filled
    solved: Solved
    search: Search | None
    """None if there was no time for it."""

    @property
    def vector(self) -> Vector:
        """Return the figures of all objectives."""
        return tuple(stage.value for stage in self.solved.stages)


def alone(bench: Bench, shelf: Offer, site: Site, terms: Terms, ends: float) -> Alone:
    """Return the best plan of one bike; a need that cannot be met is left open and counted.

    First every need is to be met; only if that is shown to be impossible it may leave needs open,
    and only then, if its parts clash among themselves, lose some of them.
    """
    for level, strict in LEVELS:
        if time.monotonic() >= ends:
            break
        found = Search(bench, shelf, site, level, strict).best(terms, ends)
        if found is not None:
            return found
    return _nothing(site)


def _kept(places: Sequence[Place], model: Model, bound: Bound, best: Vector) -> list[Place]:
    beyond = bound.beyond(best)
    return [
        _without(place, {n for n, column in enumerate(columns) if beyond[column]})
        for place, columns in zip(places, model.columns[0], strict=False)
    ]


def _size(places: Sequence[Place]) -> int:
    return sum(len(place.choices) for place in places)


def _to_value(one: Alone) -> bool:
    """Return whether a plan is the best as far as the value of the stock used."""
    return all(stage.proven for stage in one.solved.stages[: USED + 1])


STANDING = (Source.KEPT, Source.EMPTY, Source.UNMET, Source.SHARED)
"""What is in a place if nothing is done, the first of these that may be."""


def _nothing(site: Site) -> Alone:
    """Return that nothing is done, for want of time to find better."""
    filled = []
    for place in site.places:
        choices = (c for source in STANDING for c in place.choices if c.source is source)
        filled.append((place, next(choices, UNMET)))
    unmet = sum(choice is UNMET for _, choice in filled)
    stages = [Stage(name, unmet if name == "unmet" else 0, 0) for name in OBJECTIVES]
    return Alone(site, filled, Solved((), tuple(stages), 0.0), None)


def time_left(ends: float) -> float | None:
    """Return the seconds until some time, None if there is no end."""
    return None if math.isinf(ends) else max(ends - time.monotonic(), 0.0)


def _may_go(place: Place) -> Place:
    """Return a place that may also be left open; the frame stays, for the bike hangs on it."""
    if place.name == "frame" or UNMET in place.choices:
        return place
    return place.having((*place.choices, UNMET))


def _without(place: Place, gone: set[int]) -> Place:
    return place.having(c for n, c in enumerate(place.choices) if n not in gone) if gone else place
