"""Lots: bought by the pack, used by the piece or the metre, at the cost of their kind's formula."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import kind_named
from partsbin.stock.bikes import bike_named, loose_place
from partsbin.stock.cost_layers import (
    FOR_ALL,
    Layer,
    choose_formula,
    formula_for,
    layers_of,
)
from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.stock.ids import QUARANTINE, SCRAPPED, SUPPLIER, BikeId, PartId, PlaceId
from partsbin.stock.lookup import PRESENT, Stocked, where_is
from partsbin.stock.movements import move
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import bin_named
from partsbin.stock.quantity import LARGEST, read_quantity, show_quantity
from partsbin.stock.specs import spec_of
from partsbin.stock.titles import place_title, title
from partsbin.stock.words import BikeState, Grade, PlaceType
from partsbin.workshop.mounting import Done, place_of
from partsbin.workshop.reordering import pack_of

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.count_tables import CostFormula
    from partsbin.stock.models import Part
    from partsbin.stock.money import Money


@dataclass(frozen=True, slots=True)
class Shelf:
    """What a place holds of a lot, and its cost layers, oldest first."""

    stocked: Stocked
    layers: tuple[Layer, ...]


def buy_more(
    session: Session,
    number: str,
    cost: Money,
    *,
    quantity: str = "",
    packs: int | None = None,
    bin_name: str = "",
) -> Done:
    """Put more of a lot into its bin, from the supplier, and return what was done.

    `cost` is of the whole quantity, which is typed, or in packs as its minimum level says. Used
    parts whose kind needs an inspection wait in quarantine.
    """
    part = _lot(session, number)
    spec = spec_of(part.spec.text)
    amount = _bought(session, part, quantity, packs)
    waits = bool(KINDS[spec.kind].inspection) and part.grade is not Grade.NEW
    target = QUARANTINE if waits else _home(session, part, bin_name)
    move(session, PartId(part.id), amount, SUPPLIER, target, cost=cost)
    return Done(part.number, spec, "supplier", place_title(session, target), cost)


def use(session: Session, number: str, quantity: str, onto: str = "", source: str = "") -> Done:
    """Take a quantity of a lot onto a bike, or write it off as consumed; return what was done.

    Without a bin in `source` it comes from the first one that holds enough.
    """
    part = _lot(session, number)
    spec = spec_of(part.spec.text)
    if part.grade is Grade.UNSAFE:
        raise RefusedError(
            f"{title(spec.kind, part.number)} is unsafe and is not used; {UNCHANGED}"
        )
    amount = read_quantity(quantity, part.unit)
    shelf = _shelf(session, part, amount, source)
    target, where = SCRAPPED, "consumed"
    if onto:
        bike = bike_named(session, onto)
        target, where = loose_place(session, BikeId(bike.id)), f"{bike.name}, loose"
        if bike.state is BikeState.BOUGHT:
            bike.state = BikeState.IN_WORK
    cost = move(session, PartId(part.id), amount, shelf, target)
    text = show_quantity(amount, part.unit)
    return Done(part.number, spec, f"{place_title(session, shelf)}, {text}", where, cost)


def shelves(session: Session, number: str) -> list[Shelf]:
    """Return where a lot is in the workshop, with its cost layers."""
    part = _lot(session, number)
    layers = layers_of(session, PartId(part.id))
    return [
        Shelf(place, tuple(layers.get(place.place, ())))
        for place in where_is(session, PartId(part.id))
        if place.place_type in PRESENT
    ]


def set_formula(session: Session, kind: str, formula: CostFormula) -> None:
    """Choose the cost formula of a kind, or without one that of all other kinds."""
    choose_formula(session, kind_named(kind).word if kind else FOR_ALL, formula)


def formula_of_kind(session: Session, kind: str) -> CostFormula:
    """Return the cost formula of a kind, or without one that of all kinds."""
    return formula_for(session, kind_named(kind).word if kind else FOR_ALL)


def _lot(session: Session, number: str) -> Part:
    part = part_by_number(session, number)
    if not part.lot:
        name = title(part.spec.kind, part.number)
        raise RefusedError(f"{name} is a single part, not a lot; {UNCHANGED}")
    return part


def _bought(session: Session, part: Part, quantity: str, packs: int | None) -> int:
    if bool(quantity) == (packs is not None):
        raise UsageError("say how much it is with --quantity, or in --packs")
    if packs is None:
        return read_quantity(quantity, part.unit)
    pack = pack_of(session, part)
    if pack is None:
        raise RefusedError(
            f"what a pack of {title(part.spec.kind, part.number)} holds is not recorded; set it "
            f"with partsbin reorder set {part.number} --pack QUANTITY; {UNCHANGED}"
        )
    if not 0 < packs * pack <= LARGEST:
        raise UsageError(f"{packs} is no number of packs; give 1 or more")
    return packs * pack


def _home(session: Session, part: Part, bin_name: str) -> PlaceId:
    """Return the bin that is named, or the one that holds most of a lot."""
    if bin_name:
        return PlaceId(bin_named(session, bin_name).id)
    bins = _bins(session, part)
    if not bins:
        raise UsageError("it is in no bin now; say with --bin where it goes")
    return max(bins, key=lambda place: place.quantity).place


def _shelf(session: Session, part: Part, amount: int, source: str) -> PlaceId:
    """Return the bin that is named, or the first that holds enough."""
    if source:
        return PlaceId(bin_named(session, source).id)
    bins = _bins(session, part)
    enough = [place.place for place in bins if place.quantity >= amount]
    if not bins:
        now = " and ".join(map(place_of, where_is(session, PartId(part.id)))) or "in no place"
        name = title(part.spec.kind, part.number)
        raise RefusedError(f"{name} is in no bin, it is {now}; {UNCHANGED}")
    return enough[0] if enough else bins[0].place


def _bins(session: Session, part: Part) -> list[Stocked]:
    places = where_is(session, PartId(part.id))
    return [place for place in places if place.place_type is PlaceType.BIN]
