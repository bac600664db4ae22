"""Lengths as whole micrometres, so that 27.2 mm is exactly 27.2 mm everywhere."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal
from functools import lru_cache
from typing import NewType

Length = NewType("Length", int)
"""A length in micrometres. Sums and differences stay whole numbers."""


def mm(value: str | float | Decimal) -> Length:
    """Return a number of millimetres as a Length, rounded to the micrometre.

    >>> mm(27.2)
    27200
    >>> mm("3.175")
    3175
    """
    exact = Decimal(str(value)) * 1000
    return Length(int(exact.quantize(Decimal(1), rounding=ROUND_HALF_EVEN)))


@lru_cache(maxsize=4096)
def in_mm(length: int) -> str:
    """Return a number of micrometres in millimetres, without needless zeros.

    >>> in_mm(27200)
    '27.2'
    >>> in_mm(-350)
    '-0.35'
    """
    return f"{Decimal(length).scaleb(-3).normalize():f}"
