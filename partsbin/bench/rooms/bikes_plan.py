"""The plan of a bike: what to take, buy, change and measure, and the parts that wait for it."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from itertools import islice
from typing import TYPE_CHECKING, NamedTuple

from flask import flash, redirect, render_template, request, send_file, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.drawing.plots import lying
from partsbin.bench.kept import kept, last_act, made_at
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal, plainly
from partsbin.errors import PartsbinError
from partsbin.kinds.slots import BY_NAME
from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.stock.ids import BikeId
from partsbin.workshop.plots import COST, GAIN, Bar

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.orm import Session

    from partsbin.stock.models import Bike
    from partsbin.workshop.planning.answer import BikePlan, Buy, Plans, Take
    from partsbin.workshop.planning.words import Line

CONFLICT = 409
SECONDS = (5, 15, 60)
"""For how long an optimum may be looked for, that a person may choose from."""


class Asked(NamedTuple):
    """What a plan was asked for: a bike, the slots that stay as they are, and the time for it."""

    bike: LabelNumber
    keep: tuple[str, ...]
    seconds: int


@dataclass(frozen=True, slots=True)
class Told:
    """A plan with its lines, by what is to be done."""

    measure: list[Line]
    take: list[tuple[Take, Line]]
    buy: list[tuple[Buy, Line]]
    change: list[Line]
    unmet: list[Line]
    cautions: tuple[str, ...]
    money: int
    bars: str
    proof: str
    seconds: float
    proven: bool


@dataclass(frozen=True, slots=True)
class Waiting:
    """A part that is laid aside for the bike."""

    slot: str
    number: LabelNumber
    bin_name: str
    brief: str


def plan(number: LabelNumber) -> ResponseReturnValue:
    """Show what waits for a bike; and its plan, if one is asked for: that may take its time."""
    return _shown(number)


def _shown(number: LabelNumber, refusal: Refusal | None = None) -> str:
    from partsbin.stock.bikes import bike_named
    from partsbin.stock.lookup import mounted
    from partsbin.stock.places import list_bins
    from partsbin.workshop.mounting import needs

    asked = _asked(number)
    told, act = None, 0
    if asked is not None:
        plans, act = planned(asked)
        told = _told(plans)
    with record().reading() as session:
        bike = bike_named(session, number)
        on_bike = mounted(session, BikeId(bike.id))
        waiting = list(_waiting(session, bike))
        bins = {one.name: one.number for one in list_bins(session)}
    return render_template(
        "bikes/plan.html",
        bike=bike,
        needs=needs(on_bike),
        filled=[part.slot for part in on_bike if part.slot],
        waiting=waiting,
        asked=asked,
        told=told,
        act=act,
        bin_numbers=bins,
        choices=SECONDS,
        refusal=refusal,
    )


def planned(asked: Asked) -> tuple[Plans, int]:
    """Return the plan as the record is now, and the last act that it knows of."""
    with record().reading() as session:
        return kept(session, _make, asked), last_act(session)


def _make(session: Session, asked: Asked) -> Plans:
    from partsbin.workshop.planning.making import plan

    return plan(session, [asked.bike], asked.keep, float(asked.seconds))


def _asked(number: LabelNumber) -> Asked | None:
    """Return what plan is asked for, None if none is; only as long as a person may choose."""
    seconds = request.values.get("seconds", 0, type=int)
    if seconds not in SECONDS:
        return None
    keep = [slot for slot in request.values.getlist("keep") if slot in BY_NAME]
    return Asked(number, tuple(sorted(set(keep))), seconds)


def _told(plans: Plans) -> Told:
    from partsbin.workshop.planning.words import lines, proof

    found = plans.bikes[0]
    told = lines(found)
    measure = list(islice(told, len(found.measure)))
    take = list(zip(found.take, islice(told, len(found.take)), strict=True))
    buy = list(zip(found.buy, islice(told, len(found.buy)), strict=True))
    change = list(islice(told, len(found.changes)))
    return Told(
        measure=measure,
        take=take,
        buy=buy,
        change=change,
        unmet=list(told),
        cautions=found.cautions,
        money=plans.money,
        bars=lying("Money by slot", amounts) if (amounts := list(_amounts(found))) else "",
        proof=proof(plans),
        seconds=plans.seconds,
        proven=plans.proven,
    )


def _amounts(found: BikePlan) -> Iterator[Bar]:
    """Yield what each slot asks for: money to spend, and value of stock used."""
    from partsbin.workshop.planning.words import slot_of

    for buy in found.buy:
        if buy.price:
            yield Bar(slot_of(buy), buy.price, colour=COST)
    for take in found.take:
        if take.value:
            yield Bar(slot_of(take), take.value, colour=GAIN)


def _waiting(session: Session, bike: Bike) -> Iterator[Waiting]:
    """Yield what is laid aside for a bike, in the order of the bins, as one walks past them."""
    from partsbin.stock.lookup import places_of
    from partsbin.stock.reserving import laid_aside
    from partsbin.stock.words import PlaceType

    laid = {one.part: one for one in laid_aside(session) if one.bike == bike.id}
    found = places_of(session, list(laid), (PlaceType.BIN,))
    for part in sorted(found, key=lambda one: (one.place_name, one.number)):
        slot = laid[part.part].slot or "between parts"
        yield Waiting(slot, part.number, part.place_name, part.spec.brief)


def apply(number: LabelNumber) -> ResponseReturnValue:
    """Lay aside what the plan takes that was shown, if nothing has changed since."""
    try:
        count = _lay_aside(number)
    except PartsbinError as fault:
        return _shown(number, Refusal("plan", plainly(fault))), CONFLICT
    flash(f"{count} parts are laid aside; scan them onto the bike", "done")
    return redirect(url_for("bikes.plan", number=number))


def _lay_aside(number: LabelNumber) -> int:
    from partsbin.stock.ledger import act_of
    from partsbin.workshop.planning.applying import lay_aside

    asked, act = _asked(number), request.form.get("act", 0, type=int)
    plans = made_at(act, _make, asked) if asked is not None else None
    changed = f"the record has changed since this plan was shown; look at it again; {UNCHANGED}"
    if plans is None:
        raise RefusedError(changed)
    with record().changing("plan") as session:
        if last_act(session, act_of(session)) != act:
            raise RefusedError(changed)
        return len(lay_aside(session, plans))


def pick_list(number: LabelNumber) -> ResponseReturnValue:
    """Answer with the pick list of the plan as a PDF."""
    from partsbin.workshop.planning.pick_list import pick_list as drawn

    asked = _asked(number) or Asked(number, (), SECONDS[0])
    plans, _ = planned(asked)
    return send_file(
        BytesIO(drawn(plans)),
        mimetype="application/pdf",
        as_attachment=True,
        download_name=f"picks-{number}.pdf",
    )
