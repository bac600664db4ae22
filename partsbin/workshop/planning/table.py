"""One rule over some places of a bike as a table, and what follows from tables alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from partsbin.fit.rule import Rule
from partsbin.workshop.planning.places import Place

if TYPE_CHECKING:
    from partsbin.workshop.planning.bench import Outcome

APPLIES_NOT = -1
"""The class of choices to which a rule does not apply, so that it allows them."""


@dataclass(frozen=True, slots=True)
class Table:
    """One rule over some places of a bike: the combinations of classes that are not free.

    `classes` gives for each place of `scope` the class of each of its choices.
    """

    rule: Rule
    about: tuple[int, ...]
    """The places of the parts that the rule is about, those that make no difference too."""
    scope: tuple[int, ...]
    classes: tuple[tuple[int, ...], ...]
    outcomes: Mapping[tuple[int, ...], Outcome]


def with_fewer(table: Table, kept: Mapping[int, Sequence[int] | None]) -> Table | None:
    """Return a table with only some of the choices of its places."""
    classes = tuple(
        tuple([of[n] for n in kept[place] or ()])
        for place, of in zip(table.scope, table.classes, strict=True)
    )
    there = [set(of) for of in classes]
    outcomes = {
        key: outcome
        for key, outcome in table.outcomes.items()
        if all(of in held for of, held in zip(key, there, strict=True))
    }
    if not outcomes:
        return None
    if all(len(held) > 1 for held in there):
        fewer = any(len(held) < len(set(of)) for held, of in zip(there, table.classes, strict=True))
        if not fewer:
            return replace(table, classes=classes)
    return merged(replace(table, classes=classes, outcomes=outcomes))


def pair_masks(
    places: Sequence[Place], tables: Iterable[Table]
) -> dict[tuple[int, int], list[int]]:
    """Return for two places which choices of the second go with each of the first, as bits."""
    masks: dict[tuple[int, int], list[int]] = {}
    for table in tables:
        if len(table.scope) != 2 or not any(o.forbidden for o in table.outcomes.values()):
            continue
        for n in (0, 1):
            here, there = table.scope[n], table.scope[1 - n]
            everything = (1 << len(places[there].choices)) - 1
            members: dict[int, int] = {}
            for m, of in enumerate(table.classes[1 - n]):
                members[of] = members.get(of, 0) | 1 << m
            barred: dict[int, int] = {}
            for key, outcome in table.outcomes.items():
                if outcome.forbidden:
                    barred[key[n]] = barred.get(key[n], 0) | members.get(key[1 - n], 0)
            old = masks.get((here, there)) or [everything] * len(places[here].choices)
            masks[here, there] = [
                mask & ~barred.get(of, 0) for mask, of in zip(old, table.classes[n], strict=True)
            ]
    return masks


def merged(table: Table) -> Table | None:
    """Return the table with alike classes as one, without places that make no difference."""
    scope, classes, outcomes = list(table.scope), list(table.classes), dict(table.outcomes)
    for n in range(len(scope)):
        slices: dict[int, dict[tuple[int, ...], Outcome]] = {}
        for key, outcome in outcomes.items():
            slices.setdefault(key[n], {})[key[:n] + key[n + 1 :]] = outcome
        number: dict[frozenset[Any], int] = {}
        to: dict[int, int] = {}
        for old in sorted(set(classes[n])):
            alike = frozenset(slices.get(old, {}).items())
            # The class of what is free whatever the others are is -1.
            to[old] = number.setdefault(alike, len(number)) if alike else APPLIES_NOT
        classes[n] = tuple(to[old] for old in classes[n])
        merged: dict[tuple[int, ...], Outcome] = {}
        for key, outcome in outcomes.items():
            if key[n] in to:
                merged[(*key[:n], to[key[n]], *key[n + 1 :])] = outcome
        outcomes = merged
    keep = [n for n in range(len(scope)) if len(set(classes[n])) > 1]
    if len(keep) < len(scope):
        fixed = {n: classes[n][0] for n in range(len(scope)) if n not in keep}
        outcomes = {
            tuple(key[n] for n in keep): outcome
            for key, outcome in outcomes.items()
            if all(key[n] == fixed[n] for n in fixed)
        }
        scope = [scope[n] for n in keep]
        classes = [classes[n] for n in keep]
    if not outcomes:
        return None
    return Table(table.rule, table.about, tuple(scope), tuple(classes), outcomes)


def without(places: Sequence[Place], tables: Iterable[Table]) -> tuple[list[Place], bool]:
    """Return the places without the choices that a table over one place forbids.

    Also returns whether anything was taken away.
    """
    forbidden: dict[int, set[int]] = {}
    for table in tables:
        if len(table.scope) == 1:
            gone = {
                n
                for n, of in enumerate(table.classes[0])
                if (outcome := table.outcomes.get((of,))) is not None and outcome.forbidden
            }
            forbidden.setdefault(table.scope[0], set()).update(gone)
    if not any(forbidden.values()):
        return list(places), False
    left = [
        place.having(c for n, c in enumerate(place.choices) if n not in forbidden.get(i, ()))
        for i, place in enumerate(places)
    ]
    return left, True
