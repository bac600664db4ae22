"""The most to pay, checked against published costing figures."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partsbin.stock.money import Money
from partsbin.workshop.most_to_pay import Terms, most_to_pay

# Target cost = price less target profit: enna.com target costing; xplaind.com/191551.
# 1,200 at 30, 40 and 15 %: qammunity.org 6326349. Cost 36 at a margin of 55 % sells at 80, so at
# a price of 80 the most is 36: planprojections.com target costing.
PUBLISHED = {
    "1200 at 30 %": (Terms(price=Money(120000), profit_share=Decimal("0.30")), 84000),
    "1200 at 40 %": (Terms(price=Money(120000), profit_share=Decimal("0.40")), 72000),
    "1200 at 15 %": (Terms(price=Money(120000), profit_share=Decimal("0.15")), 102000),
    "80 at 55 %": (Terms(price=Money(8000), profit_share=Decimal("0.55")), 3600),
}


@pytest.mark.parametrize(("terms", "most"), PUBLISHED.values(), ids=PUBLISHED)
def test_published_target_costs(terms: Terms, most: int) -> None:
    """Price less the wanted profit is the published target cost."""
    assert most_to_pay(terms).most == most


def test_all_that_comes_off() -> None:
    """Own arithmetic: 180 less 10 % fee, 30 % profit, 22 parts, 2.5 h at 12, 5 transport is 51."""
    terms = Terms(
        price=Money(18000),
        fee_share=Decimal("0.10"),
        profit_share=Decimal("0.30"),
        parts=Money(2200),
        labour_minutes=150,
        rate=Money(1200),
        transport=Money(500),
    )
    amounts = most_to_pay(terms)
    assert (amounts.fee, amounts.profit, amounts.labour) == (1800, 5400, 3000)
    assert amounts.most == 5100


@given(
    price=st.integers(0, 10**7),
    fee=st.decimals(0, 1, places=3),
    minutes=st.integers(0, 10**4),
    rate=st.integers(0, 10**4),
)
def test_never_too_high(price: int, fee: Decimal, minutes: int, rate: int) -> None:
    """Rounding never leaves more to pay than the exact figure, and less than a unit per amount."""
    terms = Terms(price=Money(price), fee_share=fee, labour_minutes=minutes, rate=Money(rate))
    exact = price - price * fee - Decimal(minutes * rate) / 60
    assert exact - 2 < most_to_pay(terms).most <= exact


@pytest.mark.parametrize("share", ["-0.1", "1.1"])
def test_a_share_is_between_nothing_and_all(share: str) -> None:
    """A fee of more than the price, or less than nothing, is refused."""
    with pytest.raises(ValueError, match="no share"):
        most_to_pay(Terms(price=Money(100), fee_share=Decimal(share)))
