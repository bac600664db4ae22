"""What is typed for an offer, and how what the seller asks stands to it, in words."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from math import ceil
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.stock.money import Money, read_money, show_money
from partsbin.workshop.turnover import EVEN, Turnover

if TYPE_CHECKING:
    from partsbin.workshop.offering import Offering

HOURS_IN_A_YEAR = 8760


def read_share(text: str) -> Decimal:
    """Return a share that was typed in percent. Raises `UsageError` for none from 0 to 100.

    >>> read_share("12,5%"), read_share("30")
    (Decimal('0.125'), Decimal('0.3'))
    """
    share = _number(text.strip().removesuffix("%")) / 100
    if not 0 <= share <= 1:
        raise UsageError(f"{text!r} is no share; type it like 10%")
    return share


def read_profit(text: str) -> tuple[Decimal, Money]:
    """Return a wanted profit as a share and as an amount, one of them nothing.

    >>> read_profit("30%"), read_profit("25")
    ((Decimal('0.3'), 0), (Decimal('0'), 2500))
    """
    if text.strip().endswith("%"):
        return read_share(text), Money(0)
    return Decimal(0), read_money(text)


def read_minutes(hours: str) -> int:
    """Return the minutes of some hours, rounded up. Raises `UsageError` for no number of hours.

    >>> read_minutes("2,5")
    150
    """
    exact = _number(hours)
    if not 0 <= exact <= HOURS_IN_A_YEAR:
        raise UsageError(f"{hours!r} is no number of hours; type it like 2.5")
    return ceil(exact * 60)


def _number(text: str) -> Decimal:
    """Return a typed number, -1 for what is none."""
    try:
        number = Decimal(text.strip().replace(",", "."))
    except InvalidOperation:
        return Decimal(-1)
    return number if number.is_finite() else Decimal(-1)


def discount(turned: Turnover) -> str:
    """Return at what share of their price parts count that no open need takes, and why."""
    return (
        f"parts that nobody waits for are counted at {float(turned.share):.0%}: {turned.used} of "
        f"{turned.parts} parts on record were used or sold in a year, with a prior of "
        f"{EVEN.a} in {EVEN.a + EVEN.b}"
    )


def verdict(found: Offering, asked: Money) -> str:
    """Return how what the seller asks stands to what may be paid."""
    best = max(found.amounts.most, found.most_to_strip)
    chance = f"{float(found.chance_of_loss(asked)):.0%} chance of a loss"
    if asked <= found.cautious:
        return f"asked is within the cautious figure ({chance})"
    if asked <= found.amounts.most:
        return f"asked is below the most to pay, but above the cautious figure ({chance})"
    if asked <= best:
        return "asked is above the most to pay to make it right, but not to strip it"
    return f"asked is {show_money(asked - best)} above the most to pay ({chance}): offer less"
