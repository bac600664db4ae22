"""The interfaces and trains of a bike as tables: which combinations of choices are allowed.

Each rule is judged once for each combination of choices that differ to it. Choices that a table
cannot tell apart are one class of it; what a rule does not apply to is always allowed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import product
from typing import TYPE_CHECKING, Any

from partsbin.fit.judge import apart
from partsbin.fit.rule import Parameter, Rule
from partsbin.fit.rules import RULES
from partsbin.kinds.kind import KINDS
from partsbin.workshop.planning.bench import FORBIDDEN, FREE, Bench, Outcome
from partsbin.workshop.planning.places import Place

if TYPE_CHECKING:
    from partsbin.kinds.kind import Kind


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


@dataclass(slots=True)
class Tabler:
    """Makes the tables of one bike, again only where the choices of a place have changed.

    With `strict` what is to be measured first is forbidden.
    """

    bench: Bench
    strict: bool = False
    _made: dict[Any, tuple[list[Any], Table | None]] = field(default_factory=dict)

    def tables(self, places: Sequence[Place], most: int = 99, *, among: int = 0) -> list[Table]:
        """Return the tables of all rules that are not free, over at most so many open places.

        With `among` only those that are about a place from that one on. Those over few places come
        first; a train is not judged where two of its parts exclude each other already.
        """
        loose = [
            place.choices[0].spec.piece
            for place in places
            if place.name.startswith("loose") and place.choices[0].spec is not None
        ]
        waiting: list[tuple[int, int, tuple[int | None, ...], tuple[int, ...]]] = []
        kinds = [{c.spec.kind if c.spec else "" for c in place.choices} for place in places]
        for at, rule in enumerate(RULES):
            for slots, absent in _instances(rule, places, kinds):
                about = {i for i in slots if i is not None}
                size = sum(len(places[i].choices) > 1 for i in {*about, *absent})
                if size <= most and about and max(about) >= among:
                    waiting.append((size, at, slots, absent))
        waiting.sort(key=lambda one: one[:2])
        found: list[Table] = []
        pairs: dict[tuple[int, int], list[int]] | None = None
        for size, at, slots, absent in waiting:
            if size > 2 and pairs is None:
                pairs = pair_masks(places, found)
            table = self._table(at, slots, absent, places, loose, pairs or {})
            if table is not None:
                found.append(table)
        return found

    def _table(
        self,
        at: int,
        slots: tuple[int | None, ...],
        absent: tuple[int, ...],
        places: Sequence[Place],
        loose: Sequence[Kind],
        pairs: Mapping[tuple[int, int], list[int]],
    ) -> Table | None:
        scope = tuple(dict.fromkeys([i for i in slots if i is not None] + list(absent)))
        choices = [places[i].choices for i in scope]
        key = (at, slots, absent)
        made = self._made.get(key)
        if made is not None and all(a is b for a, b in zip(made[0], choices, strict=True)):
            return made[1]
        table = _Writing(self.bench, at, slots, scope, places, loose, self.strict, pairs).table()
        self._made[key] = (choices, table)
        return table


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


def _instances(
    rule: Rule, places: Sequence[Place], kinds: Sequence[set[str]]
) -> Iterator[tuple[tuple[int | None, ...], tuple[int, ...]]]:
    """Yield where the parts of a rule may stand, and the places that must hold none of its kind.

    `kinds` are those of the choices of each place, with an empty one for nothing. A part that the
    rule can do without is absent only if no place of the bike holds one.
    """
    options: list[list[int | None]] = []
    takers: list[list[int]] = []
    for parameter in rule.parameters:
        taken = _taken_by(parameter)
        taking = [i for i, here in enumerate(kinds) if not taken.isdisjoint(here)]
        takers.append(taking)
        one: list[int | None] = list(taking)
        if parameter.optional and not any(kinds[i] <= taken for i in taking):
            one.append(None)
        options.append(one)
    for slots in product(*options):
        placed = [i for i in slots if i is not None]
        if len(placed) != len(set(placed)) or _never_meet(slots, places):
            continue
        absent = {
            i for slot, taking in zip(slots, takers, strict=True) if slot is None for i in taking
        }
        yield slots, tuple(sorted(absent - set(placed)))


def _never_meet(slots: Sequence[int | None], places: Sequence[Place]) -> bool:
    return len({places[i].end for i in slots if i is not None and places[i].end}) > 1


@cache
def _taken_by(parameter: Parameter) -> frozenset[str]:
    return frozenset(word for word in KINDS if parameter.takes(word))


APPLIES_NOT = -1


@dataclass(slots=True)
class _Writing:
    """One table while it is written."""

    bench: Bench
    at: int
    slots: tuple[int | None, ...]
    scope: tuple[int, ...]
    places: Sequence[Place]
    loose: Sequence[Kind]
    strict: bool
    pairs: Mapping[tuple[int, int], list[int]]

    def table(self) -> Table | None:
        """Return the table of a rule over some places, None if all of it is free."""
        rule = RULES[self.at]
        raw = self._raw(rule)
        states = [list(dict.fromkeys(c for c in row if c is not APPLIES_NOT)) for row in raw]
        if not all(states):
            return None
        outcomes: dict[tuple[int, ...], Outcome] = {}
        apart_: dict[tuple[str, ...], bool] = {}
        where = [None if slot is None else self.scope.index(slot) for slot in self.slots]
        for combination in self._combinations(raw, states):
            held = [states[n][c] for n, c in enumerate(combination)]
            kinds = tuple([h[2] for h in held if h[2]])
            if kinds not in apart_:
                ends = [self.places[i].end for i, h in zip(self.scope, held, strict=True) if h[2]]
                apart_[kinds] = apart(tuple(range(len(kinds))), kinds, ends)
            if apart_[kinds]:
                continue
            args = tuple([None if n is None else held[n][0] for n in where])
            existing = all(h[1] for h in held)
            found = self.bench.outcome(self.at, args, existing=existing)
            if found is not None:
                outcome = self._here(found)
                if outcome is not None:
                    outcomes[combination] = outcome
        if not outcomes:
            return None
        classes = []
        for n, row in enumerate(raw):
            numbers = {state: c for c, state in enumerate(states[n])}
            classes.append(tuple([APPLIES_NOT if c is APPLIES_NOT else numbers[c] for c in row]))
        about = tuple(i for i in self.slots if i is not None)
        return _merged(Table(rule, about, self.scope, tuple(classes), outcomes))

    def _raw(self, rule: Rule) -> list[list[Any]]:
        parameters = dict(zip(self.slots, rule.parameters, strict=True))
        lacking = [
            parameter
            for slot, parameter in zip(self.slots, rule.parameters, strict=True)
            if slot is None
        ]
        return [
            [
                _raw_class(self.bench, self.at, choice, parameters.get(i), lacking)
                for choice in self.places[i].choices
            ]
            for i in self.scope
        ]

    def _combinations(
        self, raw: Sequence[Sequence[Any]], states: Sequence[Sequence[Any]]
    ) -> Iterator[tuple[int, ...]]:
        """Yield the combinations of states that no two of the places exclude."""
        sizes = [range(len(s)) for s in states]
        if not self.pairs:
            yield from product(*sizes)
            return
        allowed: dict[tuple[int, int], list[set[int]]] = {}
        for n, here in enumerate(self.scope):
            for m in range(n):
                masks = self.pairs.get((here, self.scope[m]))
                if masks is not None:
                    allowed[n, m] = _state_pairs(raw[n], states[n], raw[m], states[m], masks)

        def extended(so_far: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
            n = len(so_far)
            if n == len(sizes):
                yield so_far
                return
            checks = [(m, allowed[n, m]) for m in range(n) if (n, m) in allowed]
            for c in sizes[n]:
                if all(so_far[m] in sets[c] for m, sets in checks):
                    yield from extended((*so_far, c))

        yield from extended(())

    def _here(self, outcome: Outcome) -> Outcome | None:
        """Return what an outcome is on this bike: an adapter may be there, or not to be had."""
        if outcome.doubt:
            return FORBIDDEN if self.strict else outcome
        adapter = outcome.adapter
        if adapter is None:
            return outcome
        if any(p.word == adapter.kind and adapter.is_met_by(p) for p in self.loose):
            return FREE
        return outcome if self.bench.can_be_had(adapter) else FORBIDDEN


def _state_pairs(
    raw: Sequence[Any],
    states: Sequence[Any],
    raw_there: Sequence[Any],
    states_there: Sequence[Any],
    masks: Sequence[int],
) -> list[set[int]]:
    """Return for each state which states of another place some of its choices go with."""
    there = dict.fromkeys(states_there, 0)
    for m, state in enumerate(raw_there):
        if state is not APPLIES_NOT:
            there[state] |= 1 << m
    here = dict.fromkeys(states, 0)
    for n, state in enumerate(raw):
        if state is not APPLIES_NOT:
            here[state] |= masks[n]
    members = list(enumerate(there.values()))
    return [{t for t, bits in members if bits & mask} for mask in here.values()]


def _raw_class(
    bench: Bench, at: int, choice: Any, parameter: Parameter | None, lacking: list[Parameter]
) -> Any:
    """Return how a rule sees a choice: its state, whether it is there already, and its kind."""
    spec = choice.spec
    if any(spec is not None and spec.kind in _taken_by(p) for p in lacking):
        return APPLIES_NOT
    if parameter is None:
        return (None, True, "")
    if spec is None or spec.kind not in _taken_by(parameter):
        return APPLIES_NOT
    return (bench.state(at, spec), choice.existing, spec.kind)


def _merged(table: Table) -> Table | None:
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
