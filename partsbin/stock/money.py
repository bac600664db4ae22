"""Money as whole minor units (cents), read and shown as decimal numbers at the edges only."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NewType

from partsbin.errors import UsageError

Money = NewType("Money", int)
"""An amount in minor units of the workshop's one currency. Sums and differences stay whole."""

NOTHING = Money(0)
LARGEST = Money(10**14)
"""More than a workshop will own; a sum of ninety thousand of them still fits 64 bits."""

_AMOUNT = re.compile(r"\d+(?:[.,]\d{1,2})?|[.,]\d{1,2}", re.ASCII)


def read_money(text: str) -> Money:
    """Return the amount that a person typed, with a decimal point or comma.

    Raises `UsageError` for anything else, for more than two decimals and for a sign: an amount
    that goes the other way is another act.

    >>> read_money("12,50"), read_money("7"), read_money(" .5 ")
    (1250, 700, 50)
    """
    cleaned = text.strip()
    if not _AMOUNT.fullmatch(cleaned):
        raise UsageError(f"{cleaned!r} is not an amount of money; type it like 12.50")
    amount = Money(int(Decimal(cleaned.replace(",", ".")).scaleb(2)))
    if amount > LARGEST:
        raise UsageError(f"{cleaned!r} is more money than the record can hold; check the figure")
    return amount


def show_money(amount: int) -> str:
    """Return minor units as a decimal number with two places.

    >>> show_money(1250), show_money(-5)
    ('12.50', '-0.05')
    """
    return f"{Decimal(amount).scaleb(-2):.2f}"


def share(cost: Money, quantity: int, of: int) -> Money:
    """Return the cost of `quantity` out of `of` at their average cost, to the nearest minor unit.

    The whole quantity carries the whole cost, so that no remainder is lost. A half is rounded up.

    Source: IAS 2 Inventories, paragraphs 25 and 27 (weighted average after each receipt).

    >>> share(Money(1000), 1, 3), share(Money(667), 2, 2)
    (333, 667)
    """
    if not 0 <= quantity <= of or of == 0:
        raise ValueError(f"{quantity} of {of} have no share of a cost")
    return Money((2 * cost * quantity + of) // (2 * of))
