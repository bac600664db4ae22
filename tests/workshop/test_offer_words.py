"""What is typed for an offer: shares, profits and hours, and what is none."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from partsbin.errors import UsageError
from partsbin.workshop.offer_words import read_minutes, read_profit, read_share


@pytest.mark.parametrize(
    ("reader", "text", "told"),
    [
        (read_share, "12,5 %", Decimal("0.125")),
        (read_share, "0", Decimal(0)),
        (read_share, "100%", Decimal(1)),
        (read_profit, "30%", (Decimal("0.3"), 0)),
        (read_profit, "25.50", (Decimal(0), 2550)),
        (read_minutes, "2,5", 150),
        (read_minutes, "0.01", 1),
    ],
)
def test_what_is_typed(reader: Callable[[str], object], text: str, told: object) -> None:
    """Percent and hours are read with point or comma; minutes are rounded up. By hand."""
    assert reader(text) == told


@pytest.mark.parametrize("reader", [read_share, read_profit, read_minutes])
@pytest.mark.parametrize("text", ["", "NaN", "sNaN", "-1", "Infinity", "1e999", "half", "NaN%"])
def test_what_is_none(reader: Callable[[str], object], text: str) -> None:
    """What is no number, or outside of what can be, is refused in a sentence."""
    with pytest.raises(UsageError, match="type it like"):
        reader(text)
