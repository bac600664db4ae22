"""Small invented workshops, and the best plan for each found by trying all there is."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import product
from typing import Any

from labels.number import LabelNumber
from partsbin.fit.judge import apart, evaluate
from partsbin.fit.rule import DESCRIPTIVE, Rule
from partsbin.fit.rules import RULES
from partsbin.fit.verdict import Adapter, Verdict
from partsbin.kinds.kind import KINDS, Kind
from partsbin.kinds.slots import BY_NAME
from partsbin.kinds.spec import Spec
from partsbin.stock.ids import BikeId, PartId, PlaceId, SpecId
from partsbin.stock.lookup import Mounted
from partsbin.stock.money import Money
from partsbin.stock.words import Condition, Grade, Unit
from partsbin.workshop.planning import places as planned
from partsbin.workshop.planning.places import (
    EMPTY,
    SHARED,
    UNMET,
    Choice,
    Offer,
    Place,
    PriceItem,
    Site,
    Source,
    StockItem,
    offer,
    site,
)
from tests.bench.plan_shop import demo_specs, varied

THEMES = (
    ("rear shifter", "rear derailleur", "sprockets"),
    ("rear shifter", "rear derailleur", "sprockets", "right brake lever", "rear brake"),
    ("frame", "seatpost", "saddle", "seat clamp"),
    ("left brake lever", "front brake", "right brake lever", "rear brake"),
    ("stem", "handlebar", "fork"),
    ("frame", "rear wheel", "rear tyre", "sprockets"),
    ("chainset", "bottom bracket", "frame", "chain"),
    ("fork", "headset", "frame"),
    ("rear wheel", "rear tyre", "rear tube"),
)
ADAPTER_KINDS = {
    2: ("seatpost_shim",),
    3: ("pull_adapter",),
    4: ("bar_shim",),
    0: ("pull_adapter",),
    1: ("pull_adapter",),
}
ADAPTERS = {
    "seatpost_shim": ({"inner_mm": 25.4, "outer_mm": 27.2}, {"inner_mm": 27.2, "outer_mm": 28.6}),
    "bar_shim": ({"inner_mm": 25.4, "outer_mm": 31.8}, {"inner_mm": 25.4, "outer_mm": 26.0}),
    "pull_adapter": ({"factor": 2.0}, {"factor": 0.5}),
}


@dataclass(frozen=True)
class SmallShop:
    """Bikes to be planned, and what there is to draw on."""

    sites: list[Site]
    shelf: Offer

    def units(self, wanted: Mapping[SpecId, int]) -> dict[SpecId, Sequence[planned.Unit]]:
        """Return the units of some specs."""
        items = {i.id: i for items in self.shelf.stock.values() for i in items}
        return {spec: items[spec].units for spec in wanted}


def small_shop(seed: int) -> SmallShop:
    """Return an invented workshop of a few parts."""
    rng = random.Random(seed)
    theme = rng.randrange(len(THEMES))
    slots = THEMES[theme]
    kinds = sorted({kind for slot in slots for kind in BY_NAME[slot].kinds} - {"frame"})
    stock = [_item(rng, n, varied(rng, rng.choice(kinds))) for n in range(rng.randint(3, 8))]
    prices = [_price(rng, n, varied(rng, rng.choice(kinds))) for n in range(rng.randint(0, 3))]
    for kind in ADAPTER_KINDS.get(theme, ()):
        for raw in ADAPTERS[kind]:
            spec = Spec.check(kind, raw)
            if rng.random() < 0.5:
                stock.append(_item(rng, len(stock), spec))
            elif rng.random() < 0.5:
                prices.append(_price(rng, len(prices), spec))
    shelf = offer(_once(stock), _once(prices))
    count = 2 if rng.random() < 0.3 else 1
    sites = [
        _only(
            site(n, BikeId(n + 1), f"Bike {n}", _mounted(rng, slots, n), shelf, _keep(rng, slots))
        )
        for n in range(count)
    ]
    return SmallShop(sites, shelf)


WHOLE = tuple(dict.fromkeys(slot for theme in THEMES for slot in theme))


def large_shop(seed: int) -> SmallShop:
    """Return an invented workshop of some dozens of parts and one or two nearly whole bikes."""
    rng = random.Random(1000 + seed)
    kinds = sorted({kind for slot in WHOLE for kind in BY_NAME[slot].kinds} - {"frame"})
    stock = [_item(rng, n, varied(rng, rng.choice(kinds))) for n in range(60)]
    prices = [_price(rng, n, varied(rng, rng.choice(kinds))) for n in range(15)]
    shelf = offer(_once(stock), _once(prices))
    sites = [
        _only(site(n, BikeId(n + 1), f"Bike {n}", _mounted(rng, WHOLE, n), shelf))
        for n in range(rng.choice((1, 1, 2)))
    ]
    return SmallShop(sites, shelf)


def _only(made: Site) -> Site:
    """Leave out the places that hold nothing and for which there is nothing."""
    return Site(
        made.index,
        made.bike,
        made.name,
        tuple(p for p in made.places if any(c.spec is not None for c in p.choices)),
    )


def _keep(rng: random.Random, slots: Sequence[str]) -> frozenset[str]:
    return frozenset(slot for slot in slots if rng.random() < 0.15)


def _once(items: list[Any]) -> list[Any]:
    return list({item.spec: item for item in items}.values())


def _item(rng: random.Random, n: int, spec: Spec) -> StockItem:
    units = [
        planned.Unit(
            PartId(rng.randint(1, 99)), rng.choice((0, 100, 250, 400, 900)), rng.choice((1, 1, 2))
        )
        for _ in range(rng.randint(1, 2))
    ]
    units.sort(key=lambda unit: (unit.value, unit.part))
    return StockItem(SpecId(n + 1), spec, tuple(units))


def _price(rng: random.Random, n: int, spec: Spec) -> PriceItem:
    return PriceItem(n + 1, spec, "", Money(rng.choice((300, 700, 1500))), 3, "")


def _mounted(rng: random.Random, slots: Sequence[str], bike: int) -> list[Mounted]:
    found = []
    for n, slot in enumerate(slots):
        if slot != "frame" and rng.random() < 0.25:
            continue
        kind = rng.choice(BY_NAME[slot].kinds)
        if kind == "combined_lever" and "shifter" not in slot:
            kind = BY_NAME[slot].kinds[0]
        pool = demo_specs().get(kind)
        spec = rng.choice(pool) if pool and rng.random() < 0.6 else varied(rng, kind)
        bad = slot != "frame" and rng.random() < 0.5
        found.append(
            Mounted(
                slot=slot,
                place=PlaceId(n),
                part=PartId(1000 + 100 * bike + n),
                number=LabelNumber("20000000"),
                spec=spec,
                grade=Grade.GOOD,
                condition=Condition.DEAD if bad else Condition.SOUND,
                quantity=1,
                unit=Unit.PIECE,
                cost=Money(0),
                value=None,
                note="",
            )
        )
    hands = {m.slot: m for m in found}
    both = hands.get("rear shifter")
    if both is not None and both.spec.kind == "combined_lever":
        found = [m for m in found if m.slot != "right brake lever"]
    return found


Vector = tuple[int, int, int, int, int, int, int]
Filled = list[tuple[Place, Choice]]


def best(shop: SmallShop) -> Vector | None:
    """Return the objectives of the best plan: every combination is tried and judged whole."""
    for out in (False, True):
        found = min(_vectors(shop, out=out), default=None)
        if found is not None:
            return found
    return None


def _vectors(shop: SmallShop, *, out: bool) -> Iterator[Vector]:
    ways = [list(_ways(shop.shelf, one, out=out)) for one in shop.sites]
    for plan in product(*ways):
        vector = vector_of(list(plan))
        if vector is not None:
            yield vector


def _ways(shelf: Offer, one: Site, *, out: bool) -> Iterator[Filled]:
    """Yield every way in which a bike can be filled so that nothing clashes, adapters and all."""
    choices = [
        [*p.choices, UNMET] if out and p.name != "frame" and UNMET not in p.choices else p.choices
        for p in one.places
    ]
    for chosen in product(*choices):
        filled = list(zip(one.places, chosen, strict=True))
        if _hands_agree(filled) and _mates_agree(filled):
            yield from _with_adapters(shelf, filled)


def _hands_agree(filled: Filled) -> bool:
    """Return whether each combined lever fills the slots of both kinds of its hand."""
    by_name = {place.name: choice for place, choice in filled}
    for hand, gear in (("left", "front"), ("right", "rear")):
        shifter = by_name.get(f"{gear} shifter", EMPTY)
        lever = by_name.get(f"{hand} brake lever", EMPTY)
        combined = shifter.spec is not None and shifter.spec.kind == "combined_lever"
        if f"{hand} brake lever" in by_name and combined != (lever is SHARED):
            return False
    return True


MATES = (
    ("rear shifter", "rear derailleur", "rear_derailleur"),
    ("rear derailleur", "rear shifter", "shifter"),
    ("front shifter", "front derailleur", "front_derailleur"),
    ("front derailleur", "front shifter", "shifter"),
    ("front rotor", "front brake", "disc_calliper"),
    ("rear rotor", "rear brake", "disc_calliper"),
)


def _mates_agree(filled: Filled) -> bool:
    by_name = {place.name: choice for place, choice in filled}
    return not any(
        by_name.get(slot) is EMPTY
        and (other := by_name.get(mate)) is not None
        and other.spec is not None
        and other.spec.kind == kind
        for slot, mate, kind in MATES
    )


@dataclass(frozen=True)
class Piece:
    """Something on the bike: what, where, and whether it is new there."""

    place: Place
    piece: Kind
    new: bool


def _pieces(filled: Filled) -> list[Piece]:
    return [
        Piece(place, choice.spec.piece, choice.source in (Source.STOCK, Source.BOUGHT))
        for place, choice in filled
        if choice.spec is not None
    ]


@dataclass(frozen=True)
class Found:
    """What the rules say of a whole bike: what it asks for, and how often to measure."""

    asked: list[tuple[tuple[str, str, tuple[str, ...]], Adapter, str]]
    makeshift: int
    doubts: int


@cache
def meetings(words: tuple[str, ...]) -> list[tuple[Rule, tuple[int | None, ...]]]:
    """Return each rule with the pieces that it is about; what may lack is None if none is there."""
    found = []
    for rule in RULES:
        takers: list[list[int | None]] = []
        for parameter in rule.parameters:
            taking: list[int | None] = [i for i, w in enumerate(words) if parameter.takes(w)]
            takers.append(taking or [None] * parameter.optional)
        for at in product(*takers):
            placed = [i for i in at if i is not None]
            if len(set(placed)) == len(placed):
                found.append((rule, at))
    return found


def judged(filled: Filled) -> Found | None:
    """Return what all rules say of a bike, None if anything clashes for good."""
    on = _pieces(filled)
    words = tuple(p.piece.word for p in on)
    ends = [p.place.end for p in on]
    asked = []
    doubts = makeshift = 0
    for rule, at in meetings(words):
        placed = tuple(i for i in at if i is not None)
        if apart(placed, words, ends):
            continue
        args = tuple(None if i is None else on[i].piece for i in at)
        finding = evaluate(rule, args)
        parts = [on[i] for i in placed]
        new = any(p.new for p in parts)
        if finding is None or finding.verdict is Verdict.FITS:
            continue
        adapter = finding.adapter
        if finding.verdict is Verdict.CLASH and (adapter is None or not adapter.kind):
            return None
        if finding.verdict is Verdict.MEASURE:
            blank = any(not {n for n, _ in p.piece.spec.values} - DESCRIPTIVE for p in parts)
            doubts += int(new and (rule.vital or blank or not rule.is_silent(args)))
        elif adapter is not None and (new or finding.verdict is Verdict.CLASH):
            if any(p.place.name.startswith("adapter") for p in parts):
                return None
            ended = [p.place.name for p in parts if p.place.end]
            slots = tuple(sorted(ended or [p.place.name for p in parts]))
            end = {p.place.end for p in parts if p.place.end}
            name = rule.name if adapter.kind else f"{rule.name}, {adapter.what}"
            key = (adapter.kind, name, slots)
            asked.append((key, adapter, end.pop() if len(end) == 1 else ""))
        else:
            makeshift += int(new and finding.makeshift)
    return Found(asked, makeshift, doubts)


def _with_adapters(shelf: Offer, filled: Filled) -> Iterator[Filled]:
    found = judged(filled)
    if found is None:
        return
    by_place: dict[Any, list[Adapter]] = {}
    end_of = {}
    for key, adapter, end in found.asked:
        by_place.setdefault(key, []).append(adapter)
        end_of[key] = end
    options = []
    for key, wanted in by_place.items():
        place = Place(0, f"adapter {key[1]}", end_of[key], ())
        if not key[0]:
            choices = [Choice(Source.BOUGHT, price=shelf.named.get(wanted[0].what), named="x")]
        else:
            choices = [
                c
                for c in shelf.of_kinds((key[0],))
                if c.spec is not None and all(a.is_met_by(c.spec.piece) for a in wanted)
            ]
        options.append([(place, choice) for choice in choices])
    for adapters in product(*options):
        whole = [*filled, *adapters]
        if not adapters or _adapters_agree(whole, len(found.asked)):
            yield whole


def _adapters_agree(whole: Filled, asked: int) -> bool:
    found = judged(whole)
    return found is not None and len(found.asked) == asked


def vector_of(plan: list[Filled]) -> Vector | None:
    """Return the objectives of a plan, None if it uses more than there is."""
    used: dict[SpecId, tuple[StockItem, int]] = {}
    unmet = makeshift = money = doubts = value = adapters = age = 0
    for filled in plan:
        found = judged(filled)
        if found is None:
            return None
        makeshift += found.makeshift
        doubts += found.doubts
        for place, choice in filled:
            unmet += (1 if place.need else 100) if choice is UNMET else 0
            money += choice.money
            adapters += place.name.startswith("adapter") and choice is not EMPTY
            new = choice.source in (Source.STOCK, Source.BOUGHT, Source.SHARED)
            doubts += new and _is_dim(place)
            if choice.stock is not None:
                item, count = used.get(choice.stock.id, (choice.stock, 0))
                used[choice.stock.id] = (item, count + 1)
    for item, count in used.values():
        units = [unit for unit in item.units for _ in range(unit.quantity)]
        if count > len(units):
            return None
        value += sum(unit.value for unit in units[:count])
        age += sum(unit.part for unit in units[:count])
    return unmet, makeshift, money, doubts, value, adapters, age


def _is_dim(place: Place) -> bool:
    """Return whether a working part there lacks something that is asked of its kind first."""
    if place.now is None or place.need:
        return False
    spec = place.now.spec
    return any(spec.get(name) is None or name in spec.assumed for name in KINDS[spec.kind].first)
