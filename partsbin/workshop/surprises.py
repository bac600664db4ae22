"""What bikes turn out to need beyond what was seen: how likely, and what it may cost in all.

Each slot surprises or does not. Its chance is the workshop's own record under a Beta prior, so that
a young record does not claim too much; the posterior predictive chance of one more bike is
(a + surprises) / (a + b + bikes). The cost of one bike is then a sum of independent yes-or-no
costs, whose distribution is computed exactly, in whole minor units.

Source: the Beta-binomial model as in A. Gelman et al., Bayesian Data Analysis, 3rd ed., 2.4 (from
memory); the sum by repeated convolution.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from partsbin.stock.money import Money


@dataclass(frozen=True, slots=True)
class Prior:
    """What is believed of a slot before any record: `a` surprises in `a + b` imagined bikes."""

    a: Fraction = Fraction(1)
    b: Fraction = Fraction(9)

    def chance(self, surprises: int, bikes: int) -> Fraction:
        """Return the chance that the slot of one more bike surprises.

        >>> Prior().chance(0, 0), Prior().chance(3, 10)
        (Fraction(1, 10), Fraction(1, 5))
        """
        if not 0 <= surprises <= bikes:
            raise ValueError(f"{surprises} surprises in {bikes} bikes cannot be")
        return (self.a + surprises) / (self.a + self.b + bikes)


PRIOR = Prior()
"""One slot in ten surprises: stated to the user, common practice, no source."""


@dataclass(frozen=True, slots=True)
class Risk:
    """A slot that may surprise: how likely, and what it costs then."""

    slot: str
    chance: Fraction
    cost: Money


def costs(risks: Sequence[Risk]) -> dict[Money, Fraction]:
    """Return the chance of each total that the surprises of one bike may cost; they add up to 1.

    >>> costs([Risk("chain", Fraction(1, 2), Money(900)), Risk("bell", Fraction(1, 4), Money(100))])
    {0: Fraction(3, 8), 100: Fraction(1, 8), 900: Fraction(3, 8), 1000: Fraction(1, 8)}
    """
    totals: dict[Money, Fraction] = {Money(0): Fraction(1)}
    for risk in risks:
        if not 0 <= risk.chance <= 1:
            raise ValueError(f"{risk.chance} is no chance")
        grown: dict[Money, Fraction] = {}
        for total, chance in totals.items():
            with_it = Money(total + risk.cost)
            grown[total] = grown.get(total, Fraction(0)) + chance * (1 - risk.chance)
            grown[with_it] = grown.get(with_it, Fraction(0)) + chance * risk.chance
        totals = grown
    return dict(sorted(totals.items()))


def quantile(totals: Mapping[Money, Fraction], share: Fraction) -> Money:
    """Return the least total that is not exceeded in this share of bikes.

    >>> quantile({Money(0): Fraction(3, 4), Money(500): Fraction(1, 4)}, Fraction(4, 5))
    500
    """
    if not 0 < share <= 1:
        raise ValueError(f"{share} is no share of bikes")
    reached = Fraction(0)
    for total, chance in sorted(totals.items()):
        reached += chance
        if reached >= share:
            return total
    raise ValueError("the chances do not add up to 1")


def expected(totals: Mapping[Money, Fraction]) -> Fraction:
    """Return the mean total, in minor units."""
    return sum((total * chance for total, chance in totals.items()), Fraction(0))
