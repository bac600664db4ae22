"""What stripping a bike of the record would give to the open needs of all bikes in work."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.stock.bikes import bike_named
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.workshop.part_out import Gain, gain_of, usable

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.number import LabelNumber
    from partsbin.kinds.spec import Spec
    from partsbin.workshop.part_out import Given


@dataclass(frozen=True, slots=True)
class Row:
    """A usable part of the donor, and where it would go; nowhere if no open need takes it."""

    slot: str
    number: LabelNumber
    spec: Spec
    given: Given | None


@dataclass(frozen=True, slots=True)
class Worth:
    """What a donor's parts give, part by part and in sum."""

    bike: str
    rows: tuple[Row, ...]
    gain: Gain

    @property
    def wanted(self) -> tuple[Row, ...]:
        """Return the parts that some bike would get."""
        return tuple(row for row in self.rows if row.given is not None)


def worth(session: Session, donor: str) -> Worth:
    """Return what a bike's usable parts would give. Raises `UnknownError` for an unknown bike."""
    bike = bike_named(session, donor)
    parts = mounted(session, BikeId(bike.id))
    gain = gain_of(session, parts, BikeId(bike.id))
    rows = tuple(
        Row(part.slot or "loose", part.number, part.spec, gain.given.get(part.slot or "loose"))
        for part in usable(parts)
    )
    return Worth(bike.name, rows, gain)
