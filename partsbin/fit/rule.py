"""A rule of fit: a plain function of pieces, and what its own annotations say of it."""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

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


@dataclass(frozen=True, slots=True, eq=False)
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

    @property
    def reads(self) -> frozenset[str]:
        """The attributes that the rule is about: as stated, else all that its code asks for."""
        return _reads(self.function) if self.stated is None else self.stated

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
        hints = typing.get_type_hints(function)
        hints.pop("return")
        parameters = tuple(_parameter(hint) for hint in hints.values())
        return Rule(name, source, function, parameters, vital)

    return made


def _parameter(hint: Any) -> Parameter:
    union = typing.get_args(hint) or (hint,)
    kinds = tuple(kind for kind in union if kind is not types.NoneType)
    return Parameter(kinds, types.NoneType in union)


# Asked once all modules are read, not when a rule is made: it may call what is defined below it.
@cache
def _reads(function: Callable[..., object]) -> frozenset[str]:
    attributes = {name for kind in KINDS.values() for name in kind.attributes}
    return frozenset(attributes & set(_names(function, set()))) - DESCRIPTIVE


def _names(function: Callable[..., object], seen: set[object]) -> Iterator[str]:
    """Yield the names in a function's code, and in the functions of this room that it calls."""
    if function in seen:
        return
    seen.add(function)
    codes = [function.__code__]
    while codes:
        code = codes.pop()
        yield from code.co_names
        for constant in code.co_consts:
            if isinstance(constant, types.CodeType):
                codes.append(constant)
            elif isinstance(constant, str):
                yield constant
        for name in code.co_names:
            called = function.__globals__.get(name)
            if isinstance(called, types.FunctionType) and called.__module__.startswith(__package__):
                yield from _names(called, seen)
