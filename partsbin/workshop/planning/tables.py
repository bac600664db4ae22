"""The interfaces and trains of a bike as tables: which combinations of choices are allowed.

Each rule is judged once for each combination of choices that differ to it. Choices that a table
cannot tell apart are one class of it; what a rule does not apply to is always allowed.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache
from itertools import product
from typing import TYPE_CHECKING, Any

from partsbin.fit.judge import apart
from partsbin.fit.rule import Parameter, Rule
from partsbin.fit.rules import RULES
from partsbin.kinds.kind import KINDS
from partsbin.workshop.planning.bench import FORBIDDEN, FREE, Bench, Outcome
from partsbin.workshop.planning.places import Choice, Place
from partsbin.workshop.planning.table import APPLIES_NOT, Table, merged, pair_masks, with_fewer

if TYPE_CHECKING:
    from partsbin.kinds.kind import Kind


@dataclass(slots=True)
class Tabler:
    """Makes the tables of one bike, again only where the choices of a place have changed.

    With `strict` what is to be measured first is forbidden, and so is a makeshift.
    """

    bench: Bench
    strict: bool = False
    _made: dict[Any, list[tuple[list[tuple[Choice, ...]], Table | None]]] = field(
        default_factory=dict
    )
    _left: dict[
        tuple[int, int], tuple[tuple[Choice, ...], tuple[Choice, ...], list[int] | None]
    ] = field(default_factory=dict)
    _kinds: dict[int, tuple[Sequence[Choice], frozenset[str]]] = field(default_factory=dict)

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
        open_ = [len(place.choices) > 1 for place in places]
        for at, slots, absent in self._waiting(places):
            if among and max([i for i in slots if i is not None]) < among:
                continue
            size = sum([open_[i] for i in {*slots, *absent} if i is not None])
            if size <= most:
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
        made = self._made.setdefault(key, [])
        for before, table in reversed(made):
            if all(a is b for a, b in zip(before, choices, strict=True)):
                return table
            kept = [self._kept(a, b) for a, b in zip(before, choices, strict=True)]
            if all(one is not None for one in kept):
                fewer = table and with_fewer(table, dict(zip(scope, kept, strict=True)))
                made.append((choices, fewer))
                return fewer
        table = _Writing(self.bench, at, slots, scope, places, loose, self.strict, pairs).table()
        made.append((choices, table))
        return table

    def _waiting(self, places: Sequence[Place]) -> Sequence[Instance]:
        kinds = tuple([self._kinds_of(place.choices) for place in places])
        return _all_instances(tuple([place.end for place in places]), kinds)

    def without(self, rules: Collection[Rule]) -> Tabler:
        """Return one that knows the tables of all but some rules."""
        made = {key: list(of) for key, of in self._made.items() if RULES[key[0]] not in rules}
        return Tabler(self.bench, self.strict, made, self._left, self._kinds)

    def _kept(self, before: tuple[Choice, ...], now: tuple[Choice, ...]) -> Sequence[int] | None:
        """Return which of some choices are left, None if there are others now."""
        key = id(before), id(now)
        if key not in self._left:
            at = {id(choice): n for n, choice in enumerate(before)}
            kept = [at.get(id(choice)) for choice in now]
            known = None if None in kept else [n for n in kept if n is not None]
            # With the choices themselves, so that no others are given their identity.
            self._left[key] = (before, now, known)
        return self._left[key][2]

    def _kinds_of(self, choices: Sequence[Choice]) -> frozenset[str]:
        """Return the kinds of some choices, with an empty one for nothing."""
        found = self._kinds.get(id(choices))
        if found is None:
            kinds = frozenset([c.spec.kind if c.spec else "" for c in choices])
            found = self._kinds[id(choices)] = (choices, kinds)
        return found[1]


State = tuple[int, int | None, bool, str]
"""How a rule sees choices: number, the state of the spec, if it is there already, and the kind."""
ABSENT = (None, True, "")
"""How a rule sees a choice of a place where it wants none of its parts."""

Instance = tuple[int, tuple[int | None, ...], tuple[int, ...]]
"""The number of a rule, where its parts may stand, and the places that must hold none."""


@lru_cache(maxsize=512)
def _all_instances(
    ends: tuple[str, ...], kinds: tuple[frozenset[str], ...]
) -> tuple[Instance, ...]:
    """Return how each rule may apply to places at some ends, with choices of some kinds."""
    return tuple(
        (at, slots, absent)
        for at, rule in enumerate(RULES)
        for slots, absent in _instances(rule, ends, kinds)
        if any(slot is not None for slot in slots)
    )


def _instances(
    rule: Rule, ends: Sequence[str], kinds: Sequence[frozenset[str]]
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
        if len(placed) != len(set(placed)) or len({ends[i] for i in placed if ends[i]}) > 1:
            continue
        absent = {
            i for slot, taking in zip(slots, takers, strict=True) if slot is None for i in taking
        }
        yield slots, tuple(sorted(absent - set(placed)))


@cache
def _taken_by(parameter: Parameter) -> frozenset[str]:
    return frozenset(word for word in KINDS if parameter.takes(word))


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
        states = [_numbered(row) for row in raw]
        if not all(states):
            return None
        outcomes: dict[tuple[int, ...], Outcome] = {}
        where = [None if slot is None else self.scope.index(slot) for slot in self.slots]
        outcome, at = self.bench.outcome, self.at
        for held in self._combinations(raw, states):
            args = tuple([None if n is None else held[n][1] for n in where])
            found = outcome(at, args, existing=all(h[2] for h in held))
            if found is not None:
                here = self._here(found)
                if here is not None:
                    outcomes[tuple([h[0] for h in held])] = here
        if not outcomes:
            return None
        classes = []
        for row, known in zip(raw, states, strict=True):
            numbers = {state[1:]: state[0] for state in known}
            classes.append(tuple([APPLIES_NOT if c is APPLIES_NOT else numbers[c] for c in row]))
        about = tuple(i for i in self.slots if i is not None)
        return merged(Table(rule, about, self.scope, tuple(classes), outcomes))

    def _raw(self, rule: Rule) -> list[list[Any]]:
        parameters = dict(zip(self.slots, rule.parameters, strict=True))
        lacking = [
            parameter
            for slot, parameter in zip(self.slots, rule.parameters, strict=True)
            if slot is None
        ]
        barred = frozenset[str]().union(*map(_taken_by, lacking))
        return [
            _raw_classes(self.bench, self.at, self.places[i].choices, parameters.get(i), barred)
            for i in self.scope
        ]

    def _combinations(
        self, raw: Sequence[Sequence[Any]], states: Sequence[Sequence[State]]
    ) -> Iterator[tuple[State, ...]]:
        """Yield the combinations of states that can meet and that no two of the places exclude."""
        found = self._not_excluded(raw, states)
        kinds = {h: frozenset(state[3] for state in row) for h, row in enumerate(states)}
        if all(len(here) == 1 for here in kinds.values()):
            if not self._are_apart([row[0] for row in states]):
                yield from found
            return
        known: dict[tuple[str, ...], bool] = {}
        for held in found:
            here = tuple([h[3] for h in held])
            if here not in known:
                known[here] = self._are_apart(held)
            if not known[here]:
                yield held

    def _are_apart(self, held: Sequence[State]) -> bool:
        """Return whether parts of some kinds are at different ends of the bike here."""
        there = [(h[3], self.places[i].end) for i, h in zip(self.scope, held, strict=True) if h[3]]
        return apart(tuple(range(len(there))), [k for k, _ in there], [end for _, end in there])

    def _not_excluded(
        self, raw: Sequence[Sequence[Any]], states: Sequence[Sequence[State]]
    ) -> Iterator[tuple[State, ...]]:
        if not self.pairs:
            yield from product(*states)
            return
        allowed: dict[tuple[int, int], list[set[int]]] = {}
        for n, here in enumerate(self.scope):
            for m in range(n):
                masks = self.pairs.get((here, self.scope[m]))
                if masks is not None:
                    allowed[n, m] = _state_pairs(raw[n], states[n], raw[m], states[m], masks)

        def extended(so_far: tuple[State, ...]) -> Iterator[tuple[State, ...]]:
            n = len(so_far)
            if n == len(states):
                yield so_far
                return
            checks = [(so_far[m][0], allowed[n, m]) for m in range(n) if (n, m) in allowed]
            for state in states[n]:
                if all(c in sets[state[0]] for c, sets in checks):
                    yield from extended((*so_far, state))

        yield from extended(())

    def _here(self, outcome: Outcome) -> Outcome | None:
        """Return what an outcome is on this bike: an adapter may be there, or not to be had."""
        if self.strict and (outcome.doubt or outcome.makeshift):
            return FORBIDDEN
        adapter = outcome.adapter
        if adapter is None:
            return outcome
        if any(p.word == adapter.kind and adapter.is_met_by(p) for p in self.loose):
            return FREE
        return outcome if self.bench.can_be_had(adapter) else FORBIDDEN


def _numbered(row: Sequence[Any]) -> list[State]:
    """Return the states of a place's choices, each once, with their numbers."""
    there = dict.fromkeys([c for c in row if c is not APPLIES_NOT])
    return [(n, *state) for n, state in enumerate(there)]


