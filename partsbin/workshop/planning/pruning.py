"""Leaves out the choices that no best plan needs, so that the programme stays small.

Nothing is left out on a guess. A choice goes if it is forbidden beside what is fixed, if what is on
the bike goes with all that it goes with, or if enough better ones are equal to it in every table.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from typing import Any

from partsbin.fit.rules import RULES
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.drawing import Terms
from partsbin.workshop.planning.places import (
    COMBINED,
    NEW,
    UNMET,
    Choice,
    Place,
    Source,
    is_doubtful,
    mate_of,
)
from partsbin.workshop.planning.table import Table, pair_masks, without
from partsbin.workshop.planning.tables import Tabler

Demand = Mapping[str, AbstractSet[tuple[int, str]]]
"""The places of all bikes that may take each kind."""

Rank = Callable[[Choice], tuple[int, int, int]]
BASE = Terms(lambda _: {})
"""The terms on which the best units that there are are drawn."""


@dataclass(frozen=True, slots=True)
class Pruned:
    """The places of a bike with the choices that matter, and the tables over them."""

    places: tuple[Place, ...]
    tables: tuple[Table, ...]


def pruned(
    bench: Bench,
    places: Sequence[Place],
    demand: Demand,
    *,
    unmet: bool = False,
    strict: bool = False,
    tabler: Tabler | None = None,
    rank: Rank = BASE.rank,
) -> Pruned:
    """Return the places with only the choices that a best plan may need, with their tables.

    `demand` is which places there are for a kind in all bikes. Without `unmet` a need that has any
    choice must be filled; with `strict` nothing is bought and nothing is doubtful. A `tabler` that
    is strict or not has tables of the same bike already; `rank` says which of the choices that no
    table can tell apart are better.
    """
    tabler = tabler or Tabler(bench, strict)
    left = list(places)
    while True:
        left = settled(tabler, left, unmet=unmet)
        tables = tabler.tables(left)
        left, changed = without(left, tables)
        if changed:
            continue
        fewer = _fewer(bench, left, tables, demand, rank)
        if all(new is old for new, old in zip(fewer, left, strict=True)):
            return Pruned(tuple(left), tuple(tables))
        left = fewer


def settled(tabler: Tabler, places: Sequence[Place], *, unmet: bool = False) -> list[Place]:
    """Return the places without what the interfaces between two of them exclude already.

    If the tabler is strict nothing is bought and nothing is doubtful.
    """
    left = [_strictly(place) for place in places] if tabler.strict else list(places)
    changed = True
    while changed:
        if not unmet:
            left = [_must_be_filled(place) for place in left]
        left, changed = without(left, tabler.tables(left, 1))
        if changed:
            continue
        left, changed = _supported(left, tabler.tables(left, 2))
    return left


def _strictly(place: Place) -> Place:
    """Return a place without what costs money or is a doubt by itself."""
    doubtful = is_doubtful(place)
    return _with(
        place,
        [
            c
            for c in place.choices
            if not c.money and not (doubtful and c.source in (*NEW, Source.SHARED))
        ],
    )


def _with(place: Place, choices: list[Choice]) -> Place:
    return place if len(choices) == len(place.choices) else place.having(choices)


def _supported(places: Sequence[Place], pairs: Sequence[Table]) -> tuple[list[Place], bool]:
    """Return the places without the choices with which nothing in some other place goes."""
    gone: dict[int, set[int]] = {}
    for (here, _), masks in pair_masks(places, pairs).items():
        alone = {n for n, mask in enumerate(masks) if not mask}
        if alone:
            gone.setdefault(here, set()).update(alone)
    left = [
        _with(place, [c for n, c in enumerate(place.choices) if n not in gone.get(i, ())])
        for i, place in enumerate(places)
    ]
    return left, bool(gone)


def _must_be_filled(place: Place) -> Place:
    filled = [c for c in place.choices if c.source is not Source.UNMET]
    if len(filled) == len(place.choices):
        return place
    return place.having(filled or (UNMET,))


def _fewer(
    bench: Bench, places: Sequence[Place], tables: Sequence[Table], demand: Demand, rank: Rank
) -> list[Place]:
    at: list[list[tuple[Table, int]]] = [[] for _ in places]
    for table in tables:
        for n, i in enumerate(table.scope):
            at[i].append((table, n))
    linked = _with_adapters(tables)
    mates = {
        mate.name: {c.spec.kind for c in mate.choices if c.spec is not None}
        for place in places
        if (mate := mate_of(place, places)) is not None
    }
    left = []
    for i, place in enumerate(places):
        if len(place.choices) > 1:
            signs = _signs(bench, place, at[i], mates.get(place.name, ()), linked)
            left.append(_with(place, _needed(place, at[i], signs, demand, rank)))
        else:
            left.append(place)
    return left


def _with_adapters(tables: Sequence[Table]) -> list[int]:
    """Return the rules about the adapters that tables ask for: an adapter has neighbours too."""
    kinds = {o.adapter.kind for t in tables for o in t.outcomes.values() if o.adapter is not None}
    return [
        at
        for at, rule in enumerate(RULES)
        if any(p.takes(kind) for kind in kinds if kind for p in rule.parameters)
    ]


def _needed(
    place: Place,
    tables: Sequence[tuple[Table, int]],
    signs: Sequence[tuple[Any, ...]],
    demand: Demand,
    rank: Rank,
) -> list[Choice]:
    """Return the choices of a place that are not beaten by others."""
    kept = next((n for n, c in enumerate(place.choices) if c.source is Source.KEPT), None)
    order = sorted(range(len(place.choices)), key=lambda n: rank(place.choices[n]))
    seen: dict[tuple[Any, ...], list[str]] = {}
    needed: set[int] = set()
    beaten: dict[tuple[Any, ...], bool] = {}
    for n in order:
        choice = place.choices[n]
        if choice.source not in (Source.STOCK, Source.BOUGHT):
            needed.add(n)
            continue
        sign = signs[n]
        if kept is not None and sign[:3] == signs[kept][:3]:
            if sign not in beaten:
                beaten[sign] = all(
                    _is_beaten(table, at, signs[kept][3 + m], sign[3 + m])
                    for m, (table, at) in enumerate(tables)
                )
            if beaten[sign]:
                continue
        assert choice.spec is not None
        better = seen.setdefault((choice.source, *sign), [])
        if not better or (choice.stock is not None and len(better) < _takers(better, demand)):
            better.append(choice.spec.kind)
            needed.add(n)
    return [c for n, c in enumerate(place.choices) if n in needed]


def _signs(
    bench: Bench,
    place: Place,
    tables: Sequence[tuple[Table, int]],
    is_mate: Collection[str],
    linked: Sequence[int],
) -> list[tuple[Any, ...]]:
    """Return for each choice what the constraints can tell of it.

    `is_mate` are the kinds of the place that make another one a need.
    """
    signs = []
    for n, choice in enumerate(place.choices):
        kind = choice.spec.kind if choice.spec else ""
        signs.append(
            (
                kind == COMBINED,
                kind if kind in is_mate else "",
                _states(bench, choice, linked),
                *(table.classes[at][n] for table, at in tables),
            )
        )
    return signs


def _states(bench: Bench, choice: Choice, linked: Sequence[int]) -> tuple[int, ...]:
    """Return how the rules about adapters see a choice."""
    spec = choice.spec
    if spec is None:
        return ()
    return tuple(
        bench.state(at, spec) if any(p.takes(spec.kind) for p in RULES[at].parameters) else -1
        for at in linked
    )


def _is_beaten(table: Table, at: int, kept: int, other: int) -> bool:
    """Return whether what is kept does at least as well as a class, whatever is in the others."""
    if kept in (other, -1):
        return True
    for key, outcome in table.outcomes.items():
        if key[at] == kept:
            instead = table.outcomes.get((*key[:at], other, *key[at + 1 :]))
            if instead is None or not (instead.forbidden or instead == outcome):
                return False
    return True


def kind_demand(sites: Sequence[Sequence[Place]]) -> Demand:
    """Return which places, over all bikes, may take each kind."""
    found: dict[str, set[tuple[int, str]]] = {}
    for n, places in enumerate(sites):
        for place in places:
            for kind in {c.spec.kind for c in place.choices if c.spec is not None}:
                found.setdefault(kind, set()).add((n, place.name))
    return found


def _takers(kinds: Sequence[str], demand: Demand) -> int:
    """Return how many places may take one of some kinds: so many parts others cannot take all."""
    return len(set().union(*(demand[kind] for kind in set(kinds))))
