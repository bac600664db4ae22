"""The page of one bike: its drawing, its slots, its money, and what can be done with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import render_template, request
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.drawing.bicycle import picture
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal
from partsbin.stock.ids import BikeId
from partsbin.stock.words import BikeState
from partsbin.workshop.slot_states import SlotState, needing_first, standings

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.models import Bike
    from partsbin.workshop.slot_states import Standing

A_PAGE = 50
"""Lines of a history that are shown at once."""
MOST_PHOTOS = 4
SIGNS = {
    SlotState.DEAD: "\N{MULTIPLICATION SIGN}",
    SlotState.WORN: "\N{ALMOST EQUAL TO}",
    SlotState.EMPTY: "+",
    SlotState.UNKNOWN: "?",
}
"""What stands in the drawing on a slot that is not as it should be."""


def bike(number: LabelNumber) -> ResponseReturnValue:
    """Show a bike."""
    return shown(number)


def shown(number: LabelNumber, refusal: Refusal | None = None) -> str:
    """Return the page of a bike, with what one of its forms was refused for."""
    from partsbin.stock.bikes import bike_named
    from partsbin.stock.lookup import mounted
    from partsbin.workshop.books import account
    from partsbin.workshop.buying import provenance
    from partsbin.workshop.photos import photos_of
    from partsbin.workshop.selling import estimate_of

    with record().reading() as session:
        found = bike_named(session, number)
        on_bike = mounted(session, BikeId(found.id))
        books = account(session, found)
        estimate = estimate_of(session, BikeId(found.id))
        waiting = _laid_aside(session, found)
        photos = photos_of(session, number)
    standing = standings(on_bike)
    gone = found.state in (BikeState.SOLD, BikeState.STRIPPED)
    return render_template(
        "bikes/bike.html",
        bike=found,
        bare=not on_bike,
        gone=gone,
        standing=needing_first(standing),
        loose=[part for part in on_bike if not part.slot],
        drawn=_drawn(standing, found.style),
        books=books,
        estimate=estimate,
        waiting=waiting,
        photos=photos[:MOST_PHOTOS],
        all_photos=len(photos),
        provenance=provenance(found),
        refusal=refusal,
        typed=request.form,
        signs=SIGNS,
    )


def _laid_aside(session: Session, bike: Bike) -> int:
    from partsbin.stock.reserving import laid_aside

    return sum(one.bike == bike.id for one in laid_aside(session))


def _drawn(standing: list[Standing], style: str) -> dict[str, object]:
    """Return the drawing with how each slot stands."""
    on_bike = {one.slot.name: one.part.spec for one in standing if one.part is not None}
    return {
        "picture": picture(on_bike, style),
        "standing": {one.slot.name: one for one in standing},
    }


def history(number: LabelNumber) -> ResponseReturnValue:
    """Show what happened to a bike, the last first, so many lines at once."""
    from partsbin.stock.bikes import bike_named
    from partsbin.workshop.history import history as of

    start = max(request.args.get("from", 0, type=int), 0)
    with record().reading() as session:
        found = bike_named(session, number)
        events = of(session, number).events
    page = events[::-1][start : start + A_PAGE]
    return render_template(
        "bikes/history.html",
        bike=found,
        events=page,
        start=start,
        a_page=A_PAGE,
        there=len(events),
    )


def photos(number: LabelNumber) -> ResponseReturnValue:
    """Show the photos of a bike, with the form that adds some."""
    from partsbin.bench.rooms.photos import shown as photos_shown

    return photos_shown(number)
