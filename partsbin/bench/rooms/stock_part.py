"""The page of a part or a lot: what it is, where it is, and what can be done with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from flask import render_template, request
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.rooms.stock_search import bin_numbers
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal
from partsbin.fit.condition import sentence
from partsbin.fit.words import headline
from partsbin.kinds.catalogue import what_is
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import slots_for
from partsbin.stock.words import BikeState, Grade, PlaceType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

EVENTS = 20
"""Lines of the history that are shown at first."""
FORMULAS = ("average", "fifo")
OPEN = (BikeState.BOUGHT, BikeState.IN_WORK, BikeState.READY, BikeState.KEPT)
"""The states of bikes onto which a part may go."""


def part_page(number: LabelNumber) -> ResponseReturnValue:
    """Show a part or a lot."""
    return shown(number)


def shown(number: LabelNumber, refusal: Refusal | None = None) -> str:
    """Return the page of a part, with what one of its forms was refused for."""
    with record().reading() as session:
        page = _of_part(session, number)
    return render_template("stock/part.html", **page, refusal=refusal, typed=request.form)


def _of_part(session: Session, number: LabelNumber) -> dict[str, Any]:
    from partsbin.stock.bikes import list_bikes
    from partsbin.stock.ids import PartId
    from partsbin.stock.lookup import where_is
    from partsbin.stock.parts import part_by_number
    from partsbin.stock.specs import spec_of
    from partsbin.workshop.history import history
    from partsbin.workshop.intake import by_readings
    from partsbin.workshop.photos import photos_of

    part = part_by_number(session, number)
    places = where_is(session, PartId(part.id))
    spec = spec_of(part.spec.text)
    kind = KINDS[spec.kind]
    _, signs = by_readings(spec, part.grade)
    events = history(session, number).events[::-1]
    every = request.args.get("history") == "all"
    return {
        "part": part,
        "spec": spec,
        "kind": kind,
        "what": what_is(kind),
        "places": places,
        "here": [p for p in places if p.place_type not in (PlaceType.SOLD, PlaceType.SCRAPPED)],
        "in_bin": any(place.place_type is PlaceType.BIN for place in places),
        "waits": any(place.place_type is PlaceType.QUARANTINE for place in places),
        "attributes": _attributes(spec),
        "unknown": [name for name in kind.attributes if spec.get(name) is None],
        "signs": [sentence(sign) for sign in signs],
        "photos": photos_of(session, number),
        "serves": _serves(session, spec, part.grade),
        "events": events if every else events[:EVENTS],
        "more_events": 0 if every else max(len(events) - EVENTS, 0),
        "bikes": list_bikes(session, *OPEN),
        "slots": slots_for(spec.kind),
        "bin_numbers": bin_numbers(session),
        **(_of_lot(session, number, spec.kind) if part.lot else {}),
    }


def _attributes(spec: Any) -> list[tuple[str, str, bool]]:
    """Return each attribute's name, its value in words and whether it is assumed."""
    first = KINDS[spec.kind].first
    shown = spec.shown()
    order = [n for n in first if n in shown] + [n for n in shown if n not in first]
    return [(name, shown[name].removesuffix(" (assumed)"), name in spec.assumed) for name in order]


def _serves(session: Session, spec: Any, grade: Grade) -> list[dict[str, Any]]:
    from partsbin.workshop.open_needs import serves

    if grade in (Grade.UNSAFE, Grade.CORE):
        return []
    return [{"open": one, "why": headline(one.judgement)} for one in serves(session, spec)]


def _of_lot(session: Session, number: LabelNumber, kind: str) -> dict[str, Any]:
    from partsbin.workshop.lots import formula_of_kind, shelves

    return {
        "shelves": shelves(session, number),
        "formula": formula_of_kind(session, kind),
        "formulas": FORMULAS,
    }
