"""Chances and totals of surprises, against SciPy and by counting."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from partsbin.stock.money import Money
from partsbin.workshop.surprises import Prior, Risk, costs, expected, quantile

RECORDS = {"none": (0, 0), "few": (1, 4), "many": (30, 120), "all": (8, 8)}


@pytest.mark.parametrize(("surprises", "bikes"), RECORDS.values(), ids=RECORDS)
def test_chance_is_the_posterior_predictive(surprises: int, bikes: int) -> None:
    """The chance of one more surprise is SciPy's beta-binomial of one trial."""
    prior = Prior(Fraction(3, 2), Fraction(17, 2))
    a, b = float(prior.a) + surprises, float(prior.b) + bikes - surprises
    assert float(prior.chance(surprises, bikes)) == pytest.approx(stats.betabinom.pmf(1, 1, a, b))


def test_equal_slots_are_a_binomial() -> None:
    """Slots of one chance and cost make SciPy's binomial distribution, quantiles included."""
    totals = costs([Risk(str(i), Fraction(1, 5), Money(700)) for i in range(12)])
    for count in range(13):
        assert float(totals[Money(700 * count)]) == pytest.approx(stats.binom.pmf(count, 12, 0.2))
    for share in (0.5, 0.8, 0.9, 0.99):
        count = int(stats.binom.ppf(share, 12, 0.2))
        assert quantile(totals, Fraction(str(share))) == 700 * count


risks = st.lists(
    st.builds(
        Risk,
        st.just("slot"),
        st.fractions(0, 1, max_denominator=20),
        st.integers(0, 5000).map(Money),
    ),
    max_size=7,
)


@given(risks)
def test_totals_are_those_of_counting_all_cases(several: list[Risk]) -> None:
    """The distribution is the one of going through every case; the chances add up to 1."""
    counted: dict[int, Fraction] = {}
    for case in product((False, True), repeat=len(several)):
        chance, total = Fraction(1), 0
        for happens, risk in zip(case, several, strict=True):
            chance *= risk.chance if happens else 1 - risk.chance
            total += risk.cost if happens else 0
        counted[total] = counted.get(total, Fraction(0)) + chance
    totals = costs(several)
    assert totals == counted
    assert sum(totals.values()) == 1
    assert expected(totals) == sum((r.chance * r.cost for r in several), Fraction(0))


def test_what_cannot_be_is_refused() -> None:
    """More surprises than bikes, and a share of nothing, are refused."""
    with pytest.raises(ValueError, match="cannot be"):
        Prior().chance(3, 2)
    with pytest.raises(ValueError, match="no share"):
        quantile({Money(0): Fraction(1)}, Fraction(0))
