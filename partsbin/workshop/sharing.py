"""Splitting a price so that the last cent always lands."""

from __future__ import annotations

from collections.abc import Sequence

from partsbin.stock.money import Money


def shared(total: Money, values: Sequence[int]) -> list[Money]:
    """Return the shares of a total in proportion to some values; they add up to the total.

    Each share is rounded down, and the minor units that are left go to the largest remainders, to
    the first of equal ones. Source: IAS 2 Inventories, paragraph 14 (relative sales value).

    >>> shared(Money(200), [200, 250, 350])
    [50, 63, 87]
    """
    whole = sum(values)
    if not whole:
        raise ValueError("a price cannot be shared over parts that are worth nothing")
    shares = [total * value // whole for value in values]
    remainders = [total * value % whole for value in values]
    order = sorted(range(len(values)), key=lambda i: -remainders[i])
    for i in order[: total - sum(shares)]:
        shares[i] += 1
    return [Money(share) for share in shares]
