"""The forms that an attribute's value can take: read from people and files, checked, shown.

`read` takes what a person typed, `check` takes what a JSON file holds; both return the canonical
value or raise `ValueError` with the reason. `show` makes a value readable. `possible` returns the
values that a recorded one may stand for: one if it is clear, two or more where a reading lies
between listed sizes. `candidates` returns all that the table allows.
"""

from __future__ import annotations

import difflib
from decimal import Decimal
from typing import Protocol

Value = int | str | Decimal | tuple[int, ...] | tuple[str, ...]
"""A canonical attribute value: micrometres or a count, a word, a number, or several of them."""


class Form(Protocol):
    """What every form of value can do; see the module's text."""

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""

    def read(self, text: str) -> Value:
        """Return the canonical value of what a person typed."""

    def check(self, raw: object) -> Value:
        """Return the canonical value of what a JSON file holds."""

    def show(self, value: Value) -> str:
        """Return the value as a person reads it."""

    def plain(self, value: Value) -> object:
        """Return the value as JSON holds it, so that `check` returns it again."""

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the values that a recorded one may stand for."""

    def candidates(self) -> tuple[Value, ...]:
        """Return all values that the table allows, empty where that is not a list."""


def nearest(word: str, words: tuple[str, ...] | list[str]) -> str:
    """Return the known word most like a wrong one as a hint, or an empty string.

    >>> nearest("seatpots", ["seatpost", "saddle"])
    "; did you mean 'seatpost'?"
    """
    small = {known.lower(): known for known in words}
    close = difflib.get_close_matches(word.lower(), small, n=1, cutoff=0.5)
    return f"; did you mean {small[close[0]]!r}?" if close else ""


def finite(raw: object, allowed: str) -> Decimal:
    """Return a JSON number exactly; anything else is an error that says what is allowed."""
    if isinstance(raw, bool) or not isinstance(raw, int | float | Decimal):
        raise ValueError(f"{raw!r} is not {allowed}")  # noqa: TRY004 - one error kind for bad values
    number = Decimal(str(raw))
    if not number.is_finite():
        raise ValueError(f"{raw!r} is not {allowed}")
    return number
