"""Taking the last act back: opposite movements, edits and entries in a new act.

An act is taken back only while nothing came after it for the parts and bikes that it touched, so
that all is then as it was before. What it recorded stays in the record, as does that it was undone.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, or_, select

from partsbin.kinds.spec import in_words
from partsbin.stock.bikes import add_entry
from partsbin.stock.check_tables import BikeCheck, BikeEstimate, Edit, UndoneAct
from partsbin.stock.count_tables import BinCount, FormulaChoice
from partsbin.stock.edits import CREATED, read_field
from partsbin.stock.errors import UNCHANGED, RefusedError, UnknownError
from partsbin.stock.ids import ActId, BikeId, PartId, PlaceId
from partsbin.stock.label_tables import PrintJob
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Act, Bike, BikeEntry, Movement, Part, Place
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.movements import carry_cost, move
from partsbin.stock.parts import edit_part
from partsbin.stock.sale_tables import PartSale
from partsbin.stock.titles import part_title, place_title
from partsbin.stock.undone import stands
from partsbin.stock.words import BikeState

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, Select
    from sqlalchemy.orm import Session

RECORDS: Mapping[
    type[BikeCheck | BikeEstimate | BinCount | FormulaChoice | PartSale | PrintJob], str
] = {
    BikeCheck: "what was checked",
    BikeEstimate: "the expected price",
    BinCount: "the count of a bin",
    FormulaChoice: "the choice of a cost formula",
    PartSale: "the sale of a part",
    PrintJob: "the print job",
}
"""Tables whose readers leave out the acts that were taken back."""


@dataclass(frozen=True, slots=True)
class Back:
    """A movement that went back: what, from where, to where, with which cost."""

    part: str
    quantity: int
    source: str
    target: str
    cost: Money


@dataclass(frozen=True, slots=True)
class Undone:
    """What taking an act back did."""

    act: ActId
    what: str
    who: str
    at: dt.datetime
    movements: tuple[Back, ...]
    others: tuple[str, ...]
    """Edits, entries and checks that were taken back, a sentence each."""


def undo(session: Session, number: int | None = None) -> Undone:
    """Take the last act of whoever works now back, or the one of that number, and say what it did.

    Acts that were undone, and those that undid one, are passed over: undoing again goes further
    back. Raises `RefusedError` if something came after it, or if it changed nothing that has an
    opposite.
    """
    now = session.get_one(Act, act_of(session))
    act = _last_of(session, now) if number is None else _numbered(session, now, number)
    _check_last(session, act)
    movements = tuple(_move_back(session, row) for row in _movements(session, act))
    others = (
        *_entries_back(session, act),
        *_edits_back(session, act),
        *_records_back(session, act),
    )
    if not movements and not others:
        raise RefusedError(f"{_named(act)} changed nothing that could be taken back; {UNCHANGED}")
    session.add(UndoneAct(act_id=act.id, by_act_id=now.id))
    session.flush()
    return Undone(ActId(act.id), act.what, act.who, act.at, movements, others)


def _last_of(session: Session, now: Act) -> Act:
    act = session.scalar(
        select(Act)
        .where(Act.who == now.who, Act.id < now.id, stands(Act.id))
        .order_by(Act.id.desc())
        .limit(1)
    )
    if act is None:
        raise RefusedError(f"{now.who} has done nothing that could be taken back; {UNCHANGED}")
    return act


def _numbered(session: Session, now: Act, number: int) -> Act:
    act = session.get(Act, number) if number < now.id else None
    if act is None:
        raise UnknownError("act", str(number), "; partsbin history shows the acts")
    if act.who != now.who:
        raise RefusedError(f"{_named(act)} is not yours; {act.who} can undo it; {UNCHANGED}")
    if not session.scalar(select(stands(Act.id)).where(Act.id == number)):
        raise RefusedError(f"{_named(act)} was undone already, or undid another; {UNCHANGED}")
    return act


def _named(act: Act) -> str:
    return f"act {act.id} ('{act.what}' by {act.who}, {act.at.astimezone():%Y-%m-%d %H:%M})"


def _check_last(session: Session, act: Act) -> None:
    """Raise `RefusedError` if something that the act touched was changed after it."""
    found = [later for query in _later(act) if (later := session.scalar(query)) is not None]
    if found:
        after = session.get_one(Act, min(found))
        raise RefusedError(
            f"{_named(act)} cannot be undone: {_named(after)} came after it and changed the same "
            f"parts or bike; undo that first; {UNCHANGED}"
        )


def _later(act: Act) -> tuple[Select[ActId], ...]:
    """Return the questions for the first later act that touched what this one touched."""
    parts = (
        select(Movement.part_id)
        .where(Movement.act_id == act.id)
        .union(select(Edit.part_id).where(Edit.act_id == act.id, Edit.part_id.is_not(None)))
    )
    accounts = select(BikeEntry.bike_id).where(BikeEntry.act_id == act.id)
    edited = select(Edit.bike_id).where(Edit.act_id == act.id, Edit.bike_id.is_not(None))
    checked = select(BikeCheck.bike_id).where(BikeCheck.act_id == act.id)
    bikes = accounts.union(edited, checked)
    own = select(Place.id).where(Place.bike_id.in_(edited))

    def first(
        table: type[Movement | Edit | BikeEntry | BikeCheck], touches: ColumnElement[bool]
    ) -> Select[ActId]:
        later = (touches, table.act_id > act.id, stands(table.act_id))
        return select(func.min(table.act_id)).where(*later)

    return (
        first(Movement, Movement.part_id.in_(parts)),
        first(Movement, or_(Movement.from_place_id.in_(own), Movement.to_place_id.in_(own))),
        first(Edit, or_(Edit.part_id.in_(parts), Edit.bike_id.in_(bikes))),
        first(BikeEntry, BikeEntry.bike_id.in_(bikes)),
        first(BikeCheck, BikeCheck.bike_id.in_(bikes)),
    )


def _movements(session: Session, act: Act) -> Sequence[Movement]:
    query = select(Movement).where(Movement.act_id == act.id).order_by(Movement.id.desc())
    return session.scalars(query).all()


def _move_back(session: Session, row: Movement) -> Back:
    part = PartId(row.part_id)
    source, target = PlaceId(row.to_place_id), PlaceId(row.from_place_id)
    if row.quantity:
        move(session, part, row.quantity, source, target, cost=row.cost)
    else:
        carry_cost(session, part, source, target, row.cost)
    return Back(
        part_title(session, part),
        row.quantity,
        place_title(session, source),
        place_title(session, target),
        row.cost,
    )


def _entries_back(session: Session, act: Act) -> list[str]:
    """Append the opposite of each entry, on the same day, so that its period adds up to nothing."""
    told = []
    query = select(BikeEntry).where(BikeEntry.act_id == act.id).order_by(BikeEntry.id)
    for entry in session.scalars(query).all():
        add_entry(
            session,
            BikeId(entry.bike_id),
            entry.type,
            Money(-entry.amount),
            entry.day,
            minutes=None if entry.minutes is None else -entry.minutes,
            rate=entry.rate,
            note=f"undoes act {act.id}",
        )
        bike = session.get_one(Bike, entry.bike_id)
        told.append(f"the {entry.type} entry of {bike.name} was taken back")
    return told


def _edits_back(session: Session, act: Act) -> list[str]:
    told = []
    query = select(Edit).where(Edit.act_id == act.id).order_by(Edit.id.desc())
    for edit in session.scalars(query).all():
        if edit.part_id is not None:
            told.append(_part_back(session, edit))
        elif edit.field == CREATED and edit.before is None:
            told.append(_bike_gone(session.get_one(Bike, edit.bike_id)))
        else:
            bike = session.get_one(Bike, edit.bike_id)
            setattr(bike, edit.field, read_field(edit.field, edit.before))
            told.append(f"{bike.name}'s {in_words(edit.field)} is {edit.before or 'empty'} again")
    session.flush()
    return told


def _part_back(session: Session, edit: Edit) -> str:
    part = session.get_one(Part, edit.part_id)
    if edit.field == "note":
        edit_part(session, PartId(part.id), note=edit.before or "")  # its words are indexed
    else:
        setattr(part, edit.field, read_field(edit.field, edit.before))
    what = "attributes" if edit.field == "spec_id" else edit.field
    return f"{part_title(session, PartId(part.id))} has its former {what} again"


def _bike_gone(bike: Bike) -> str:
    """Give the name of a bike free that should not have come in; its number stays used."""
    was, bike.name = bike.name, f"undone {bike.number}"
    bike.state, bike.price = BikeState.STRIPPED, NOTHING
    return f"{was} is gone, and its name is free again; its number stays used"


def _records_back(session: Session, act: Act) -> list[str]:
    """Return what is taken back by being left out from now on: see `stock.undone.stands`."""
    told = []
    for table, words in RECORDS.items():
        rows = select(func.count()).select_from(table).where(table.act_id == act.id)
        if count := session.scalar(rows):
            told.append(f"{words} counts no more" + (f" ({count} of them)" if count > 1 else ""))
    return told
