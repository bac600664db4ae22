"""The places of a bike to be planned, and for each the choices: parts, purchases, or none."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import SLOTS, Slot
from partsbin.stock.ids import PartId
from partsbin.workshop.fitting import COUPLED, goes_in
from partsbin.workshop.mounting import NEEDED_WITH, needs

if TYPE_CHECKING:
    from partsbin.kinds.spec import Spec
    from partsbin.stock.ids import BikeId, SpecId
    from partsbin.stock.lookup import Mounted
    from partsbin.stock.money import Money

COMBINED = "combined_lever"
LEVER_OF = {shifter: lever for shifter, lever in COUPLED.items() if "shifter" in shifter}
"""The brake lever's slot that a combined lever in a shifter's slot fills too."""


GEARED = frozenset({"cassette", "freewheel", "rear_derailleur"})
"""A bike with one of these has derailleur gears."""


class Source(enum.Enum):
    """Where what fills a place comes from."""

    KEPT = "kept"
    STOCK = "stock"
    BOUGHT = "bought"
    SHARED = "shared"
    """Filled by the combined lever of the same hand."""
    EMPTY = "empty"
    """Nothing is there, and nothing needs to be."""
    UNMET = "unmet"
    """Nothing is there, though something needs to be."""


NEW = (Source.STOCK, Source.BOUGHT)
"""Where what is new on the bike comes from."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A part, or a number of equal ones of a lot, that a plan may take: the best of its spec."""

    part: PartId
    value: int
    quantity: int = 1


@dataclass(frozen=True, slots=True)
class StockItem:
    """A spec in stock with its units in the order in which they are used."""

    id: SpecId
    spec: Spec
    units: tuple[Unit, ...]


@dataclass(frozen=True, slots=True)
class PriceItem:
    """A line of the price list: what a new part costs and how many days it takes to come.

    An adapter that is no kind of the vocabulary is priced by the words that name it.
    """

    id: int
    spec: Spec | None
    named: str
    price: Money
    lead_days: int | None
    note: str


@dataclass(frozen=True, slots=True)
class Choice:
    """What may fill a place."""

    source: Source
    spec: Spec | None = None
    stock: StockItem | None = None
    price: PriceItem | None = None
    named: str = ""
    """What an adapter is called that is no kind of the vocabulary."""

    @property
    def existing(self) -> bool:
        """Return whether it is how the bike is now."""
        return self.source in (Source.KEPT, Source.EMPTY, Source.UNMET)

    @property
    def money(self) -> int:
        """Return what has to be spent, in minor units."""
        return self.price.price if self.price else 0


EMPTY = Choice(Source.EMPTY)
UNMET = Choice(Source.UNMET)
SHARED = Choice(Source.SHARED)


@dataclass(frozen=True, slots=True)
class Place:
    """A slot of a bike, a place for an adapter, or a loose part, with its choices."""

    bike: int
    name: str
    end: str
    choices: tuple[Choice, ...]
    need: str = ""
    """empty, worn or dead if it has to be filled; otherwise empty."""
    now: Mounted | None = None

    def having(self, choices: Iterable[Choice]) -> Place:
        """Return the place with other choices."""
        return replace(self, choices=tuple(choices))


@dataclass(frozen=True, slots=True)
class Site:
    """A bike to be planned: its places, in the order of the slots."""

    index: int
    bike: BikeId
    name: str
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class Offer:
    """What plans may draw on: stock and prices, by kind."""

    stock: Mapping[str, tuple[StockItem, ...]]
    prices: Mapping[str, tuple[PriceItem, ...]]
    named: Mapping[str, PriceItem]

    def of_kinds(self, kinds: Iterable[str]) -> list[Choice]:
        """Return all choices of some kinds."""
        found = []
        for kind in kinds:
            found += [Choice(Source.STOCK, i.spec, stock=i) for i in self.stock.get(kind, ())]
            found += [Choice(Source.BOUGHT, i.spec, price=i) for i in self.prices.get(kind, ())]
        return found


def offer(stock: Iterable[StockItem], prices: Iterable[PriceItem]) -> Offer:
    """Return what plans may draw on, sorted by kind."""
    by_kind: dict[str, list[StockItem]] = {}
    for item in stock:
        by_kind.setdefault(item.spec.kind, []).append(item)
    priced: dict[str, list[PriceItem]] = {}
    named: dict[str, PriceItem] = {}
    for price in prices:
        if price.spec is None:
            named[price.named] = price
        else:
            priced.setdefault(price.spec.kind, []).append(price)
    return Offer(
        {kind: tuple(items) for kind, items in by_kind.items()},
        {kind: tuple(items) for kind, items in priced.items()},
        named,
    )


