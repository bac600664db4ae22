"""What the parts of a bike are worth one by one: to the bikes in work, and to a buyer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from statistics import median_low
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from partsbin.fit.judge import judge
from partsbin.kinds.kind import KINDS
from partsbin.stock.bikes import list_bikes
from partsbin.stock.ids import BikeId, SpecId
from partsbin.stock.in_order_of_use import units_of
from partsbin.stock.lookup import mounted
from partsbin.stock.models import Part, RecordedSpec
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.specs import spec_of
from partsbin.stock.words import BikeState, Condition, Grade
from partsbin.workshop.choosing import ADAPTERS
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.making import price_items, shelf_of
from partsbin.workshop.planning.optimum import Optimum, optimum
from partsbin.workshop.planning.places import (
    Choice,
    Offer,
    Place,
    PriceItem,
    Site,
    Source,
    StockItem,
    Unit,
    offer,
    site,
)
from partsbin.workshop.planning.telling import finished

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.fit.verdict import Verdict
    from partsbin.kinds.spec import Spec
    from partsbin.stock.lookup import Mounted
    from partsbin.workshop.planning.drawing import Units

SHARE_OF_NEW = Fraction(1, 3)
"""What a used part fetches of the price of a new one. Common practice, no source."""
AS_USED = (Grade.GOOD, Grade.FAIR)
"""The grades whose recorded values say what a used part fetches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A part that a bike in work would get, and what stood in the plan there without it."""

    bike: str
    slot: str
    verdict: Verdict
    instead: str
    money: Money = NOTHING
    """What is not spent, because a new part is not bought."""
    value: Money = NOTHING
    """The value of the part in stock that is spared."""
    only: bool = False
    """Whether neither stock nor the price list meets the need."""

    @property
    def saves(self) -> Money:
        """Return what it saves in all."""
        return Money(self.money + self.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gain:
    """What a bike's parts give to all bikes in work: by its slots, and in sum.

    The sums are those of the best plans with and without them; they may differ from those of the
    single parts, because another part may then be best elsewhere.
    """

    given: Mapping[str, Given]
    bikes: tuple[str, ...]
    money: Money
    value: Money
    needs: int
    """How many more needs are met."""
    proven: bool
    uses: Mapping[SpecId, int]
    """How many of each spec in stock the bikes in work would take without the donor."""


def usable(on_bike: Sequence[Mounted]) -> list[Mounted]:
    """Return the parts of a bike that can go onto another one or be sold."""
    return [
        part
        for part in on_bike
        if part.condition is Condition.SOUND and part.grade not in (Grade.UNSAFE, Grade.CORE)
    ]


def gain_of(session: Session, donor: Sequence[Mounted], own: BikeId | None = None) -> Gain:
    """Return what the usable parts of a donor would give to the bikes in work, itself left out."""
    bikes = [bike for bike in list_bikes(session, BikeState.IN_WORK) if bike.id != own]
    names = tuple(bike.name for bike in bikes)
    if not bikes:
        return Gain(given={}, bikes=(), money=NOTHING, value=NOTHING, needs=0, proven=True, uses={})
    ids = [BikeId(bike.id) for bike in bikes]
    shelf = shelf_of(session, ids)
    items, slots = _items(usable(donor))
    fuller = _with(shelf, items)
    bench = Bench(fuller)
    # What was judged once holds for both plans, unless the donor brings an adapter.
    same = not any(item.spec.kind in ADAPTERS for item in items)
    after = _best(session, names, ids, fuller, items, bench)
    before = _best(session, names, ids, shelf, (), bench if same else Bench(shelf))
    sums = [_sums(best) for best in (before, after)]
    less = {name: sums[0].get(name, 0) - sums[1].get(name, 0) for name in sums[0]}
    return Gain(
        given=dict(_given(names, before, after, slots)),
        bikes=names,
        money=Money(less.get("money", 0)),
        value=Money(less.get("value", 0)),
        needs=less.get("unmet", 0),
        proven=before.solved.proven and after.solved.proven,
        uses=Counter(c.stock.id for of in before.chosen for _, c in of if c.stock is not None),
    )


def _items(parts: Sequence[Mounted]) -> tuple[list[StockItem], dict[SpecId, list[str]]]:
    """Return parts as if they were in stock, at no value, and the slots that each spec is from."""
    by_spec: dict[Spec, list[Mounted]] = {}
    for part in parts:
        by_spec.setdefault(part.spec, []).append(part)
    items, slots = [], {}
    for n, (spec, alike) in enumerate(by_spec.items(), 1):
        id_ = SpecId(-n)  # none in the record is below 0
        units = tuple(Unit(part.part, 0) for part in alike)
        items.append(StockItem(id_, spec, units))
        slots[id_] = [part.slot or "loose" for part in alike]
    return items, slots


def _with(shelf: Offer, items: Sequence[StockItem]) -> Offer:
    stock = [item for of_kind in shelf.stock.values() for item in of_kind]
    prices = [price for of_kind in shelf.prices.values() for price in of_kind]
    return offer([*items, *stock], [*prices, *shelf.named.values()])


def units_for(session: Session, bikes: Sequence[BikeId], own: Sequence[StockItem] = ()) -> Units:
    """Return what finds the units of specs: in the record, or among `own` items."""
    held = {item.id: item.units for item in own}

    def units(wanted: Mapping[SpecId, int]) -> Mapping[SpecId, Sequence[Unit]]:
        recorded = {spec: count for spec, count in wanted.items() if spec not in held}
        found = {
            spec: tuple(Unit(u.part, u.value, u.quantity) for u in us)
            for spec, us in units_of(session, recorded, bikes).items()
        }
        return {**found, **{spec: held[spec] for spec in wanted if spec in held}}

    return units


def _best(
    session: Session,
    names: Sequence[str],
    ids: Sequence[BikeId],
    shelf: Offer,
    own: Sequence[StockItem],
    bench: Bench,
) -> Optimum:
    held = {item.id for item in own}
    sites = [
        _for_needs(site(i, id_, name, mounted(session, id_), shelf), held)
        for i, (id_, name) in enumerate(zip(ids, names, strict=True))
    ]
    return optimum(sites, shelf, units_for(session, ids, own), None, bench)


def _for_needs(one: Site, held: Collection[SpecId]) -> Site:
    """Return a bike that takes the parts of the donor for its open needs only."""
    places = tuple(
        place
        if place.need
        else place.having(c for c in place.choices if c.stock is None or c.stock.id not in held)
        for place in one.places
    )
    return replace(one, places=places)


def _sums(best: Optimum) -> dict[str, int]:
    """Return the objectives of a plan; as unmet count also the needs that nothing could meet."""
    sums = {stage.objective: stage.value for stage in best.solved.stages}
    open_needs = sum(c.source is Source.UNMET for of_bike in best.chosen for _, c in of_bike)
    return {**sums, "unmet": open_needs}


def _given(
    names: Sequence[str], before: Optimum, after: Optimum, slots: Mapping[SpecId, list[str]]
) -> Iterator[tuple[str, Given]]:
    """Yield the slot of each part of the donor that is used, and where it goes."""
    left = {spec: list(of_spec) for spec, of_spec in slots.items()}
    for name, was, filled in zip(names, before.chosen, after.chosen, strict=True):
        without = {place.name: choice for place, choice in was}
        bike = finished(filled)
        for n, (place, choice) in enumerate(bike.filled):
            if choice.stock is not None and choice.stock.id in left:
                verdict = judge(bike.pieces, bike.ends, about=n).verdict
                from_slot = left[choice.stock.id].pop(0)
                yield from_slot, _one(name, place, verdict, without.get(place.name))


def _one(bike: str, place: Place, verdict: Verdict, was: Choice | None) -> Given:
    slot = place.name.partition(": ")[2] if place.name.startswith("adapter") else place.name
    if was is None or was.source is Source.UNMET:
        only = bool(place.need) or was is not None
        told = "nothing else meets it" if only else "beside what it brings"
        return Given(bike=bike, slot=slot, verdict=verdict, instead=told, only=only)
    what = was.spec.brief if was.spec is not None else was.named or str(was.source.value)
    if was.source is Source.BOUGHT:
        told, money, value = f"buying a {what}", was.money, 0
    elif was.stock is not None:
        told, money, value = f"from stock: {what}", 0, was.stock.units[0].value
    else:
        told, money, value = f"as it is: {what}", 0, 0
    return Given(
        bike=bike,
        slot=slot,
        verdict=verdict,
        instead=told,
        money=Money(money),
        value=Money(value),
    )


@dataclass(frozen=True, slots=True)
class Fetch:
    """What a used part is likely to fetch, and how that is known."""

    amount: Money
    basis: str


UNKNOWN = Fetch(NOTHING, "no like part on record or on the price list")


class Market:
    """What parts cost new and fetch used, by the price list and the values in the record."""

    def __init__(self, session: Session, kinds: Sequence[str]) -> None:
        self._new: dict[str, list[PriceItem]] = {}
        for item in price_items(session):
            if item.spec is not None:
                self._new.setdefault(item.spec.kind, []).append(item)
        self._used: dict[str, list[tuple[Spec, Money, int]]] = {}
        query = (
            select(RecordedSpec.text, Part.value, func.count())
            .join(Part, Part.spec_id == RecordedSpec.id)
            .where(RecordedSpec.kind.in_(sorted(set(kinds))), Part.lot.is_(False))
            .where(func.coalesce(Part.value, 0) > 0, Part.grade.in_(AS_USED))
            .group_by(RecordedSpec.text, Part.value)
        )
        for text, value, count in session.execute(query):
            spec = spec_of(text)
            assert value is not None
            self._used.setdefault(spec.kind, []).append((spec, Money(value), int(count)))

    def new(self, spec: Spec) -> Money | None:
        """Return what the cheapest new part costs among those most like it, None if unknown."""
        listed = self._new.get(spec.kind, [])
        far = [_unlike(spec, item.spec) for item in listed if item.spec is not None]
        least = min(far, default=0)
        near = [i.price for i, off in zip(listed, far, strict=True) if off == least]
        return min(near, default=None)

    def used(self, spec: Spec) -> Fetch:
        """Return the median value of the used parts on record most like it, else a share of new."""
        known = self._used.get(spec.kind, [])
        far = [_unlike(spec, other) for other, _, _ in known]
        least = min(far, default=0)
        near = [
            value
            for (_, value, count), off in zip(known, far, strict=True)
            if off == least
            for _ in range(count)
        ]
        if near:
            return Fetch(Money(median_low(near)), f"median of {len(near)} like it on record")
        price = self.new(spec)
        if price is None:
            return UNKNOWN
        return Fetch(Money(int(price * SHARE_OF_NEW)), f"{SHARE_OF_NEW} of the price of a new one")


def _unlike(spec: Spec, other: Spec) -> int:
    """Return how many of the attributes that are asked for first differ, where both are known."""
    pairs = ((spec.get(name), other.get(name)) for name in KINDS[spec.kind].first)
    return sum(a is not None and b is not None and a != b for a, b in pairs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A usable part of a bike: where it would go, what it fetches, what to take it off costs."""

    slot: str
    spec: Spec
    given: Given | None
    fetch: Fetch
    """After the fee of selling it."""
    share: Fraction
    """At which share of that it counts if nobody waits for it, because it may lie for long."""
    stripping: Money

    @property
    def worth(self) -> Money:
        """Return the larger of what it saves and what it fetches, a share if nobody waits for it.

        That is rounded down to the minor unit.
        """
        if self.given is None:
            return Money(int(self.fetch.amount * self.share))
        return max(self.given.saves, self.fetch.amount)

    @property
    def gain(self) -> Money:
        """Return what is left of that after the work; a part not worth its work stays on."""
        return Money(max(0, self.worth - self.stripping))
