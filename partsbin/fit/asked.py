"""Which attributes a rule can ask for at all, so that many parts are judged as one."""

from __future__ import annotations

import types
from collections.abc import Iterator
from functools import cache
from typing import Any

from partsbin.fit.rule import Rule
from partsbin.kinds.kind import KINDS

OURS = "partsbin."


@cache
def asked_by(rule: Rule) -> frozenset[str]:
    """Return every attribute that a rule's code names, or that of a function it may call.

    Parts of one kind that are equal in all of these are equal to the rule. It is asked once all
    modules are read: a rule may call what is defined below it.
    """
    attributes = {name for kind in KINDS.values() for name in kind.attributes}
    return frozenset(attributes & set(_names(rule.function, set()))) | rule.reads


def _names(called: Any, seen: set[int]) -> Iterator[str]:
    function = _plain(called)
    if function is None or id(function) in seen or not function.__module__.startswith(OURS):
        return
    seen.add(id(function))
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
            yield from _named(function.__globals__.get(name), seen)


def _named(value: Any, seen: set[int]) -> Iterator[str]:
    """Yield the names behind what a code calls by name: a function, or a table with texts."""
    yield from _names(value, seen)
    yield from _texts(value)


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
    if isinstance(called, Rule):
        called = called.function
    called = getattr(called, "__wrapped__", called)
    return called if isinstance(called, types.FunctionType) else None