def site(
    index: int,
    bike: BikeId,
    name: str,
    on_bike: Sequence[Mounted],
    shelf: Offer,
    keep: frozenset[str] = frozenset(),
) -> Site:
    """Return a bike with its places; the slots in `keep`, and a sound frame, stay as they are."""
    by_slot = {_standing(part, on_bike): part for part in on_bike if part.slot}
    wanted = {slot.name: why for slot, why in needs(list(on_bike))}
    other = _other_gearing(on_bike)
    made = []
    for slot in SLOTS:
        part = by_slot.get(slot.name)
        fixed = slot.name in keep or slot.name == "frame"
        place = _place(index, slot, part, wanted.get(slot.name, ""), shelf, fixed=fixed)
        made.append(
            place.having(c for c in place.choices if not c.spec or c.spec.kind not in other)
        )
    coupled = _with_coupled({place.name: place for place in made})
    places = [p for p in _with_mates(coupled) if p.need or any(c.spec for c in p.choices)]
    loose = [
        Place(index, f"loose {part.number}", "", (Choice(Source.KEPT, part.spec),), now=part)
        for part in on_bike
        if not part.slot
    ]
    return Site(index, bike, name, (*places, *loose))


def _other_gearing(on_bike: Sequence[Mounted]) -> frozenset[str]:
    """Return the kinds of sprockets that would make another bike of it, with gears or without."""
    kinds = {part.spec.kind for part in on_bike}
    if kinds & GEARED:
        return frozenset({"sprocket"})
    return frozenset({"cassette", "freewheel"}) if "sprocket" in kinds else frozenset()


def _standing(part: Mounted, on_bike: Sequence[Mounted]) -> str:
    """Return a part's slot; a combined lever stands in the shifter's slot of its hand."""
    mate = COUPLED.get(part.slot, "")
    if part.spec.kind == COMBINED and mate in LEVER_OF:
        return part.slot if any(other.slot == mate for other in on_bike) else mate
    return part.slot


def _place(
    index: int, slot: Slot, part: Mounted | None, need: str, shelf: Offer, *, fixed: bool
) -> Place:
    choices = []
    if part is not None and not need:
        choices.append(Choice(Source.KEPT, part.spec))
    elif part is None and (not need or (slot.name in NEEDED_WITH and not slot.needed)):
        choices.append(EMPTY)
    if not (fixed and choices):
        choices += [c for c in shelf.of_kinds(slot.kinds) if c.spec and goes_in(c.spec, slot)]
    if need:
        choices.append(UNMET)
    return Place(index, slot.name, slot.end, tuple(choices), need, part)


def _with_coupled(places: dict[str, Place]) -> dict[str, Place]:
    """Let a combined lever stand only where the shifter's and the lever's slot are both in play."""
    for shifter, lever in LEVER_OF.items():
        above, below = places[shifter], places[lever]
        if above.need and above.now is not None and above.now.spec.kind == COMBINED:
            below = replace(below, need=below.need or "empty").having((*below.choices, UNMET))
        kept = any(c.source is Source.KEPT and _is_combined(c) for c in above.choices)
        plain = [c for c in below.choices if not _is_combined(c)]
        wanted = above.now is not None or bool(above.need)
        both = kept or (wanted and _is_open(above) and _is_open(below))
        if both:
            # What is left empty under a combined lever is filled by it, not empty.
            plain = [c for c in plain if c.source is not Source.EMPTY or not kept] + [SHARED]
            if below.need:
                plain = [c for c in plain if c.source is not Source.EMPTY]
        else:
            places[shifter] = above.having(c for c in above.choices if not _is_combined(c))
        places[lever] = below.having(plain)
    return places


def _is_combined(choice: Choice) -> bool:
    return choice.spec is not None and choice.spec.kind == COMBINED


def _is_open(place: Place) -> bool:
    return any(c.source in (Source.STOCK, Source.BOUGHT) for c in place.choices)


def _with_mates(places: dict[str, Place]) -> list[Place]:
    """Leave empty what only another slot's part would ask for, unless that may come."""
    found = []
    for place in places.values():
        empty = place.now is None and EMPTY in place.choices
        if empty and mate_of(place, places.values()) is None:
            continue
        found.append(place)
    return found


def mate_of(place: Place, places: Iterable[Place]) -> Place | None:
    """Return the place of which a part makes this one a need, None if there is none."""
    kind = NEEDED_WITH.get(place.name)
    if kind is None:
        return None
    for other in places:
        beside = other.bike == place.bike and other.end == place.end and other.name != place.name
        if beside and any(c.spec is not None and c.spec.kind == kind for c in other.choices):
            return other
    return None


def is_doubtful(place: Place) -> bool:
    """Return whether a working part is not known well enough to be taken off for what it is.

    Something that a mechanic asks for first of its kind is not on record. Such a part is to be
    measured before it is replaced, so that to replace it counts as much as to measure.
    """
    if place.now is None or place.need:
        return False
    kept = place.now.spec
    known = {name for name, _ in kept.values} - kept.assumed
    return not known.issuperset(KINDS[kept.kind].first)
