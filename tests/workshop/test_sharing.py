"""A price split by relative sales value adds up to the last minor unit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partsbin.stock.money import Money
from partsbin.workshop.sharing import shared

# Joint cost by relative sales value, IAS 2 Inventories paragraph 14; worked figures, in cents:
# smallbusiness.chron.com joint costs (its first share; the others are the same arithmetic),
# estudaremcasa.com, superfastcpa.com.
WORKED = {
    "200 over 200, 250, 350": (20000, [20000, 25000, 35000], [5000, 6250, 8750]),
    "100 over 400, 100": (10000, [40000, 10000], [8000, 2000]),
    "10000 over 15000, 5000": (1000000, [1500000, 500000], [750000, 250000]),
}


@pytest.mark.parametrize(("total", "values", "shares"), WORKED.values(), ids=WORKED)
def test_worked_examples(total: int, values: list[int], shares: list[int]) -> None:
    """The shares are those of the published examples."""
    assert shared(Money(total), values) == shares


@given(
    total=st.integers(0, 10**9),
    values=st.lists(st.integers(0, 10**6), min_size=1, max_size=40).filter(any),
)
def test_the_last_cent_always_lands(total: int, values: list[int]) -> None:
    """Shares add up to the total, and none is off its exact part by a whole minor unit."""
    shares = shared(Money(total), values)
    assert sum(shares) == total
    for part, value in zip(shares, values, strict=True):
        assert abs(part * sum(values) - total * value) < sum(values)


def test_parts_worth_nothing_cannot_share() -> None:
    """There is no share of a price over parts that are worth nothing."""
    with pytest.raises(ValueError, match="worth nothing"):
        shared(Money(100), [0, 0])
