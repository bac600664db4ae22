"""What happened to a part, in a bin, or to a bike: when, who, what and why."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.orm import aliased

from labels.number import LabelNumber, Thing, grouped, thing_of
from partsbin.errors import NotFoundError
from partsbin.kinds.forms.form import nearest
from partsbin.kinds.spec import in_words
from partsbin.stock.bikes import bike_named, list_bikes
from partsbin.stock.check_tables import BikeCheck, Edit
from partsbin.stock.ids import ActId, BikeId, PlaceId
from partsbin.stock.models import Act, Bike, BikeEntry, Movement, Part, Place, RecordedSpec
from partsbin.stock.money import Money, show_money
from partsbin.stock.parts import part_by_number
from partsbin.stock.places import bin_named, list_bins, looks_like_number, read_number
from partsbin.stock.quantity import show_quantity
from partsbin.stock.sale_tables import PartSale
from partsbin.stock.specs import spec_of
from partsbin.stock.titles import title, words_for
from partsbin.stock.undone import undone_by
from partsbin.stock.words import EntryType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One line of a history."""

    act: ActId
    at: dt.datetime
    who: str
    what: str
    why: str
    told: str
    """What happened, in words."""
    number: LabelNumber | None = None
    """The part that moved; None for what is no movement."""
    quantity: str = ""
    source: str = ""
    target: str = ""
    cost: Money | None = None
    undone_by: ActId | None = None


@dataclass(frozen=True, slots=True)
class History:
    """What happened to one thing, oldest first."""

    title: str
    events: tuple[Event, ...]


def history(session: Session, text: str) -> History:
    """Return the history of what a number or a name means: a part, a lot, a bin or a bike.

    Raises `NotFoundError` with the nearest name if nothing is called that; a bin comes before a
    bike of the same name, which its number still finds.
    """
    if looks_like_number(text):
        number = read_number(text, *Thing)
        thing = thing_of(number)
        if thing is Thing.BIN:
            return _of_bin(session, bin_named(session, number))
        if thing is Thing.BIKE:
            return _of_bike(session, bike_named(session, number))
        return _of_part(session, part_by_number(session, number))
    name = " ".join(text.lower().split())
    bins = [bin_.name for bin_ in list_bins(session)]
    bikes = [bike.name for bike in list_bikes(session)]
    if name in {bin_.lower() for bin_ in bins}:
        return _of_bin(session, bin_named(session, text))
    if name in {bike.lower() for bike in bikes}:
        return _of_bike(session, bike_named(session, text))
    hint = nearest(text.strip(), [*bins, *bikes])
    raise NotFoundError(f"there is no part, bin or bike {text.strip()!r} in the record{hint}")


def _of_part(session: Session, part: Part) -> History:
    name = title(part.spec.kind, part.number)
    moved = _moved(session, Movement.part_id == part.id)
    edited = _edited(session, Edit.part_id == part.id)
    return History(name, _ordered(session, moved, edited, _sold(session, part)))


def _of_bin(session: Session, place: Place) -> History:
    here = PlaceId(place.id)
    touches = or_(Movement.from_place_id == here, Movement.to_place_id == here)
    return History(f"bin {place.name}", _ordered(session, _moved(session, touches)))


def _of_bike(session: Session, bike: Bike) -> History:
    id_ = BikeId(bike.id)
    own = select(Place.id).where(Place.bike_id == bike.id)
    touches = or_(Movement.from_place_id.in_(own), Movement.to_place_id.in_(own))
    return History(
        f"{bike.name}, {grouped(bike.number)}",
        _ordered(
            session,
            _moved(session, touches),
            _edited(session, Edit.bike_id == id_),
            _entered(session, id_),
            _checked(session, id_),
        ),
    )


def _ordered(session: Session, *lists: Sequence[Event]) -> tuple[Event, ...]:
    """Return the events in the order of their acts, each with the act that undid it."""
    gone = undone_by(session)
    found = sorted((event for events in lists for event in events), key=lambda e: e.act)
    return tuple(_marked(event, gone.get(event.act)) for event in found)


def _marked(event: Event, by: ActId | None) -> Event:
    return event if by is None else replace(event, undone_by=by)


