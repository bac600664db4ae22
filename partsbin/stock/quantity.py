"""Quantities as whole pieces or millimetres; cable and housing are read and shown in metres."""

from __future__ import annotations

from decimal import Decimal

from partsbin.errors import UsageError
from partsbin.kinds.typed import read_decimal, read_length
from partsbin.stock.words import Unit

LARGEST = 10**9
"""A thousand kilometres of cable: more is a slip of the finger."""


def read_quantity(text: str, unit: Unit) -> int:
    """Return the pieces, or the millimetres of a length in metres, that a person typed.

    Raises `UsageError` for what is no quantity above nothing.

    >>> read_quantity("12", Unit.PIECE)
    12
    >>> read_quantity("2,5", Unit.MM), read_quantity("80 cm", Unit.MM)
    (2500, 800)
    """
    allowed = "a number of pieces like 12" if unit is Unit.PIECE else "a length like 2.5 m"
    try:
        exact = _pieces(text) if unit is Unit.PIECE else _millimetres(text)
    except ValueError as fault:
        raise UsageError(f"{fault}; give {allowed}") from None
    if exact != int(exact) or not 0 < exact <= LARGEST:
        raise UsageError(f"{text.strip()!r} is not a quantity; give {allowed}")
    return int(exact)


def _pieces(text: str) -> Decimal:
    return read_decimal(text)


def _millimetres(text: str) -> Decimal:
    if text.strip()[-1:].isalpha():
        return Decimal(read_length(text)) / 1000
    return read_decimal(text) * 1000


def show_quantity(quantity: int, unit: Unit) -> str:
    """Return a quantity as a person reads it.

    >>> show_quantity(12, Unit.PIECE), show_quantity(2500, Unit.MM)
    ('12', '2.5 m')
    """
    if unit is Unit.PIECE:
        return str(quantity)
    return f"{Decimal(quantity).scaleb(-3).normalize():f} m"
