"""Writes the programme of some bikes: what is chosen, what goes together, what is in stock."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product
from typing import TYPE_CHECKING, Any

from partsbin.workshop.mounting import NEEDED_WITH
from partsbin.workshop.planning.bench import Bench, Outcome
from partsbin.workshop.planning.drawing import Bikes, is_adapter
from partsbin.workshop.planning.places import (
    COMBINED,
    EMPTY,
    LEVER_OF,
    SHARED,
    Choice,
    Offer,
    Place,
    Source,
    is_doubtful,
    mate_of,
)
from partsbin.workshop.planning.programme import Programme
from partsbin.workshop.planning.table import Table
from partsbin.workshop.planning.tables import Tabler

if TYPE_CHECKING:
    from partsbin.stock.ids import SpecId
    from partsbin.workshop.planning.places import StockItem
    from partsbin.workshop.planning.pruning import Pruned


LEFT_OUT = 100
"""How many open needs a working part counts as that is left out because it clashes."""


@dataclass(slots=True)
class Model:
    """A programme with what its columns stand for."""

    programme: Programme
    places: list[list[Place]] = field(default_factory=list)
    columns: list[list[list[int]]] = field(default_factory=list)
    """For each bike and place, the column of each choice."""

    def chosen(self, values: Sequence[int]) -> list[list[tuple[Place, Choice]]]:
        """Return for each bike what fills each place."""
        return [
            [
                (place, choice)
                for place, columns in zip(places, of_site, strict=True)
                for choice, column in zip(place.choices, columns, strict=True)
                if values[column]
            ]
            for places, of_site in zip(self.places, self.columns, strict=True)
        ]


Draw = Callable[[Bikes], Bikes]
"""Returns the places of bikes with the units that they may draw on."""


def model_of(bench: Bench, shelf: Offer, sites: Sequence[Pruned], draw: Draw = list) -> Model:
    """Return the programme of some bikes, that draw on the units that `draw` gives them."""
    model = Model(Programme())
    wholes = [_with_adapters(bench, shelf, site) for site in sites]
    drawn = draw([whole.places for whole in wholes])
    for whole, places in zip(wholes, drawn, strict=True):
        _site(model, replace(whole, places=list(places)))
    _stock(model)
    return model


@dataclass(frozen=True, slots=True)
class _Whole:
    """A bike with the places of the adapters that its tables ask for."""

    places: list[Place]
    tables: list[Table]
    adapters: Mapping[AdapterKey, AdapterPlace]


def _with_adapters(bench: Bench, shelf: Offer, site: Pruned) -> _Whole:
    places, tables = list(site.places), list(site.tables)
    adapters = _adapter_places(places, tables, shelf)
    if adapters:
        places += [one.place for one in adapters.values()]
        tables += Tabler(bench).tables(places, among=len(site.places))
    return _Whole(places, tables, adapters)


def _site(model: Model, whole: _Whole) -> None:
    places = whole.places
    columns = [[_choice(model.programme, place, c) for c in place.choices] for place in places]
    model.places.append(places)
    model.columns.append(columns)
    for place, of_place in zip(places, columns, strict=True):
        label = ("fill", place.bike, place.name) if place.need else None
        model.programme.row(((c, 1) for c in of_place), 1, 1, label)
    _coupled(model.programme, places, columns)
    writing = _Site(model.programme, places, columns, whole.adapters)
    for table in whole.tables:
        writing.write(table)


def _choice(programme: Programme, place: Place, choice: Choice) -> int:
    new = choice.source in (Source.STOCK, Source.BOUGHT, Source.SHARED)
    open_ = 0
    if choice.source is Source.UNMET:
        open_ = 1 if place.need else LEFT_OUT
    return programme.column(
        unmet=open_,
        money=choice.money,
        doubts=int(new and is_doubtful(place)),
        adapters=int(is_adapter(place) and choice is not EMPTY),
    )


def _coupled(
    programme: Programme, places: Sequence[Place], columns: Sequence[Sequence[int]]
) -> None:
    at = {place.name: i for i, place in enumerate(places)}
    for shifter, lever in LEVER_OF.items():
        if lever in at and SHARED in places[at[lever]].choices:
            shared = columns[at[lever]][places[at[lever]].choices.index(SHARED)]
            combined = (
                [
                    column
                    for choice, column in zip(
                        places[at[shifter]].choices, columns[at[shifter]], strict=True
                    )
                    if choice.spec is not None and choice.spec.kind == COMBINED
                ]
                if shifter in at
                else []
            )
            programme.row([(shared, -1), *((c, 1) for c in combined)], 0, 0)
    for i, place in enumerate(places):
        mate = mate_of(place, places)
        if mate is None or EMPTY not in place.choices:
            continue
        asking = [
            column
            for choice, column in zip(mate.choices, columns[at[mate.name]], strict=True)
            if choice.spec is not None and choice.spec.kind == NEEDED_WITH[place.name]
        ]
        empty = columns[i][place.choices.index(EMPTY)]
        programme.row([(empty, 1), *((c, 1) for c in asking)], None, 1)


@dataclass(frozen=True, slots=True)
class AdapterPlace:
    """A place for an adapter, and which of its choices do for each thing that is asked of it."""

    at: int
    place: Place
    meets: Mapping[tuple[Any, ...], tuple[int, ...]]


AdapterKey = tuple[str, str, tuple[str, ...]]


def _adapter_places(
    places: Sequence[Place], tables: Sequence[Table], shelf: Offer
) -> dict[AdapterKey, AdapterPlace]:
    """Return a place for each adapter that a table asks for.

    One adapter serves a rule at one end of the bike, whichever of the parts there ask for it.
    """
    asked: dict[AdapterKey, dict[tuple[Any, ...], Outcome]] = {}
    ends: dict[AdapterKey, str] = {}
    for table in tables:
        for outcome in table.outcomes.values():
            if outcome.adapter is not None:
                key = adapter_place_key(table, outcome, places)
                asked.setdefault(key, {})[outcome.adapter_key] = outcome
                here = {places[i].end for i in table.about if places[i].end}
                ends[key] = here.pop() if len(here) == 1 else ""
    found: dict[AdapterKey, AdapterPlace] = {}
    for key, outcomes in asked.items():
        choices: list[Choice] = [EMPTY]
        if key[0]:
            choices += [
                c
                for c in shelf.of_kinds((key[0],))
                if c.spec is not None
                and any(o.adapter and o.adapter.is_met_by(c.spec.piece) for o in outcomes.values())
            ]
        else:
            what = next(o.adapter.what for o in outcomes.values() if o.adapter)
            choices.append(Choice(Source.BOUGHT, price=shelf.named.get(what), named=what))
        meets = {
            wanted: tuple(
                n
                for n, c in enumerate(choices)
                if c.named
                or (c.spec and outcome.adapter and outcome.adapter.is_met_by(c.spec.piece))
            )
            for wanted, outcome in outcomes.items()
        }
        name = f"adapter {len(found) + 1}: {key[1]}"
        place = Place(places[0].bike, name, ends[key], tuple(choices))
        found[key] = AdapterPlace(len(places) + len(found), place, meets)
    return found


def adapter_place_key(table: Table, outcome: Outcome, places: Sequence[Place]) -> AdapterKey:
    """Return which place an adapter goes to: its kind, the rule, the slots that it is between."""
    assert outcome.adapter is not None
    ended = [places[i].name for i in table.about if places[i].end]
    slots = tuple(sorted(ended or [places[i].name for i in table.about]))
    what = table.rule.name if outcome.adapter.kind else f"{table.rule.name}, {outcome.adapter.what}"
    return outcome.adapter.kind, what, slots


@dataclass(slots=True)
class _Site:
    """What the tables of one bike are written with."""

    programme: Programme
    places: Sequence[Place]
    columns: Sequence[Sequence[int]]
    adapters: Mapping[AdapterKey, AdapterPlace]

    def write(self, table: Table) -> None:
        """Write one table: forbidden pairs as implications, all else as a choice of its tuples."""
        members = [
            _members(self.columns[i], of) for i, of in zip(table.scope, table.classes, strict=True)
        ]
        about = tuple(self.places[i].name for i in table.about)
        label = ("interface", self.places[0].bike, table.rule.name, about)
        if len(members) == 1:
            self._single(members[0], table, label)
        elif len(members) == 2 and all(o.forbidden for o in table.outcomes.values()):
            _forbidden(self.programme, members, table, label)
        else:
            self._tuples(members, table, label)

    def _single(self, groups: Mapping[int, Sequence[int]], table: Table, label: object) -> None:
        """Write a table over one place: its choices themselves are what is allowed or costs."""
        for (of,), outcome in table.outcomes.items():
            group = groups.get(of, ())
            if self._is_out(table, outcome):
                self.programme.row(((c, 1) for c in group), 0, 0, label)
                continue
            for name, cost in _costs(outcome).items():
                costs = self.programme.objectives[name]
                for column in group if cost else ():
                    costs[column] = costs.get(column, 0) + cost
            self._adapter(table, outcome, group, label)

    def _tuples(
        self, members: Sequence[Mapping[int, Sequence[int]]], table: Table, label: object
    ) -> None:
        """Write a table as one column for each allowed combination, of which one is chosen."""
        allowed: list[tuple[tuple[int, ...], int]] = []
        for key in product(*members):
            outcome = table.outcomes.get(key)
            if outcome is None:
                allowed.append((key, self.programme.column(whole=False)))
            elif not self._is_out(table, outcome):
                column = self.programme.column(whole=False, **_costs(outcome))
                allowed.append((key, column))
                self._adapter(table, outcome, (column,), label)
        for n, groups in enumerate(members):
            for of, group in groups.items():
                held = [(column, 1) for key, column in allowed if key[n] == of]
                self.programme.row([*held, *((c, -1) for c in group)], 0, 0, label)
        if not members:
            # All its places are settled: the one combination is there, or the bike is impossible.
            self.programme.row(((column, 1) for _, column in allowed), 1, 1, label)

    def _is_out(self, table: Table, outcome: Outcome) -> bool:
        """Return whether a combination is not allowed; an adapter may not ask for another one."""
        first = len(self.places) - len(self.adapters)
        return outcome.forbidden or (outcome.adapter is not None and max(table.about) >= first)

    def _adapter(
        self, table: Table, outcome: Outcome, wanting: Sequence[int], label: object
    ) -> None:
        """Write that the adapter of an outcome is there if one of some columns is chosen."""
        if outcome.adapter is None:
            return
        one = self.adapters[adapter_place_key(table, outcome, self.places)]
        columns = self.columns[one.at]
        doing = [(columns[n], 1) for n in one.meets[outcome.adapter_key]]
        self.programme.row([*doing, *((c, -1) for c in wanting)], 0, None, label)


def _costs(outcome: Outcome) -> dict[str, int]:
    return {"makeshift": int(outcome.makeshift), "doubts": int(outcome.doubt)}


def _members(columns: Sequence[int], classes: Sequence[int]) -> dict[int, list[int]]:
    found: dict[int, list[int]] = {}
    for column, of in zip(columns, classes, strict=True):
        found.setdefault(of, []).append(column)
    return found


def _forbidden(
    programme: Programme,
    members: Sequence[Mapping[int, Sequence[int]]],
    table: Table,
    label: object,
) -> None:
    for n, groups in enumerate(members):
        other = members[1 - n]
        for of, group in groups.items():
            allowed = [
                (c, -1)
                for with_, columns in other.items()
                if ((of, with_) if n == 0 else (with_, of)) not in table.outcomes
                for c in columns
            ]
            if len(allowed) < sum(map(len, other.values())):
                programme.row([*((c, 1) for c in group), *allowed], None, 0, label)


def _stock(model: Model) -> None:
    """Write that no more of a spec is used than there is, the cheapest and oldest units first."""
    using: dict[SpecId, tuple[StockItem, list[int]]] = {}
    for places, of_site in zip(model.places, model.columns, strict=True):
        for place, columns in zip(places, of_site, strict=True):
            for choice, column in zip(place.choices, columns, strict=True):
                if choice.stock is not None:
                    using.setdefault(choice.stock.id, (choice.stock, []))[1].append(column)
    for item, columns in using.values():
        unit = next(iter(item.units), None)
        if unit is not None and len(columns) <= unit.quantity:
            model.programme.objectives["value"].update(dict.fromkeys(columns, unit.value))
            model.programme.objectives["age"].update(dict.fromkeys(columns, unit.part))
            continue
        left = len(columns)
        taken = []
        for unit in item.units:
            most = min(unit.quantity, left)
            if most <= 0:
                break
            taken.append(model.programme.column(most, value=unit.value, age=unit.part))
            left -= most
        terms = [*((c, 1) for c in columns), *((u, -1) for u in taken)]
        model.programme.row(terms, 0, 0, ("stock", item.id))
