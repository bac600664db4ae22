"""What a plan says, as data: what to take, buy, measure and change, and what could not be met."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from labels.number import LabelNumber
    from partsbin.fit.judge import Judged, Judgement
    from partsbin.fit.specify import Specification
    from partsbin.fit.verdict import Trial
    from partsbin.kinds.spec import Spec
    from partsbin.stock.ids import BikeId, PartId
    from partsbin.stock.money import Money
    from partsbin.workshop.planning.solving import Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class Instead:
    """A part that looks cheaper, and why it is not in the plan.

    `clash` is the interface that forbids it beside the rest of the plan; `taken_by` is the bike
    that gets it; `doubt` is what must be measured, or what only gets a rider home. Without any of
    them it would cost more elsewhere on the bike.
    """

    spec: Spec
    clash: Judged | None = None
    taken_by: str = ""
    doubt: Judged | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """A part to take from a bin, and the working part that it replaces, if it does."""

    slot: str
    part: PartId
    number: LabelNumber
    spec: Spec
    place: str
    value: Money
    replaces: Spec | None = None
    works: bool = False
    """Whether what it replaces still works."""
    also_fills: str = ""
    also_replaces: Spec | None = None
    """What comes off that other slot."""
    instead: Instead | None = None

    @property
    def adapter(self) -> bool:
        """Return whether it stands between two parts and fills no slot itself."""
        return self.slot.startswith("adapter")


@dataclass(frozen=True, slots=True, kw_only=True)
class Buy:
    """A new part to buy: the priced item, and all that its neighbours would allow instead."""

    slot: str
    spec: Spec | None
    named: str
    price: Money | None
    """None for an adapter that has no price."""
    lead_days: int | None
    note: str = ""
    ranges: Specification | None = None
    replaces: Spec | None = None
    works: bool = False
    also_fills: str = ""
    also_replaces: Spec | None = None
    """What comes off that other slot."""
    instead: Instead | None = None

    @property
    def adapter(self) -> bool:
        """Return whether it stands between two parts and fills no slot itself."""
        return self.slot.startswith("adapter")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A modification or an adapter that an interface of the finished bike needs."""

    judged: Judged
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """What a plan would have in a slot if a measurement turns out the other way."""

    slot: str
    before: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """What must be measured first, and how the plan changes if it is the other value."""

    judged: Judged
    trials: tuple[Trial, ...]
    slots: tuple[str, ...]
    otherwise: tuple[Swap, ...]
    money: int
    """What the other plan costs more, in minor units."""
    unmet: tuple[str, ...] = ()
    """The needs that the other plan leaves open."""
    tried: bool = True
    """Whether the other plan was looked for; without time for the first there is none for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """An interface that stands in the way, with the places it is between; or another need."""

    interface: str
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmet:
    """A need that neither stock nor the price list meets, and the part that would meet it.

    `conflicts` is a least set of interfaces and other needs that cannot hold together; with any
    one of them left out there is a plan. `none` says that no part of the kind is there at all.
    """

    slot: str
    why: str
    none: bool
    conflicts: tuple[Conflict, ...]
    wanted: Specification | None
    also_wanted_by: tuple[str, ...] = ()
    """The bikes that get what would meet it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BikePlan:
    """The plan of one bike; `judgement` is that of the whole finished bike."""

    bike: BikeId
    name: str
    needs: tuple[tuple[str, str], ...]
    take: tuple[Take, ...]
    buy: tuple[Buy, ...]
    changes: tuple[Change, ...]
    measure: tuple[Measure, ...]
    unmet: tuple[Unmet, ...]
    judgement: Judgement
    cautions: tuple[str, ...]

    @property
    def money(self) -> int:
        """Return what has to be spent on this bike, in minor units."""
        return sum(buy.price or 0 for buy in self.buy)

    @property
    def unpriced(self) -> tuple[Buy, ...]:
        """Return the adapters to buy that the price list does not know; `money` lacks them."""
        return tuple(buy for buy in self.buy if buy.price is None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plans:
    """The plans of all bikes that were asked for, and how sure it is that none is better."""

    bikes: tuple[BikePlan, ...]
    stages: tuple[Stage, ...]
    proven: bool
    seconds: float

    @property
    def money(self) -> int:
        """Return what has to be spent on all bikes, in minor units."""
        return sum(bike.money for bike in self.bikes)

    @property
    def unpriced(self) -> tuple[Buy, ...]:
        """Return what is to be bought besides, at prices that nobody knows."""
        return tuple(buy for bike in self.bikes for buy in bike.unpriced)
