"""What plans draw from stock: the units of each spec, what others leave of them, or at a price."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, islice, repeat
from typing import TYPE_CHECKING

from partsbin.workshop.planning.places import Choice, Place, StockItem, Unit

if TYPE_CHECKING:
    from partsbin.stock.ids import SpecId

Units = Callable[[Mapping["SpecId", int]], Mapping["SpecId", Sequence[Unit]]]
"""Returns the units of some specs in the order of their use, as many as are asked of each."""

Filled = list[tuple[Place, Choice]]
"""What a plan puts into the places of a bike."""

Bikes = Sequence[Sequence[Place]]
"""The places of each bike."""

MANY = 1_000_000
"""More than all bikes together can use of one spec."""


@dataclass(frozen=True, slots=True)
class Terms:
    """On what terms a bike draws from stock."""

    units: Units
    """What finds the units that it may draw on."""
    first: Mapping[SpecId, Unit | None] = field(default_factory=dict)
    """The best of them, where it is not the best there is; None if nothing is left."""
    flat: bool = False
    """Whether of those there is any number, each at that price."""

    def left(self, places: Sequence[Place]) -> list[Place]:
        """Return the places without what nothing is left of."""
        return [self._left(place) for place in places]

    def _left(self, place: Place) -> Place:
        if all(self._has(choice) for choice in place.choices):
            return place
        return place.having(c for c in place.choices if self._has(c))

    def _has(self, choice: Choice) -> bool:
        return choice.stock is None or self.first.get(choice.stock.id, choice) is not None

    def unit(self, item: StockItem) -> Unit:
        """Return the best unit of a spec."""
        return self.first.get(item.id) or item.units[0]

    def rank(self, choice: Choice) -> tuple[int, int, int]:
        """Return how good a choice is among those that no rule can tell apart."""
        if choice.stock is not None:
            unit = self.unit(choice.stock)
            return 0, unit.value, unit.part
        if choice.price is not None:
            return choice.money, choice.price.lead_days or 0, choice.price.id
        return 0, 0, 0

    def drawn(self, bikes: Bikes) -> Bikes:
        """Return the places with as many units of each spec as they could use together."""
        uses: Counter[SpecId] = Counter()
        items: dict[SpecId, StockItem] = {}
        wanted = set()
        for place in chain.from_iterable(bikes):
            for item in _items(place):
                uses[item.id] += 1
                items[item.id] = item
                # Of the adapters of a shelf others may have taken the first.
                if is_adapter(place) or uses[item.id] > item.units[0].quantity:
                    wanted.add(item.id)
        full = {}
        for spec in items.keys() & self.first.keys():
            if self.flat and (price := self.first[spec]) is not None:
                full[spec] = replace(items[spec], units=(replace(price, quantity=MANY),))
            else:
                wanted.add(spec)
        asked = {spec: uses[spec] for spec in wanted if spec not in full}
        for spec, units in (self.units(asked) if asked else {}).items():
            full[spec] = replace(items[spec], units=tuple(units))
        return [drawing_on(places, full) for places in bikes] if full else bikes

    def endless(self, bikes: Bikes) -> Bikes:
        """Return the places as if of each spec there were any number like the best unit."""
        return [
            drawing_on(
                places,
                {
                    item.id: replace(item, units=(replace(self.unit(item), quantity=MANY),))
                    for place in places
                    for item in _items(place)
                },
            )
            for places in bikes
        ]


def _items(place: Place) -> list[StockItem]:
    return [c.stock for c in place.choices if c.stock is not None]


def remembered(units: Units) -> Units:
    """Return what finds units as another does, and asks it for the same ones only once."""
    known: dict[SpecId, Sequence[Unit]] = {}
    asked: dict[SpecId, int] = {}

    def found(wanted: Mapping[SpecId, int]) -> Mapping[SpecId, Sequence[Unit]]:
        more = {
            spec: max(count, 2 * asked.get(spec, 0))
            for spec, count in wanted.items()
            if count > asked.get(spec, -1)
        }
        if more:
            known.update(units(more))
            asked.update(more)
        return {spec: known[spec] for spec in wanted}

    return found


def drawing_on(places: Iterable[Place], items: Mapping[SpecId, StockItem]) -> tuple[Place, ...]:
    """Return places whose choices draw on other items of the same specs."""
    return tuple(_drawing_on(place, items) for place in places)


def _drawing_on(place: Place, items: Mapping[SpecId, StockItem]) -> Place:
    if not any(item.id in items for item in _items(place)):
        return place
    return place.having(
        replace(c, stock=items.get(c.stock.id, c.stock)) if c.stock is not None else c
        for c in place.choices
    )


def is_adapter(place: Place) -> bool:
    """Return whether something stands there between two parts, in no slot."""
    return place.name.startswith("adapter")


def uses_of(plans: Iterable[Filled]) -> Counter[SpecId]:
    """Return how many of each spec some bikes take from stock."""
    return Counter(c.stock.id for filled in plans for _, c in filled if c.stock is not None)


def singly(units: Iterable[Unit], most: int) -> list[Unit]:
    """Return so many units one by one, where a lot has several."""
    left = (one for unit in units for one in repeat(replace(unit, quantity=1), unit.quantity))
    return list(islice(left, most))


def beside(units: Units, used: Mapping[SpecId, int]) -> Terms:
    """Return the terms on which a bike draws on what others leave that use some units."""
    used = {spec: count for spec, count in used.items() if count}

    def rest(wanted: Mapping[SpecId, int]) -> Mapping[SpecId, Sequence[Unit]]:
        more = {spec: count + used.get(spec, 0) for spec, count in wanted.items()}
        return {
            spec: singly(us, more[spec])[used[spec] :] if spec in used else us
            for spec, us in units(more).items()
        }

    left = rest(dict.fromkeys(used, 1)) if used else {}
    return Terms(rest, {spec: next(iter(us), None) for spec, us in left.items()})