def _moved(session: Session, condition: ColumnElement[bool]) -> list[Event]:
    out, into = aliased(Place), aliased(Place)
    out_bike, into_bike = aliased(Bike), aliased(Bike)
    query = (
        select(
            Movement,
            Act,
            Part.number,
            Part.unit,
            RecordedSpec.text,
            out.type,
            out.name,
            out_bike.name,
            into.type,
            into.name,
            into_bike.name,
        )
        .join(Act, Act.id == Movement.act_id)
        .join(Part, Part.id == Movement.part_id)
        .join(RecordedSpec, RecordedSpec.id == Part.spec_id)
        .join(out, out.id == Movement.from_place_id)
        .join(into, into.id == Movement.to_place_id)
        .outerjoin(out_bike, out_bike.id == out.bike_id)
        .outerjoin(into_bike, into_bike.id == into.bike_id)
        .where(condition)
        .order_by(Movement.id)
    )
    return [
        Event(
            act=ActId(act.id),
            at=act.at,
            who=act.who,
            what=act.what,
            why=act.reason,
            told=spec_of(text).brief,
            number=number,
            quantity=show_quantity(row.quantity, unit) if row.quantity else "cost only",
            source=words_for(*source),
            target=words_for(*target),
            cost=row.cost,
        )
        for row, act, number, unit, text, *places in session.execute(query)
        for source, target in [(places[:3], places[3:])]
    ]


def _edited(session: Session, condition: ColumnElement[bool]) -> list[Event]:
    query = select(Edit, Act).join(Act, Act.id == Edit.act_id).where(condition).order_by(Edit.id)
    return [_event(act, _edit_words(session, edit)) for edit, act in session.execute(query)]


def _sold(session: Session, part: Part) -> list[Event]:
    query = (
        select(PartSale, Act)
        .join(Act, Act.id == PartSale.act_id)
        .where(PartSale.part_id == part.id)
        .order_by(PartSale.id)
    )
    return [_event(act, _sale_words(sale), sale.amount) for sale, act in session.execute(query)]


def _sale_words(sale: PartSale) -> str:
    fee = f", fee {show_money(sale.fee)}" if sale.fee else ""
    return f"sale on {sale.day}{fee}" + (f", {sale.note}" if sale.note else "")


def _edit_words(session: Session, edit: Edit) -> str:
    if edit.field == "spec_id":
        ids = [int(text) for text in (edit.before, edit.after) if text]
        texts = [session.get_one(RecordedSpec, id_).text for id_ in ids]
        return "attributes: " + " -> ".join(spec_of(text).brief for text in texts)
    if edit.before is None and edit.bike_id is not None and edit.field == "state":
        return f"came into the record as {edit.after}"
    before, after = (_shown(edit.field, text) for text in (edit.before, edit.after))
    return f"{in_words(edit.field)}: {before} -> {after}"


def _shown(field: str, text: str | None) -> str:
    if text and field in ("value", "price"):
        return show_money(int(text))
    return text or "nothing"


def _entered(session: Session, bike: BikeId) -> list[Event]:
    query = (
        select(BikeEntry, Act)
        .join(Act, Act.id == BikeEntry.act_id)
        .where(BikeEntry.bike_id == bike)
        .order_by(BikeEntry.id)
    )
    return [
        _event(act, _entry_words(entry), Money(entry.amount))
        for entry, act in session.execute(query)
    ]


def _entry_words(entry: BikeEntry) -> str:
    words = str(entry.type)
    if entry.type is EntryType.LABOUR and entry.rate is not None:
        words = f"labour, {entry.minutes} minutes at {show_money(entry.rate)} an hour"
    return f"{words} on {entry.day}" + (f", {entry.note}" if entry.note else "")


def _checked(session: Session, bike: BikeId) -> list[Event]:
    query = (
        select(BikeCheck, Act)
        .join(Act, Act.id == BikeCheck.act_id)
        .where(BikeCheck.bike_id == bike)
        .order_by(BikeCheck.id)
    )
    return [
        _event(
            act,
            f"{check.item} {'ok' if check.ok else 'fail'}, looked at by {check.checked_by}"
            + (f": {check.note}" if check.note else ""),
        )
        for check, act in session.execute(query)
    ]


def _event(act: Act, told: str, cost: Money | None = None) -> Event:
    return Event(
        act=ActId(act.id),
        at=act.at,
        who=act.who,
        what=act.what,
        why=act.reason,
        told=told,
        cost=cost,
    )
