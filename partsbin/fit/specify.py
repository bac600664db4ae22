"""What exactly to buy when nothing in stock fits: the values that a slot's neighbours allow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from partsbin.fit.judge import Judgement, judge
from partsbin.fit.verdict import Verdict
from partsbin.kinds.forms.form import Value
from partsbin.kinds.kind import KINDS, Kind
from partsbin.kinds.spec import Spec


@dataclass(frozen=True, slots=True)
class Specification:
    """A kind with, for each attribute that a neighbour decides, the values that go."""

    kind: str
    values: tuple[tuple[str, tuple[Value, ...]], ...]
    judgement: Judgement

    def shown(self) -> dict[str, str]:
        """Return the allowed values of each attribute as a person reads them."""
        attributes = KINDS[self.kind].attributes
        return {
            name: " or ".join(attributes[name].form.show(value) for value in values)
            for name, values in self.values
        }


def specification(
    kind: str,
    neighbours: Sequence[Kind],
    ends: Sequence[str] = (),
    like: Kind | None = None,
    end: str = "",
) -> Specification:
    """Return the specification of a part of a kind that goes with all its neighbours.

    The values are chosen as the interfaces ask for them, first as in the part replaced, then
    as in a neighbour, the one with the best verdict; then all values that do as well are listed.
    Attributes that no neighbour decides are left out.
    """
    asked = _Asked(neighbours, ends, end)
    piece = Spec(kind).piece
    chosen: list[str] = []
    while (name := asked.open_attribute(piece, chosen)) is not None:
        piece = _best(asked, piece, name, like)
        chosen.append(name)
    judgement = asked.judge(piece)
    values = tuple(
        (name, alike)
        for name in chosen
        if (alike := _alike(asked, piece, name, judgement.verdict)) is not None
    )
    return Specification(kind, values, judgement)


@dataclass(frozen=True, slots=True)
class _Asked:
    """The neighbours of the slot that a part is wanted for."""

    neighbours: Sequence[Kind]
    ends: Sequence[str]
    end: str

    def judge(self, piece: Kind) -> Judgement:
        """Return the judgement of the piece among its neighbours."""
        ends = (self.end, *self.ends) if self.ends else ()
        return judge((piece, *self.neighbours), ends, about=0)

    def open_attribute(self, piece: Kind, chosen: Sequence[str]) -> str | None:
        """Return an unknown of the piece that an interface waits for, None if there is none."""
        for judged in self.judge(piece).interfaces:
            for trial in judged.finding.open:
                if trial.piece.spec is piece.spec and trial.attribute not in chosen:
                    return trial.attribute
        return None


def _best(asked: _Asked, piece: Kind, name: str, like: Kind | None) -> Kind:
    """Return the piece with the best value of an attribute, unchanged if none is known to go."""
    preferred = [p.__dict__[name] for p in (like, *asked.neighbours) if p and p.known(name)]
    candidates = list(dict.fromkeys([*preferred, *piece.candidates(name)]))
    best, worst_so_far = piece, Verdict.CLASH.rank
    for value in candidates:
        tried = piece.having(**{name: value})
        rank = asked.judge(tried).verdict.rank
        if rank < worst_so_far:
            best, worst_so_far = tried, rank
    return best


def _alike(asked: _Asked, piece: Kind, name: str, verdict: Verdict) -> tuple[Value, ...] | None:
    """Return the values that do as well as the chosen one, None if all of the table do."""
    if not piece.known(name):
        return None
    candidates = piece.candidates(name)
    alike = tuple(
        value
        for value in dict.fromkeys((piece.__dict__[name], *candidates))
        if asked.judge(piece.having(**{name: value})).verdict is verdict
    )
    return None if candidates and set(candidates) <= set(alike) else alike
