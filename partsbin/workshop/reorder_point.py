"""When to order and how much: demand over the lead time, and a safety stock for bad luck.

Quantities are pieces or millimetres; days are days. All is reckoned in decimals, nothing in floats.

Sources: waycalculator.com, Reorder point; an operations-management textbook at flylib.com,
figure 16.12 (variable demand); novacalculator.com, Reorder point (demand and lead time variable).
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

Z_95 = Decimal("1.65")
"""Standard deviations that keep 95 of 100 lead times free of a shortage."""


@dataclass(frozen=True, slots=True)
class Demand:
    """What is used a day, and how much that varies."""

    mean: Decimal
    deviation: Decimal


def demand_of(used: Collection[int], days: int) -> Demand:
    """Return the daily demand of some days; on the days that `used` lacks nothing was used.

    >>> demand_of([10, 10], 4)
    Demand(mean=Decimal('5'), deviation=Decimal('5'))
    """
    mean = Decimal(sum(used)) / days
    squares = Decimal(sum(quantity * quantity for quantity in used)) / days
    return Demand(mean, max(squares - mean * mean, Decimal(0)).sqrt())


def safety_stock(
    demand: Demand, lead_days: int, lead_deviation: int = 0, z: Decimal = Z_95
) -> Decimal:
    """Return `z * sqrt(L * s_d^2 + d^2 * s_L^2)`, of lead time L and demand d with deviations s.

    A lead time that never varies leaves `z * s_d * sqrt(L)`.

    >>> round(safety_stock(Demand(Decimal(30), Decimal(5)), 10), 1)
    Decimal('26.1')
    """
    demand_part = lead_days * demand.deviation * demand.deviation
    lead_part = (demand.mean * lead_deviation) ** 2
    return z * (demand_part + lead_part).sqrt()


def reorder_point(demand: Demand, lead_days: int, safety: Decimal) -> Decimal:
    """Return the stock at which to order: what the lead time uses, and the safety stock.

    >>> reorder_point(Demand(Decimal(15), Decimal(0)), 10, Decimal(30))
    Decimal('180')
    """
    return demand.mean * lead_days + safety


def order_quantity(have: int, wanted: int, during_lead: Decimal, pack: int) -> int:
    """Return how much to order, in whole packs, so that `wanted` is there when it has come.

    >>> order_quantity(have=3, wanted=10, during_lead=Decimal("2.5"), pack=4)
    12
    """
    short = max(wanted - have, 0) + up(during_lead)
    return max(-(-short // pack), 1) * pack


def up(quantity: Decimal) -> int:
    """Return the next whole quantity that is not less."""
    return int(quantity.to_integral_value(ROUND_CEILING))
