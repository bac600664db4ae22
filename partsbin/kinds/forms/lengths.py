"""Lengths, with the listed sizes that a reading is taken for."""

from __future__ import annotations

from dataclasses import dataclass

from partsbin.kinds.forms.form import Form, Value, finite
from partsbin.kinds.typed import read_length
from partsbin.standards.length import Length, in_mm, mm
from partsbin.standards.sizes import Sizes

SAFELY_EXACT = 1e6
"""Below so many millimetres a float is nearer than 0.1 micrometres to its shortest decimal."""


def micrometres(raw: object, form: Form) -> int:
    """Return a JSON number of millimetres in whole micrometres, as `mm` rounds it.

    Integers and floats that lie clear of the half micrometre need no decimal arithmetic.
    Raises `ValueError`, which says what the form allows, if it is no number.
    """
    if type(raw) is int:
        return raw * 1000
    if type(raw) is float and -SAFELY_EXACT < raw < SAFELY_EXACT:
        scaled = raw * 1000
        whole = round(scaled)
        if abs(scaled - whole) < 0.4:
            return whole
    number = finite(raw, form.allowed)
    if abs(number) > SAFELY_EXACT:
        raise ValueError(f"{raw} is not {form.allowed}")
    return mm(number)


@dataclass(frozen=True, slots=True)
class LengthForm:
    """A length between two limits, with the sizes of its table if it has one."""

    low: Length
    high: Length
    sizes: Sizes | None = None

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return f"a length from {in_mm(self.low)} to {in_mm(self.high)} mm"

    def _within(self, length: int, written: object) -> Length:
        if not self.low <= length <= self.high:
            raise ValueError(f"{written} is not {self.allowed}")
        return Length(length)

    def read(self, text: str) -> Length:
        """Return the length that a person typed: `27.2`, `27,2 mm`, `1 1/8 in`."""
        return self._within(read_length(text), text.strip())

    def check(self, raw: object) -> Length:
        """Return the length of a number of millimetres."""
        return self._within(micrometres(raw, self), raw)

    def show(self, value: Value) -> str:
        """Return the length in millimetres, and the listed size it is taken for if that differs."""
        assert isinstance(value, int)
        shown = f"{in_mm(value)} mm"
        possible = self.possible(value)
        if possible == (value,):
            return shown
        return f"{shown} (taken for {' or '.join(in_mm(size) for size in possible)} mm)"

    def plain(self, value: Value) -> object:
        """Return the length as a number of millimetres."""
        assert isinstance(value, int)
        return float(in_mm(value)) if value % 1000 else value // 1000

    def possible(self, value: Value) -> tuple[Value, ...]:
        """Return the listed size that a reading is taken for, or the two that it lies between."""
        assert isinstance(value, int)
        return self.sizes.possible(Length(value)) if self.sizes else (value,)

    def candidates(self) -> tuple[Value, ...]:
        """Return the listed sizes."""
        return self.sizes.listed if self.sizes else ()
