"""Counts, lists of counts and decimal numbers."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from partsbin.kinds.forms.form import Value, finite
from partsbin.kinds.typed import read_decimal

FINEST = Decimal("0.000001")
"""Numbers are kept to the millionth."""


@dataclass(frozen=True, slots=True)
class CountForm:
    """A whole number between two limits."""

    low: int
    high: int
    listed: tuple[int, ...] = ()
    unit: str = ""

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"a whole number from {self.low} to {self.high}"

    def read(self, text: str) -> int:
        """Return the whole number that a person typed."""
        return self.check(read_decimal(text))

    def check(self, raw: object) -> int:
        """Return the whole number, refused outside its limits."""
        number = raw if type(raw) is int else finite(raw, self.allowed)
        if not self.low <= number <= self.high or number != int(number):
            raise ValueError(f"{raw} is not {self.allowed}")
        return int(number)

    def show(self, value: Value) -> str:
        """Return the number with its unit."""
        return f"{value} {self.unit}".rstrip()

    def plain(self, value: Value) -> object:
        """Return the number."""
        return value

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the value itself."""
        return (value,)

    def candidates(self) -> tuple[Value, ...]:
        """Return the usual numbers."""
        return self.listed


@dataclass(frozen=True, slots=True)
class CountsForm:
    """Several whole numbers, such as the teeth of each sprocket, smallest first."""

    low: int
    high: int

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"a list of whole numbers from {self.low} to {self.high}"

    def read(self, text: str) -> tuple[int, ...]:
        """Return the numbers that a person typed: `11-13-15`, `11, 13, 15`."""
        for mark in ",-/":
            text = text.replace(mark, " ")
        return self.check([read_decimal(figure) for figure in text.split()])

    def check(self, raw: object) -> tuple[int, ...]:
        """Return the numbers of a list, smallest first."""
        if not isinstance(raw, list | tuple) or not raw:
            raise ValueError(f"{raw!r} is not {self.allowed}")
        one = CountForm(self.low, self.high)
        try:
            return tuple(sorted(one.check(figure) for figure in raw))
        except ValueError as fault:
            raise ValueError(f"{fault}; wanted is {self.allowed}") from None

    def show(self, value: Value) -> str:
        """Return the numbers, joined by hyphens."""
        assert isinstance(value, tuple)
        return "-".join(map(str, value))

    def plain(self, value: Value) -> object:
        """Return the numbers as a list."""
        assert isinstance(value, tuple)
        return list(value)

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the value itself."""
        return (value,)

    def candidates(self) -> tuple[Value, ...]:
        """Return nothing: the lists are too many to try."""
        return ()


@dataclass(frozen=True, slots=True)
class NumberForm:
    """A decimal number between two limits: a ratio, an angle, a share."""

    low: Decimal
    high: Decimal
    unit: str = ""

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"a number from {self.low} to {self.high}"

    def read(self, text: str) -> Decimal:
        """Return the number that a person typed, with a point or a comma."""
        return self.check(read_decimal(text.strip().rstrip("%°")))

    def check(self, raw: object) -> Decimal:
        """Return the number, refused outside its limits."""
        number = finite(raw, self.allowed)
        if not self.low <= number <= self.high:
            raise ValueError(f"{raw} is not {self.allowed}")
        return Decimal(f"{number.quantize(FINEST).normalize():f}")

    def show(self, value: Value) -> str:
        """Return the number with its unit."""
        return f"{value}{self.unit}"

    def plain(self, value: Value) -> object:
        """Return the number."""
        assert isinstance(value, Decimal)
        return int(value) if value == int(value) else float(value)

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the value itself."""
        return (value,)

    def candidates(self) -> tuple[Value, ...]:
        """Return nothing: a number is no list."""
        return ()
