"""The most worth paying for a bike: what it will fetch, less all that stands in between."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

from partsbin.stock.money import NOTHING, Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What a sale must pay for; shares are of the expected price."""

    price: Money
    """What the bike is expected to fetch."""
    fee_share: Decimal = Decimal(0)
    profit_share: Decimal = Decimal(0)
    profit: Money = NOTHING
    """A wanted profit as an amount, on top of a share."""
    parts: Money = NOTHING
    labour_minutes: int = 0
    rate: Money = NOTHING
    """For an hour of labour."""
    transport: Money = NOTHING


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """Each amount that comes off the price, and what is left to pay with; that may be below 0."""

    price: Money
    fee: Money
    profit: Money
    parts: Money
    labour: Money
    transport: Money

    @property
    def most(self) -> Money:
        """Return the most to pay."""
        off = self.fee + self.profit + self.parts + self.labour + self.transport
        return Money(self.price - off)


def most_to_pay(terms: Terms) -> Amounts:
    """Return the most to pay with each amount that comes off: price less fees, profit, parts, work.

    Amounts that come off are rounded up to the minor unit, so that the figure is never too high.
    Source: target costing, planprojections.com and xplaind.com/191551 (price less target profit).

    >>> most_to_pay(Terms(price=Money(120000), profit_share=Decimal("0.3"))).most
    84000
    """
    return Amounts(
        price=terms.price,
        fee=_share(terms.price, terms.fee_share),
        profit=Money(_share(terms.price, terms.profit_share) + terms.profit),
        parts=terms.parts,
        labour=Money(-(-terms.labour_minutes * terms.rate // 60)),
        transport=terms.transport,
    )


def _share(price: Money, share: Decimal) -> Money:
    if not 0 <= share <= 1:
        raise ValueError(f"{share} is no share of a price; give one from 0 to 1")
    return Money(-int((-share * price).to_integral_value(ROUND_FLOOR)))
