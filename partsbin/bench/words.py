"""The filters that templates write with: numbers in groups, money, words of the trade."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

from labels.number import grouped
from partsbin.kinds.spec import in_words
from partsbin.stock.money import show_money


def money(amount: int | None) -> str:
    """Return an amount with its two digits, a dash where there is none.

    >>> money(1250), money(None)
    ('12.50', '-')
    """
    return "-" if amount is None else show_money(amount)


def day(seconds: int) -> str:
    """Return the day of a moment, given in seconds since 1970, where the program runs."""
    return dt.datetime.fromtimestamp(seconds, dt.UTC).astimezone().strftime("%Y-%m-%d")


FILTERS: dict[str, Callable[..., Any]] = {
    "grouped": grouped,
    "day": day,
    "money": money,
    "in_words": in_words,
}
