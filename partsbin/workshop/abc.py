"""Which kinds matter most: ABC classes by annual usage value, and what follows from a class.

Source of the limits, the counts a year and the tolerances: inventoryturns.com and
supplychainmetric.com, Inventory accuracy.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING

from partsbin.stock.count_tables import AbcClass
from partsbin.stock.usage import worth_by_kind

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

SHARES = ((AbcClass.A, 80), (AbcClass.B, 95), (AbcClass.C, 100))
"""A class holds the kinds up to this many per cent of the value, the dearest first."""
COUNTS_A_YEAR = {AbcClass.A: 4, AbcClass.B: 2, AbcClass.C: 1}
TOLERANCE_PERCENT = {AbcClass.A: 1, AbcClass.B: 3, AbcClass.C: 5}
"""How far a count may be off the record and still be called right."""
YEAR = dt.timedelta(days=365)


def classes(worth: Mapping[str, int]) -> dict[str, AbcClass]:
    """Return the class of each kind by what was used of it in a year.

    The dearest kind is of class A however much it is; what was not used is of class C.

    >>> "".join(classes({"tube": 700, "chain": 150, "bell": 100, "rack": 50, "light": 0}).values())
    'AABCC'
    """
    total = sum(worth.values())
    before = 0
    found = {}
    for kind in sorted(worth, key=lambda kind: (-worth[kind], kind)):
        beyond = [abc for abc, share in SHARES if before * 100 < share * total and worth[kind]]
        found[kind] = beyond[0] if beyond else AbcClass.C
        before += worth[kind]
    return found


def classes_now(session: Session, today: dt.date) -> dict[str, AbcClass]:
    """Return the class of each kind that was used in the year before a day."""
    return classes(worth_by_kind(session, start_of(today - YEAR)))


def start_of(day: dt.date) -> dt.datetime:
    """Return the first moment of a day (UTC)."""
    return dt.datetime.combine(day, dt.time(), dt.UTC)


def is_within(abc: AbcClass, recorded: int, counted: int) -> bool:
    """Return whether a count is right within the tolerance of its class.

    Of few pieces the tolerance is none: a single part is there or it is not.

    >>> is_within(AbcClass.C, 100, 95), is_within(AbcClass.B, 100, 95), is_within(AbcClass.C, 1, 0)
    (True, False, False)
    """
    return abs(counted - recorded) * 100 <= TOLERANCE_PERCENT[abc] * recorded


def days_between_counts(abc: AbcClass) -> int:
    """Return after how many days a bin of a class is due again.

    >>> [days_between_counts(abc) for abc in AbcClass]
    [91, 182, 365]
    """
    return YEAR.days // COUNTS_A_YEAR[abc]
