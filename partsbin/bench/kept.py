"""What takes long to reckon, kept in memory until the record changes."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar

from flask import current_app

if TYPE_CHECKING:
    from flask.sansio.app import App
    from sqlalchemy.orm import Session

NAME = "partsbin-kept"
MOST = 32
"""Answers that are kept."""
P = ParamSpec("P")
A = TypeVar("A")


class Kept:
    """Answers by what was asked and when. May be used from many threads."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._answers: OrderedDict[Hashable, object] = OrderedDict()

    @classmethod
    def hold(cls, app: App) -> None:
        """Give the application its own kept answers, once."""
        app.extensions.setdefault(NAME, cls())

    def get(self, key: Hashable) -> object | None:
        """Return the answer of a key, None if it is not kept."""
        with self._lock:
            return self._answers.get(key)

    def keep(self, key: Hashable, answer: object) -> None:
        """Keep an answer; the oldest make room for it."""
        with self._lock:
            self._answers[key] = answer
            while len(self._answers) > MOST:
                self._answers.popitem(last=False)


def kept(
    session: Session, make: Callable[Concatenate[Session, P], A], *asked: P.args, **named: P.kwargs
) -> A:
    """Return what `make` makes of the session, or made when the record was the same.

    What is asked must be hashable, and all that the answer depends on besides the record.
    """
    key = _key(last_act(session), make, *asked, **named)
    found = _held().get(key)
    if found is None:
        found = make(session, *asked, **named)
        _held().keep(key, found)
    # Only what this very function made is kept under its key.
    return found  # type: ignore[return-value]


def made_at(
    act: int, make: Callable[Concatenate[Session, P], A], *asked: P.args, **named: P.kwargs
) -> A | None:
    """Return what was made when an act was the last one, None if that is not kept any more."""
    # As in `kept`.
    return _held().get(_key(act, make, *asked, **named))  # type: ignore[return-value]


def last_act(session: Session, before: int | None = None) -> int:
    """Return the last act of the record, or the last one before another."""
    from sqlalchemy import func, select

    from partsbin.stock.models import Act

    query = select(func.max(Act.id))
    return session.scalar(query if before is None else query.where(Act.id < before)) or 0


def _held() -> Kept:
    held = current_app.extensions[NAME]
    assert isinstance(held, Kept)
    return held


def _key(act: int, make: Callable[..., object], *asked: object, **named: object) -> Hashable:
    return (act, make, asked, tuple(sorted(named.items())))
