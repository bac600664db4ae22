"""Judges a set of pieces by all rules: the worst finding of each interface, and the verdict."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import product

from partsbin.fit.rule import Rule
from partsbin.fit.rules import RULES
from partsbin.fit.verdict import Adapter, Finding, Trial, Verdict
from partsbin.kinds.attribute import UndecidedError
from partsbin.kinds.forms.form import Value
from partsbin.kinds.kind import Kind

SHARE_NOTHING = "share no interface"

WHEEL_END = frozenset(
    {"wheel", "hub", "rim", "tyre", "tube", "rim_brake", "disc_calliper", "rotor", "skewer"}
)
"""The kinds that stand at one wheel, in the frame or in the fork."""

FEW = 4
"""So few values are tried as they come."""

Pieces = tuple[Kind | None, ...]
Meeting = tuple[Rule, tuple[int | None, ...], tuple[int, ...]]
"""A rule, which part stands in each of its places, and the parts that stand in one."""


@dataclass(frozen=True, slots=True)
class Judged:
    """One interface of a set: the rule, its worst finding, and which of the parts it is about."""

    rule: Rule
    finding: Finding
    parts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Judgement:
    """The verdict of a set, its interfaces with the decisive one first, and what was not compared.

    `unchecked` names the interfaces of which neither side has anything recorded.
    """

    verdict: Verdict
    interfaces: tuple[Judged, ...]
    unchecked: tuple[str, ...] = ()

    @property
    def makeshift(self) -> bool:
        """Return whether it only gets a rider home, and is no repair."""
        return any(judged.finding.makeshift for judged in self.interfaces)


def judge(pieces: Sequence[Kind], ends: Sequence[str] = (), about: int | None = None) -> Judgement:
    """Return the verdict of a set of pieces: the worst over the interfaces that they share.

    `ends` says of each piece whether it is mounted at the `front` or the `rear`, if that is known;
    pieces at different ends do not meet. With `about` only the interfaces of that piece count.
    """
    worst: dict[str, Judged] = {}
    quiet: list[Judged] = []
    spoken: set[int] = set()
    words = tuple(piece.word for piece in pieces)
    for rule, at, parts in _meetings(words):
        if (about is not None and about not in parts) or (ends and apart(parts, words, ends)):
            continue
        args = tuple([None if i is None else pieces[i] for i in at])
        finding = evaluate(rule, args)
        if finding is None:
            continue
        judged = Judged(rule, finding, parts)
        if finding.open and rule.is_silent(args):
            quiet.append(judged)
            continue
        spoken.update(parts)
        _keep_worse(worst, _mended(judged, pieces))
    # An interface of which neither side has a word recorded is no clash and no fit. It is named as
    # unchecked if the parts have something to say elsewhere; it is the question to ask where a
    # part has said nothing at all, and always where a wrong answer is dangerous.
    heard = frozenset(spoken)
    unchecked: dict[str, None] = {}
    for judged in quiet:
        if not judged.rule.vital and heard.issuperset(judged.parts):
            unchecked[judged.rule.name] = None
        else:
            heard |= frozenset(judged.parts)
            _keep_worse(worst, judged)
    interfaces = sorted(worst.values(), key=lambda judged: -judged.finding.verdict.rank)
    verdict = interfaces[0].finding.verdict if interfaces else Verdict.FITS
    return Judgement(verdict, tuple(interfaces), tuple(n for n in unchecked if n not in worst))


def evaluate(rule: Rule, pieces: Pieces) -> Finding | None:
    """Return what a rule finds, `measure` where an unknown decides, None if it does not apply."""
    try:
        return rule.function(*pieces)
    except UndecidedError as undecided:
        piece, attribute = undecided.piece, undecided.attribute
    at = next(i for i, asked in enumerate(pieces) if asked is piece)
    return _undecided(Trial(rule=rule, pieces=pieces, at=at, attribute=attribute))


def outcomes(trial: Trial) -> Iterator[tuple[Value, Finding | None]]:
    """Yield each value that an unknown may have, with what the rule then finds."""
    for value in trial.piece.candidates(trial.attribute):
        yield value, _tried(trial, value)


def _tried(trial: Trial, value: Value) -> Finding | None:
    pieces = list(trial.pieces)
    pieces[trial.at] = trial.piece.having(**{trial.attribute: value})
    return evaluate(trial.rule, tuple(pieces))


def _telling_first(trial: Trial) -> Sequence[Value]:
    """Return the values that an unknown may have, those that are likely to disagree in front.

    They are both ends of the list, and what the other pieces have: a rule mostly compares.
    """
    values = trial.piece.candidates(trial.attribute)
    if len(values) < FEW:
        return values
    others: list[Value] = []
    form = type(values[0])
    for piece in trial.pieces:
        if piece is not None:
            others += [value for value in piece.__dict__.values() if type(value) is form]
    return [values[0], values[-1], *[value for value in values[1:-1] if value in others], *values]


def _undecided(trial: Trial) -> Finding | None:
    """Return the finding that all possible values agree on, else `measure`."""
    agreed: Finding | None = None
    adapters: dict[str, Adapter] = {}
    tried = False
    for value in _telling_first(trial):
        finding = _tried(trial, value)
        tried = True
        if finding is None:
            continue
        if finding.open:
            return _measure(trial, finding.open)
        if agreed is not None and finding.verdict is not agreed.verdict:
            return _measure(trial)
        if agreed is None or (finding.makeshift and not agreed.makeshift):
            agreed = finding
        if finding.adapter is not None:
            adapters[finding.adapter.what] = finding.adapter
    if not tried:
        return _measure(trial)
    if agreed is None:
        return None
    if len(adapters) > 1:
        # Which of them it is the unknown decides, so that none among the parts is sure to do.
        agreed = replace(agreed, adapter=Adapter(what=" or ".join(sorted(adapters))))
    return replace(agreed, whatever=((trial.piece, trial.attribute), *agreed.whatever))


def _measure(trial: Trial, also: tuple[Trial, ...] = ()) -> Finding:
    likely = None
    if any(piece is not None and piece.likely for piece in trial.pieces):
        assumed = tuple(p if p is None else p.having(**p.likely, likely={}) for p in trial.pieces)
        likely = evaluate(trial.rule, assumed)
    return Finding(
        verdict=Verdict.MEASURE,
        because="",
        open=(trial, *also),
        likely=likely if likely and likely.verdict is not Verdict.MEASURE else None,
    )


def _mended(judged: Judged, pieces: Sequence[Kind]) -> Judged:
    """Return the finding as `fits` where the adapter that it asks for is among the pieces."""
    adapter = judged.finding.adapter
    if adapter is None or not adapter.kind:
        return judged
    for i, piece in enumerate(pieces):
        if piece.word != adapter.kind:
            continue
        unknown = adapter.undecided(piece)
        if unknown is None:
            continue
        if unknown:
            trial = Trial(rule=judged.rule, pieces=(piece,), at=0, attribute=unknown)
            finding = Finding(verdict=Verdict.MEASURE, because="", open=(trial,))
        else:
            finding = replace(judged.finding, verdict=Verdict.FITS, through=piece, dangerous=False)
        return Judged(judged.rule, finding, (*judged.parts, i))
    return judged


def _keep_worse(worst: dict[str, Judged], judged: Judged) -> None:
    kept = worst.get(judged.rule.name)
    if kept is None or judged.finding.verdict.rank > kept.finding.verdict.rank:
        worst[judged.rule.name] = judged


def apart(placed: tuple[int, ...], words: Sequence[str], ends: Sequence[str]) -> bool:
    """Return whether pieces are at different ends; a frame has the rear wheel, a fork the front."""
    found = {ends[i] for i in placed if ends[i]}
    kinds = {words[i] for i in placed}
    if WHEEL_END & kinds:
        found |= {end for kind, end in (("frame", "rear"), ("fork", "front")) if kind in kinds}
    return len(found) > 1


@lru_cache(maxsize=4096)
def _meetings(words: tuple[str, ...]) -> tuple[Meeting, ...]:
    """Return each rule with the places of its pieces, for pieces of these kinds."""
    found: list[Meeting] = []
    for rule in RULES:
        choices: list[list[int | None]] = []
        for parameter in rule.parameters:
            taking: list[int | None] = [i for i, w in enumerate(words) if parameter.takes(w)]
            choices.append(taking or ([None] if parameter.optional else []))
        for at in product(*choices):
            parts = tuple(i for i in at if i is not None)
            if len(parts) == len(set(parts)):
                found.append((rule, at, parts))
    return tuple(found)
