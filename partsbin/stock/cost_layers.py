"""Cost layers of a lot: what each purchase left in each place, computed from the movements.

Nothing of it is stored: the movements are the truth, and what a place holds is the sum of its
layers, which `db check` proves. The formula is chosen for a kind, never for one lot, because IAS 2
Inventories, paragraph 25, wants one formula for goods of like nature and use. A single part needs
none: it carries its own cost (specific identification, paragraph 23).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from operator import attrgetter
from typing import TYPE_CHECKING, Protocol

from sqlalchemy import insert, select

from partsbin.stock.count_tables import CostFormula, FormulaChoice
from partsbin.stock.ids import CLEARING, SUPPLIER, PartId, PlaceId
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Movement, Part, RecordedSpec
from partsbin.stock.money import Money, share
from partsbin.stock.undone import stands

if TYPE_CHECKING:
    from sqlalchemy import Select
    from sqlalchemy.orm import Session

OUTSIDE = (SUPPLIER, CLEARING)
"""Places that hold no layers: what comes out of them is new."""
FOR_ALL = ""
"""The kind under which the formula of all other kinds is chosen."""


@dataclass(frozen=True, slots=True)
class Layer:
    """What is left of one purchase in one place; an older one has the smaller age."""

    age: int
    quantity: int
    cost: Money


class Moved(Protocol):
    """A movement as the layers see it."""

    id: int
    quantity: int
    from_place_id: PlaceId
    to_place_id: PlaceId
    cost: Money


Layers = dict[PlaceId, list[Layer]]


def taken(layers: Sequence[Layer], quantity: int) -> tuple[list[Layer], list[Layer]]:
    """Return what a quantity takes of some layers, oldest first, and what it leaves.

    Part of a layer takes its share of the cost, and the last of a layer all that is left of it.

    Source: IAS 2 Inventories, paragraph 27 (first in, first out).

    >>> gone, left = taken([Layer(1, 10, Money(100)), Layer(2, 10, Money(95))], 14)
    >>> sum(layer.cost for layer in gone), left
    (138, [Layer(age=2, quantity=6, cost=57)])
    """
    gone: list[Layer] = []
    for at, layer in enumerate(layers):
        if not quantity and layer.quantity:
            return gone, list(layers[at:])
        if layer.quantity > quantity:
            cost = share(layer.cost, quantity, layer.quantity)
            gone.append(Layer(layer.age, quantity, cost))
            rest = Layer(layer.age, layer.quantity - quantity, Money(layer.cost - cost))
            return gone, [rest, *layers[at + 1 :]]
        quantity -= layer.quantity
        gone.append(layer)
    return gone, []


def replay(movements: Iterable[Moved]) -> Layers:
    """Return the layers in each place after the movements of one lot, oldest first.

    A movement that carried another cost than that of its layers, such as an average or a cost that
    moved alone, makes one layer of what it leaves behind and one of what it takes along.
    """
    held: Layers = {}
    for moved in movements:
        source, target = moved.from_place_id, moved.to_place_id
        gone = [Layer(moved.id, moved.quantity, moved.cost)]
        if source not in OUTSIDE:
            gone, held[source] = _gone(held.get(source, []), moved)
        if target not in OUTSIDE:
            come = held.setdefault(target, [])
            in_order = not come or not gone or come[-1].age <= gone[0].age
            come += gone
            if not in_order:
                come.sort(key=attrgetter("age"))
            if not moved.quantity:
                come[:] = [_merged(come)]
    return {place: layers for place, layers in held.items() if layers}


def _gone(layers: Sequence[Layer], moved: Moved) -> tuple[list[Layer], list[Layer]]:
    """Return what a movement took along and what it left, at the cost that it carried."""
    gone, left = taken(layers, moved.quantity) if moved.quantity else ([], list(layers))
    over = sum(layer.cost for layer in gone) - moved.cost
    if not over:
        return gone, left
    age = gone[0].age if gone else moved.id
    gone = [Layer(age, moved.quantity, moved.cost)]
    rest = _merged([*left, Layer(layers[-1].age, 0, Money(over))])
    return gone, [rest] if rest.quantity or rest.cost else []


def _merged(layers: Sequence[Layer]) -> Layer:
    quantity = sum(layer.quantity for layer in layers)
    return Layer(layers[0].age, quantity, Money(sum(layer.cost for layer in layers)))


def _moves() -> Select[PartId, int, int, PlaceId, PlaceId, Money]:
    """Return the movements that stand: an act that was taken back left the layers as they were."""
    return (
        select(
            Movement.part_id,
            Movement.id,
            Movement.quantity,
            Movement.from_place_id,
            Movement.to_place_id,
            Movement.cost,
        )
        .where(stands(Movement.act_id))
        .order_by(Movement.part_id, Movement.id)
    )


def layers_of(session: Session, part: PartId) -> Layers:
    """Return the layers of a lot in each place, oldest first."""
    return replay(session.execute(_moves().where(Movement.part_id == part)))


def layers_of_lots(session: Session) -> Iterator[tuple[PartId, Layers]]:
    """Yield every lot with its layers; read in pieces, so that a large record needs no memory."""
    query = _moves().join(Part, Part.id == Movement.part_id).where(Part.lot)
    rows = session.execute(query.execution_options(yield_per=1000))
    for part, moves in groupby(rows, key=attrgetter("part_id")):
        yield part, replay(moves)


def leaving_cost(
    session: Session, part: PartId, quantity: int, source: PlaceId, held: Layer
) -> Money:
    """Return the cost that a quantity of a lot takes along out of a place that holds `held`.

    The last of it takes all that is left.
    """
    if quantity == held.quantity or formula_of(session, part) is CostFormula.AVERAGE:
        return share(held.cost, quantity, held.quantity)
    gone, _ = taken(layers_of(session, part).get(source, []), quantity)
    return Money(sum(layer.cost for layer in gone))


def formula_of(session: Session, part: PartId) -> CostFormula:
    """Return the cost formula of a lot: its kind's own, or that of all others."""
    kind = select(RecordedSpec.kind).join(Part, Part.spec_id == RecordedSpec.id)
    return formula_for(session, str(session.scalar(kind.where(Part.id == part))))


def formula_for(session: Session, kind: str) -> CostFormula:
    """Return the formula of a kind: the last one chosen for it, or for all, or the average."""
    query = (
        select(FormulaChoice.formula)
        .where(FormulaChoice.kind.in_((kind, FOR_ALL)), stands(FormulaChoice.act_id))
        .order_by((FormulaChoice.kind == FOR_ALL), FormulaChoice.id.desc())
    )
    return session.scalar(query.limit(1)) or CostFormula.AVERAGE


def choose_formula(session: Session, kind: str, formula: CostFormula) -> None:
    """Choose the formula of a kind, or with `FOR_ALL` that of all others, from now on."""
    row = {"act_id": act_of(session), "kind": kind, "formula": formula}
    session.execute(insert(FormulaChoice).values(row))


def totals(layers: Layers) -> dict[PlaceId, Layer]:
    """Return the sum of the layers in each place, as one layer of age 0."""
    return {place: replace(_merged(held), age=0) for place, held in layers.items()}
