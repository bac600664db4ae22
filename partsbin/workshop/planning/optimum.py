"""Finds the best plan of some bikes together."""

from __future__ import annotations

import math
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.workshop.planning.alone import Alone, alone
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.drawing import Filled, Units, beside, remembered, uses_of
from partsbin.workshop.planning.places import Offer, Site
from partsbin.workshop.planning.solving import Solved
from partsbin.workshop.planning.together import Together

if TYPE_CHECKING:
    from partsbin.fit.rule import Rule
    from partsbin.kinds.spec import Spec


@dataclass(frozen=True, slots=True)
class Optimum:
    """The best plan: what fills each place of each bike, and the proof."""

    chosen: list[Filled]
    solved: Solved
    plans: Sequence[Alone] = ()
    """How that of each bike was found."""


def optimum(
    sites: Sequence[Site],
    shelf: Offer,
    units: Units,
    limit: float | None = None,
    bench: Bench | None = None,
) -> Optimum:
    """Return the best plan of some bikes; a need that cannot be met is left open and counted."""
    ends = math.inf if limit is None else time.monotonic() + limit
    bench = bench or Bench(shelf)
    together = Together(bench, shelf, remembered(units), ends)
    chosen, solved = together.best(sites)
    return Optimum(chosen, solved, together.plans)


def otherwise(
    best: Optimum,
    at: int,
    bench: Bench,
    shelf: Offer,
    units: Units,
    refused: Sequence[tuple[Rule, Sequence[Spec | None]]],
) -> Filled:
    """Return the best plan of one of the bikes without some combinations, beside the others."""
    one = best.plans[at]
    terms = beside(units, uses_of(filled for i, filled in enumerate(best.chosen) if i != at))
    with bench.refusing(refused):
        found = None
        if one.search is not None:
            search = one.search.refusing([rule for rule, _ in refused])
            found = search.best(terms, math.inf)
        return (found or alone(bench, shelf, one.site, terms, math.inf)).filled
