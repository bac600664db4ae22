"""Which attributes an interface is about, where its rule reads others only to see if it applies."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from partsbin.fit.rule import Rule


def about(*attributes: str) -> Callable[[Rule], Rule]:
    """Return a decorator: the rule is silent unless one of these attributes is recorded.

    A frame's mounts, say, tell whether a bolt matters, but say nothing of the bolt.
    """
    return lambda rule: replace(rule, stated=frozenset(attributes))
