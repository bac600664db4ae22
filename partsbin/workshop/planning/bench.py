"""Judges combinations of specs for plans, each only once, and says what it means for a plan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from partsbin.fit.asked import asked_by
from partsbin.fit.judge import evaluate
from partsbin.fit.rule import DESCRIPTIVE, Rule
from partsbin.fit.rules import RULES
from partsbin.fit.verdict import Adapter, Finding, Verdict
from partsbin.workshop.planning.places import Offer

if TYPE_CHECKING:
    from partsbin.kinds.kind import Kind
    from partsbin.kinds.spec import Spec

FREE = None
"""The outcome of a combination that costs nothing and needs nothing."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a combination means: it is forbidden, it is to be measured, or it needs an adapter.

    What is a makeshift is no repair: it is taken only where nothing else serves.
    """

    forbidden: bool = False
    doubt: bool = False
    makeshift: bool = False
    adapter: Adapter | None = field(default=None, compare=False)
    adapter_key: tuple[Any, ...] = ()


FORBIDDEN = Outcome(forbidden=True)
DOUBT = Outcome(doubt=True)
MAKESHIFT = Outcome(makeshift=True)


def adapter_key(adapter: Adapter) -> tuple[Any, ...]:
    """Return what tells an adapter from another: its kind and values, else its name."""
    if not adapter.kind:
        return ("", adapter.what)
    return (adapter.kind, tuple(sorted((adapter.values or {}).items())))


class Bench:
    """Judges rules over combinations of specs, each only once, for any number of bikes."""

    def __init__(self, shelf: Offer) -> None:
        self._shelf = shelf
        self._available: dict[tuple[Any, ...], bool] = {}
        self._refused: frozenset[tuple[int, tuple[int | None, ...]]] = frozenset()
        self._keys: dict[tuple[int, int], int] = {}
        self._specs: list[Spec] = []
        self._known: list[dict[Any, int]] = [{} for _ in RULES]
        self._pieces: list[list[Kind]] = [[] for _ in RULES]
        self._findings: list[dict[tuple[Any, ...], Outcome | None]] = [{} for _ in RULES]

    def can_be_had(self, adapter: Adapter) -> bool:
        """Return whether an adapter is in stock or on the price list, or has only a name."""
        key = adapter_key(adapter)
        if key not in self._available:
            choices = self._shelf.of_kinds((adapter.kind,))
            self._available[key] = not adapter.kind or any(
                c.spec is not None and adapter.is_met_by(c.spec.piece) for c in choices
            )
        return self._available[key]

    def state(self, at: int, spec: Spec) -> int:
        """Return the number of the state in which a rule sees a spec."""
        # By identity: to compare the values of a spec each time would take longer than to judge it.
        key = (at, id(spec))
        found = self._keys.get(key)
        if found is None:
            self._specs.append(spec)
            found = self._keys[key] = self._state(at, spec.piece)
        return found

    def _state(self, at: int, piece: Kind) -> int:
        known, spec = piece.__dict__, piece.spec
        recorded = dict(spec.values)
        key = (
            piece.word,
            not any(name not in DESCRIPTIVE for name in recorded),
            *(
                (
                    known.get(name),
                    recorded.get(name),
                    piece.open_values.get(name),
                    piece.likely.get(name),
                )
                for name in sorted(asked_by(RULES[at]))
                if name in piece.attributes
            ),
        )
        states = self._known[at]
        if key not in states:
            states[key] = len(states)
            self._pieces[at].append(piece)
        return states[key]

    @contextmanager
    def refusing(self, refused: Iterable[tuple[Rule, Sequence[Spec | None]]]) -> Iterator[None]:
        """Take some combinations, and all that a rule cannot tell from them, as forbidden."""
        kept = self._refused
        self._refused = frozenset(
            (at, tuple(None if spec is None else self.state(at, spec) for spec in specs))
            for rule, specs in refused
            for at in [RULES.index(rule)]
        )
        try:
            yield
        finally:
            self._refused = kept

    def outcome(self, at: int, states: tuple[int | None, ...], *, existing: bool) -> Outcome | None:
        """Return what a rule makes of pieces in these states; `existing` if none of them is new."""
        if self._refused and (at, states) in self._refused:
            return FORBIDDEN
        key = (states, existing)
        found = self._findings[at]
        if key not in found:
            pieces = tuple(None if s is None else self._pieces[at][s] for s in states)
            found[key] = outcome_of(RULES[at], pieces, evaluate(RULES[at], pieces), existing)
        return found[key]


def outcome_of(
    rule: Rule, pieces: tuple[Kind | None, ...], finding: Finding | None, existing: bool
) -> Outcome | None:
    """Return what a finding means for a plan.

    Of what is on the bike already only a clash counts: it must go. An unknown of which neither
    side has a word recorded counts where the rule is vital or a part says nothing at all.
    """
    if finding is None or finding.verdict is Verdict.FITS:
        return FREE
    adapter = finding.adapter
    clashes = finding.verdict is Verdict.CLASH
    if clashes and (adapter is None or not adapter.kind):
        return FORBIDDEN
    if existing and not clashes:
        return FREE
    if finding.verdict is Verdict.MEASURE:
        return DOUBT if rule.vital or _has_blank(pieces) or not rule.is_silent(pieces) else FREE
    if adapter is not None:
        return Outcome(adapter=adapter, adapter_key=adapter_key(adapter))
    return MAKESHIFT if finding.makeshift else FREE


def _has_blank(pieces: tuple[Kind | None, ...]) -> bool:
    """Return whether of one of the pieces nothing is recorded but how it looks."""
    return any(
        piece is not None and all(name in DESCRIPTIVE for name, _ in piece.spec.values)
        for piece in pieces
    )
