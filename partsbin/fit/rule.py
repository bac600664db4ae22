"""A rule of fit: a plain function of pieces, and what its own annotations say of it."""

from __future__ import annotations

import types
import typing
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from partsbin.fit.asked import asked_by
from partsbin.fit.verdict import Finding
from partsbin.kinds.kind import KINDS, Kind

DESCRIPTIVE = frozenset({"side", "material", "style"})
"""Attributes that describe a part without saying anything of an interface."""


@dataclass(frozen=True, slots=True)
class Parameter:
    """What a rule wants in one place: pieces of these kinds, perhaps none."""

    kinds: tuple[type[Kind], ...]
    optional: bool

    def takes(self, word: str) -> bool:
        """Return whether a piece of that kind can stand here."""
        return issubclass(KINDS[word], self.kinds)


@dataclass(frozen=True, eq=False)
class Rule:
    """One interface between two kinds, or one train over several."""

    name: str
    source: str
    function: Callable[..., Finding | None]
    parameters: tuple[Parameter, ...]
    vital: bool = False
    """Whether it is asked even if neither side has a word recorded: a wrong pair is dangerous."""
    stated: frozenset[str] | None = None
    """The attributes that the rule is about, where they are fewer than its code asks for."""

    @cached_property
    def reads(self) -> frozenset[str]:
        """The attributes that the rule is about: as stated, else all that its code asks for."""
        return asked_by(self) - DESCRIPTIVE if self.stated is None else self.stated

    def __call__(self, *pieces: Kind | None) -> Finding | None:
        """Return what the rule finds; raises `UndecidedError` where it needs an unknown."""
        return self.function(*pieces)

    def is_silent(self, pieces: tuple[Kind | None, ...]) -> bool:
        """Return whether none of the pieces says anything that this rule reads."""
        reads = self.reads
        for piece in pieces:
            if piece is None:
                continue
            for said in (piece.__dict__, piece.open_values, piece.likely):
                if said and not reads.isdisjoint(said):
                    return False
        return True


def interface(
    name: str, *, source: str, vital: bool = False
) -> Callable[[Callable[..., Finding | None]], Rule]:
    """Return a decorator that makes a function a rule of that name.

    The function's arguments are annotated with the kinds that meet; `| None` marks a part that the
    rule can do without. It returns a finding, or None where the pieces do not meet in this way.
    `source` is where the rule is published, or `common practice, no source`; a `vital` rule asks
    for what is unknown even if neither side has a word of it recorded.
    """

    def made(function: Callable[..., Finding | None]) -> Rule:
        """Return the rule that the function is, with the places that its annotations name."""
        hints = typing.get_type_hints(function)
        hints.pop("return")
        parameters = tuple(_parameter(hint) for hint in hints.values())
        return Rule(name, source, function, parameters, vital)

    return made


def _parameter(hint: Any) -> Parameter:
    union = typing.get_args(hint) or (hint,)
    kinds = tuple(kind for kind in union if kind is not types.NoneType)
    return Parameter(kinds, types.NoneType in union)
