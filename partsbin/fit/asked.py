"""Which attributes a rule can ask for at all, as its own code says."""

from __future__ import annotations

import types
from collections.abc import Callable, Iterator
from functools import cache
from typing import TYPE_CHECKING, Any

from partsbin.kinds.kind import KINDS

if TYPE_CHECKING:
    from partsbin.fit.rule import Rule

OURS = "partsbin."


@cache
def asked_by(rule: Rule) -> frozenset[str]:
    """Return every attribute that a rule's code names, or that of a function it may call.

    Parts of one kind that are equal in all of these are equal to the rule. It is asked once all
    modules are read: a rule may call what is defined below it.
    """
    attributes = {name for kind in KINDS.values() for name in kind.attributes}
    return frozenset(attributes.intersection(names_behind(rule))) | (rule.stated or frozenset())


def names_behind(called: Any, seen: set[Callable[..., Any]] | None = None) -> Iterator[str]:
    """Yield the names and texts in a rule's code, and in the functions and tables that it uses.

    Functions that are `seen` already are left out.
    """
    seen = set() if seen is None else seen
    function = _plain(called)
    if function is None or function in seen or not function.__module__.startswith(OURS):
        return
    seen.add(function)
    codes = [function.__code__]
    while codes:
        code = codes.pop()
        yield from code.co_names
        for constant in code.co_consts:
            if isinstance(constant, types.CodeType):
                codes.append(constant)
            else:
                yield from _texts(constant)
        for name in code.co_names:
            used = function.__globals__.get(name)
            yield from names_behind(used, seen)
            yield from _texts(used)


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple | list | frozenset | set):
        for member in value:
            yield from _texts(member)
    elif isinstance(value, dict):
        for pair in value.items():
            yield from _texts(pair)


def _plain(called: Any) -> types.FunctionType | None:
    """Return the function itself of a rule, or of one whose answers are kept."""
    called = getattr(called, "function", called)
    called = getattr(called, "__wrapped__", called)
    return called if isinstance(called, types.FunctionType) else None
