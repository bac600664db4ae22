"""A mixed-integer programme as data: columns, rows, and objectives in the order of their weight.

All figures are whole numbers, so that any solver of whole-number programmes can be given it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

OBJECTIVES = ("unmet", "makeshift", "money", "doubts", "value", "adapters", "age")
"""What is made least, one after the other: needs not met, interfaces that only get a rider home,
money to spend, interfaces to measure first, value of the stock used, adapters, and the sum of the
ids of the parts, so that of equal ones the oldest are used."""


@dataclass(frozen=True, slots=True)
class Row:
    """One constraint: a sum of columns lies between two bounds; None is no bound."""

    terms: Mapping[int, int]
    least: int | None
    most: int | None
    label: object = None
    """What the constraint stands for, where somebody may ask."""


@dataclass(slots=True)
class Programme:
    """Columns from 0 to an upper bound, rows over them, and objectives by name."""

    upper: list[int] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    """Whether a column must be asked to be whole; others are once those are."""
    rows: list[Row] = field(default_factory=list)
    objectives: dict[str, dict[int, int]] = field(
        default_factory=lambda: {name: {} for name in OBJECTIVES}
    )

    def column(self, upper: int = 1, *, whole: bool = True, **costs: int) -> int:
        """Return a new whole-number column with its coefficients in the objectives."""
        self.upper.append(upper)
        self.whole.append(whole)
        column = len(self.upper) - 1
        for name, cost in costs.items():
            if cost:
                self.objectives[name][column] = cost
        return column

    def row(
        self,
        terms: Iterable[tuple[int, int]],
        least: int | None,
        most: int | None,
        label: object = None,
    ) -> None:
        """Add a constraint; terms of one column are added up."""
        summed: dict[int, int] = {}
        for column, coefficient in terms:
            summed[column] = summed.get(column, 0) + coefficient
        self.rows.append(Row(summed, least, most, label))

    def figure(self, name: str, values: Mapping[int, int] | list[int]) -> int:
        """Return the value of an objective."""
        return sum(cost * values[column] for column, cost in self.objectives[name].items())