def _state_pairs(
    raw: Sequence[Any],
    states: Sequence[State],
    raw_there: Sequence[Any],
    states_there: Sequence[State],
    masks: Sequence[int],
) -> list[set[int]]:
    """Return for each state which states of another place some of its choices go with."""
    there = {state[1:]: 0 for state in states_there}
    for m, state in enumerate(raw_there):
        if state is not APPLIES_NOT:
            there[state] |= 1 << m
    here = {state[1:]: 0 for state in states}
    for n, state in enumerate(raw):
        if state is not APPLIES_NOT:
            here[state] |= masks[n]
    members = list(enumerate(there.values()))
    return [{t for t, bits in members if bits & mask} for mask in here.values()]


def _raw_classes(
    bench: Bench,
    at: int,
    choices: Sequence[Choice],
    parameter: Parameter | None,
    barred: frozenset[str],
) -> list[Any]:
    """Return how a rule sees each choice: its state, whether it is there already, and its kind.

    The kinds in `barred` must not be there.
    """
    taken = _taken_by(parameter) if parameter is not None else None
    row: list[Any] = []
    for choice in choices:
        spec = choice.spec
        kind = "" if spec is None else spec.kind
        if kind in barred:
            row.append(APPLIES_NOT)
        elif taken is None:
            row.append(ABSENT)
        elif spec is None or kind not in taken:
            row.append(APPLIES_NOT)
        else:
            row.append((bench.state(at, spec), choice.existing, kind))
    return row
