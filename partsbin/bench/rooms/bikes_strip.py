"""Taking a bike apart: what becomes of each part, then where it all went."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.kept import kept
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal, plainly
from partsbin.errors import PartsbinError
from partsbin.kinds.kind import KINDS
from partsbin.stock.money import show_money
from partsbin.stock.words import Grade

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.workshop.stripping import Orders

CONFLICT = 409
SPLITS = {
    "value": "by what each part would sell for",
    "zero": "not at all: the price is written off",
    "hand": "as stated for each part",
}


def asked(number: LabelNumber) -> ResponseReturnValue:
    """Show what is on the bike, and ask what becomes of each part."""
    return _form(number)


def _form(number: LabelNumber, refusal: Refusal | None = None) -> str:
    from partsbin.kinds.eras import names, template
    from partsbin.stock.bikes import bike_named
    from partsbin.stock.ids import BikeId
    from partsbin.stock.lookup import mounted
    from partsbin.stock.places import list_bins

    with record().reading() as session:
        bike = bike_named(session, number)
        parts = mounted(session, BikeId(bike.id))
        bins = {one.name: one.number for one in list_bins(session)}
        usual = kept(session, _usual, tuple(sorted({part.spec.kind for part in parts})))
    return render_template(
        "bikes/strip.html",
        bike=bike,
        parts=[part for part in parts if part.slot],
        loose=[part for part in parts if not part.slot],
        cost=sum(part.cost for part in parts),
        usual=usual,
        bin_numbers=bins,
        looks={part.spec.kind: KINDS[part.spec.kind].inspection for part in parts},
        grades=[grade.value for grade in Grade],
        splits=SPLITS,
        eras=[(name, template(name).title) for name in names()],
        refusal=refusal,
        typed=request.form,
    )


def _usual(session: Session, kinds: tuple[str, ...]) -> dict[str, str]:
    """Return the name of the bin where most parts of each kind are."""
    from partsbin.stock.bin_choice import bin_of_kind

    places = {kind: bin_of_kind(session, kind) for kind in kinds}
    return {kind: place.name for kind, place in places.items() if place is not None}


def stripped(number: LabelNumber) -> ResponseReturnValue:
    """Take the bike apart, and go to where its parts went."""
    from partsbin.stock.ledger import act_of
    from partsbin.workshop.stripping import strip

    try:
        orders = _orders()
        with record().changing("bike strip") as session:
            done = strip(session, number, orders)
            act = act_of(session)
    except PartsbinError as fault:
        return _form(number, Refusal("strip", plainly(fault))), CONFLICT
    off = f"; written off: {show_money(done.written_off)}" if done.written_off else ""
    flash(f"{len(done.parts)} parts are off {done.bike}{off}", "done")
    if done.uninspected:
        flash(f"in quarantine until inspected: {', '.join(done.uninspected)}", "caution")
    return redirect(url_for("bikes.went", number=number, act=act))


def went(number: LabelNumber, act: int) -> ResponseReturnValue:
    """Show where the parts went that an act took off a bike."""
    from partsbin.stock.bikes import bike_named
    from partsbin.workshop.history import history

    with record().reading() as session:
        bike = bike_named(session, number)
        events = history(session, number).events
    off = [one for one in events if one.act == act and one.number and one.source]
    moved = [one for one in off if one.quantity != "cost only"]
    labelled = [one.number for one in moved if one.target != "scrap" and not one.undone_by]
    return render_template("bikes/stripped.html", bike=bike, moved=moved, kept=labelled)


def _orders() -> Orders:
    """Return what was ordered for each slot; fields are named for their slot."""
    from dataclasses import replace

    from partsbin.workshop.stripping import read_orders

    orders = read_orders(
        into=request.form.get("into", "").strip(),
        split=request.form.get("split", "value") if _known_split() else "value",
        inspected=request.form.get("inspected") == "yes",
        grades=_by_slot("grade"),
        values=_by_slot("value"),
        costs=_by_slot("cost"),
        bins=_by_slot("bin"),
        keep=request.form.getlist("keep"),
        like=request.form.get("like", "").strip(),
    )
    return replace(orders, notes=_by_slot("note"), inspections=_inspections())


def _known_split() -> bool:
    return request.form.get("split") in SPLITS


def _by_slot(what: str) -> dict[str, str]:
    """Return the fields of one name, by slot, those that are empty left out."""
    found = {}
    for name, text in request.form.items():
        slot, _, field = name.rpartition(".")
        if field == what and slot and text.strip():
            found[slot] = text.strip()
    return found


def _inspections() -> dict[str, bool]:
    return dict.fromkeys(_by_slot("inspected"), True)
