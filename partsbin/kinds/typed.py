"""Numbers and lengths as people type them: `27,2 mm`, `1 1/8 in`, `9/16"`, `1.375`."""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from fractions import Fraction

from partsbin.standards.length import Length

MICROMETRES = {"mm": 1000, "cm": 10_000, "m": 1_000_000, "in": 25_400}
_UNIT_NAMES = {'"': "in", "″": "in", "''": "in", "inch": "in", "inches": "in", "": "mm"}
_FIGURE = re.compile(
    r"""(?:(?P<whole>\d+)[ -]+)?(?P<over>\d+)\s*/\s*(?P<under>\d+)   # 1 1/8
      | (?P<decimal>[+-]?\d*[.,]?\d+|[+-]?\d+[.,])                   # 27,2""",
    re.VERBOSE,
)


def read_decimal(text: str) -> Decimal:
    """Return the number that a text holds, with a decimal point or comma.

    >>> read_decimal(" 27,2 ")
    Decimal('27.2')
    """
    try:
        number = Decimal(text.strip().replace(",", "."))
    except InvalidOperation:
        raise ValueError(f"{text.strip()!r} is not a number") from None
    if not number.is_finite():
        raise ValueError(f"{text.strip()!r} is not a number")
    return number


def read_length(text: str) -> Length:
    """Return the length that a text holds; without a unit a decimal is millimetres.

    A fraction without a unit is inches, as the trade writes it.

    >>> read_length("27,2 mm"), read_length("1 1/8 in"), read_length('9/16"')
    (27200, 28575, 14288)
    """
    cleaned = text.strip().lower().replace("\N{NO-BREAK SPACE}", " ")
    match = _FIGURE.match(cleaned)
    if not match:
        raise ValueError(f"{text.strip()!r} is not a length; type it like 27.2 mm or 1 1/8 in")
    unit = cleaned[match.end() :].strip()
    fraction = match["over"] is not None
    unit = "in" if fraction and not unit else _UNIT_NAMES.get(unit, unit)
    if unit not in MICROMETRES:
        raise ValueError(f"{text.strip()!r} has an unknown unit; use mm, cm, m or in")
    exact = _figure(match) * MICROMETRES[unit]
    return Length(round(exact))


def _figure(match: re.Match[str]) -> Fraction:
    if match["over"] is None:
        return Fraction(read_decimal(match["decimal"]))
    if not int(match["under"]):
        raise ValueError(f"{match[0]!r} divides by zero")
    return Fraction(int(match["over"]), int(match["under"])) + int(match["whole"] or 0)
