"""Tells what comes of an optimum: which parts from which bins, what to buy, measure and change."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.fit.judge import Judged, judge
from partsbin.fit.specify import specification
from partsbin.fit.verdict import Trial, Verdict
from partsbin.kinds.kind import KINDS
from partsbin.stock.lookup import places_of
from partsbin.stock.money import Money
from partsbin.stock.words import PlaceType
from partsbin.workshop.fitting import COUPLED
from partsbin.workshop.planning.answer import (
    BikePlan,
    Buy,
    Change,
    Instead,
    Measure,
    Plans,
    Swap,
    Take,
    Unmet,
)
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.drawing import Filled, Units
from partsbin.workshop.planning.explaining import conflicts_of
from partsbin.workshop.planning.optimum import Optimum, otherwise
from partsbin.workshop.planning.places import COMBINED, Choice, Offer, Place, Site, Source

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.kinds.kind import Kind
    from partsbin.kinds.spec import Spec
    from partsbin.stock.ids import PartId, SpecId
    from partsbin.stock.lookup import Stocked

NEW = (Source.STOCK, Source.BOUGHT)
MOST_TRIED = 12
"""Cheaper parts that are looked at to say why they are not in a plan."""


@dataclass(frozen=True, slots=True)
class Told:
    """All that a plan was made of."""

    sites: Sequence[Site]
    shelf: Offer
    bench: Bench
    best: Optimum
    units: Units


@dataclass(frozen=True, slots=True)
class Finished:
    """A bike as the plan leaves it: what is where, as the judge sees it."""

    filled: tuple[tuple[Place, Choice], ...]

    @property
    def pieces(self) -> list[Kind]:
        """Return the pieces."""
        return [choice.spec.piece for _, choice in self.filled if choice.spec is not None]

    @property
    def ends(self) -> list[str]:
        """Return at which end each piece is."""
        return [place.end for place, _ in self.filled]

    def without(self, *names: str) -> Finished:
        """Return the bike with nothing in some places."""
        return Finished(tuple(one for one in self.filled if one[0].name not in names))


def finished(filled: Filled) -> Finished:
    """Return the bike with what a plan puts into its places."""
    return Finished(tuple(one for one in filled if one[1].spec is not None))


def told(session: Session, about: Told) -> Plans:
    """Return the plans of all bikes as data."""
    units = _hand_out(about)
    parts = list({part for of_bike in units for part in of_bike.values()})
    where: dict[PartId, Stocked] = {}
    for stocked in places_of(session, parts, (PlaceType.BIN,)):
        where.setdefault(stocked.part, stocked)
    plans = [
        _bike(about, i, {name: where[part] for name, part in units[i].items()})
        for i in range(len(about.sites))
    ]
    solved = about.best.solved
    return Plans(
        bikes=tuple(plans), stages=solved.stages, proven=solved.proven, seconds=solved.seconds
    )


def _hand_out(about: Told) -> list[dict[str, PartId]]:
    """Return for each bike which part goes to which place, in the order of use."""
    left: dict[SpecId, list[PartId]] = {}
    handed: list[dict[str, PartId]] = []
    for filled in about.best.chosen:
        of_bike: dict[str, PartId] = {}
        for place, choice in filled:
            if choice.stock is None:
                continue
            spec = choice.stock.id
            if spec not in left:
                left[spec] = [u.part for u in choice.stock.units for _ in range(u.quantity)]
            of_bike[place.name] = left[spec].pop(0)
        handed.append(of_bike)
    return handed


def _bike(about: Told, at: int, where: dict[str, Stocked]) -> BikePlan:
    site, filled = about.sites[at], about.best.chosen[at]
    bike = finished(filled)
    judgement = judge(bike.pieces, bike.ends)
    new = [(place, choice) for place, choice in filled if choice.source in NEW]
    interfaces = list(_of_new(bike))
    take = [_take(about, at, bike, one, where[one[0].name]) for one in new if one[1].stock]
    buy = [_buy(about, at, bike, one) for one in new if not one[1].stock]
    return BikePlan(
        bike=site.bike,
        name=site.name,
        needs=tuple((place.name, place.need) for place in site.places if place.need),
        take=tuple(take),
        buy=tuple(buy),
        changes=tuple(_changes(bike, interfaces)),
        measure=tuple(_measures(about, at, bike, interfaces)),
        unmet=tuple(_unmet(about, at, bike)),
        judgement=judgement,
        cautions=tuple(_cautions(new)),
    )


def _of_new(bike: Finished) -> Iterator[Judged]:
    """Yield every interface of a part that is new on the bike, each once."""
    seen = set()
    pieces, ends = bike.pieces, bike.ends
    for n, (_, choice) in enumerate(bike.filled):
        if choice.source not in NEW:
            continue
        for judged in judge(pieces, ends, about=n).interfaces:
            key = (judged.rule.name, judged.parts)
            if key not in seen:
                seen.add(key)
                yield judged


def _fills(place: Place, choice: Choice) -> str:
    combined = choice.spec is not None and choice.spec.kind == COMBINED
    return COUPLED.get(place.name, "") if combined else ""


def _take(
    about: Told, at: int, bike: Finished, one: tuple[Place, Choice], stocked: Stocked
) -> Take:
    place, choice = one
    return Take(
        slot=place.name,
        part=stocked.part,
        number=stocked.number,
        spec=stocked.spec,
        place=stocked.place_name,
        value=Money(stocked.value or 0),
        replaces=place.now.spec if place.now else None,
        works=place.now is not None and not place.need,
        also_fills=_fills(place, choice),
        also_replaces=_also_replaces(about, at, _fills(place, choice)),
        instead=_instead(about, at, bike, place, choice),
    )


def _also_replaces(about: Told, at: int, slot: str) -> Spec | None:
    """Return what comes off the slot that a combined lever fills besides."""
    return next((p.now.spec for p in about.sites[at].places if p.name == slot and p.now), None)


def _buy(about: Told, at: int, bike: Finished, one: tuple[Place, Choice]) -> Buy:
    place, choice = one
    ranges = None
    if choice.spec is not None and not place.name.startswith("adapter"):
        rest = bike.without(place.name)
        like = choice.spec.piece
        ranges = specification(choice.spec.kind, rest.pieces, rest.ends, like, place.end)
    price = choice.price
    return Buy(
        slot=place.name,
        spec=choice.spec,
        named=choice.named,
        price=price.price if price else None,
        lead_days=price.lead_days if price else None,
        note=price.note if price else "",
        ranges=ranges,
        replaces=place.now.spec if place.now else None,
        works=place.now is not None and not place.need,
        also_fills=_fills(place, choice),
        also_replaces=_also_replaces(about, at, _fills(place, choice)),
        instead=_instead(about, at, bike, place, choice),
    )


def _cost(choice: Choice) -> tuple[int, int]:
    return choice.money, choice.stock.units[0].value if choice.stock else 0


def _instead(about: Told, at: int, bike: Finished, place: Place, chosen: Choice) -> Instead | None:
    """Return the cheaper part that comes nearest, and why it is not in the plan."""
    planned = next((p for p in about.sites[at].places if p.name == place.name), None)
    if planned is None:
        return None
    cheaper = [c for c in planned.choices if c.source in NEW and _cost(c) < _cost(chosen)]
    cheaper.sort(key=_cost, reverse=True)
    rest = bike.without(place.name, COUPLED.get(place.name, "") if _fills(place, chosen) else "")
    pieces, ends = rest.pieces, rest.ends
    nearest: tuple[int, Instead] | None = None
    for choice in cheaper[:MOST_TRIED]:
        assert choice.spec is not None
        judgement = judge((choice.spec.piece, *pieces), (place.end, *ends), about=0)
        clashes = [j for j in judgement.interfaces if j.finding.verdict is Verdict.CLASH]
        doubts = [
            judged
            for judged in judgement.interfaces
            if judged.finding.verdict is Verdict.MEASURE or judged.finding.makeshift
        ]
        found = Instead(
            spec=choice.spec,
            clash=clashes[0] if clashes else None,
            taken_by="" if clashes else _taker(about, at, choice),
            doubt=doubts[0] if doubts and not clashes else None,
        )
        if nearest is None or len(clashes) < nearest[0]:
            nearest = len(clashes), found
    return nearest[1] if nearest else None


def _taker(about: Told, at: int, choice: Choice) -> str:
    """Return the other bike that gets a part of a spec."""
    if choice.stock is None:
        return ""
    for i, filled in enumerate(about.best.chosen):
        same = any(c.stock is not None and c.stock.id == choice.stock.id for _, c in filled)
        if i != at and same:
            return about.sites[i].name
    return ""


def _changes(bike: Finished, interfaces: Sequence[Judged]) -> Iterator[Change]:
    for judged in interfaces:
        finding = judged.finding
        if finding.through is not None or finding.verdict is Verdict.ADAPTS:
            yield Change(judged=judged, pieces=_names(bike, judged))


def _names(bike: Finished, judged: Judged) -> tuple[str, ...]:
    return tuple(bike.filled[n][0].name for n in judged.parts)


def _measures(
    about: Told, at: int, bike: Finished, interfaces: Sequence[Judged]
) -> Iterator[Measure]:
    """Yield what to measure, each unknown once, with the plan that follows if it is otherwise."""
    by_unknown: dict[tuple[int, str], list[tuple[Judged, Trial]]] = {}
    for judged in interfaces:
        for trial in judged.finding.open[:1]:
            n = next((n for n in judged.parts if _is_of(bike, n, trial)), judged.parts[0])
            by_unknown.setdefault((n, trial.attribute), []).append((judged, trial))
    for found in by_unknown.values():
        first, trial = found[0]
        refused = [
            (judged.rule, tuple(None if p is None else p.spec for p in one.pieces))
            for judged, one in found
            if len(one.pieces) == len(judged.rule.parameters)
        ]
        proven = about.best.solved.proven
        other = about.best.chosen[at]
        if proven:
            other = otherwise(about.best, at, about.bench, about.shelf, about.units, refused)
        before = {place.name: choice for place, choice in about.best.chosen[at]}
        after = {place.name: choice for place, choice in other}
        yield Measure(
            judged=first,
            trials=tuple(one for _, one in found),
            slots=_names(bike, first),
            otherwise=tuple(_swaps(before, after)),
            money=sum(c.money for c in after.values()) - sum(c.money for c in before.values()),
            unmet=tuple(
                name
                for name, c in after.items()
                if c.source is Source.UNMET and before[name].source is not Source.UNMET
            ),
            tried=proven,
        )


def _is_of(bike: Finished, n: int, trial: Trial) -> bool:
    choice = bike.filled[n][1]
    return choice.spec is not None and choice.spec == trial.piece.spec


def _swaps(before: dict[str, Choice], after: dict[str, Choice]) -> Iterator[Swap]:
    for name, choice in after.items():
        old = before.get(name)
        if old is not None and old != choice and old.spec != choice.spec:
            yield Swap(slot=name, before=_brief(old), after=_brief(choice))


def _brief(choice: Choice) -> str:
    if choice.spec is not None:
        what = choice.spec.brief
    else:
        what = choice.named or {Source.SHARED: "the combined lever"}.get(choice.source, "nothing")
    return f"new {what}" if choice.source is Source.BOUGHT else what


def _unmet(about: Told, at: int, bike: Finished) -> Iterator[Unmet]:
    for place, choice in about.best.chosen[at]:
        if choice.source is not Source.UNMET:
            continue
        planned = next(p for p in about.sites[at].places if p.name == place.name)
        there = [c for c in planned.choices if c.source in NEW]
        kind = place.now.spec.kind if place.now else planned_kind(place)
        like = place.now.spec.piece if place.now else None
        wanted = specification(kind, bike.pieces, bike.ends, like, place.end)
        yield Unmet(
            slot=place.name,
            why=place.need or "it clashes with the rest of the bike",
            none=not there,
            conflicts=conflicts_of(
                about.bench, about.shelf, about.sites[at], about.best.chosen[at], place.name
            )
            if there and about.best.solved.proven
            else (),
            wanted=wanted,
            also_wanted_by=tuple(
                dict.fromkeys(taker for c in there if (taker := _taker(about, at, c)))
            ),
        )


def planned_kind(place: Place) -> str:
    """Return the kind of part that a place is usually filled with."""
    from partsbin.kinds.slots import BY_NAME

    return BY_NAME[place.name].kinds[0]


def _cautions(new: Sequence[tuple[Place, Choice]]) -> Iterator[str]:
    kinds = dict.fromkeys(c.spec.kind for _, c in new if c.spec is not None)
    for kind in kinds:
        if KINDS[kind].caution:
            yield KINDS[kind].caution
