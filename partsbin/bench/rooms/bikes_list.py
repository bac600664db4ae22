"""All bikes as cards, by how far they have come."""

from __future__ import annotations

from flask import render_template, request
from flask.typing import ResponseReturnValue

from partsbin.bench.shop import record
from partsbin.stock.words import BikeState
from partsbin.workshop.bike_cards import ORDER, cards, counts
from partsbin.workshop.presale import GONE

A_PAGE = 24
"""Cards that are shown at once."""
LAST = 1_000_000
"""No list begins further down than this."""
ALL = "all"
MEANT = {
    BikeState.IN_WORK: "parts are being changed",
    BikeState.BOUGHT: "nothing was done yet; a donor or the next one to work on",
    BikeState.READY: "checked, waits for a buyer",
    BikeState.KEPT: "the workshop's own",
    BikeState.SOLD: "gone to its rider",
    BikeState.STRIPPED: "taken apart",
}


def all_bikes() -> ResponseReturnValue:
    """Show the bikes of a state, or all that are not gone, so many at once."""
    asked = request.args.get("state", "")
    start = min(max(request.args.get("from", 0, type=int), 0), LAST)
    states = _states(asked)
    with record().reading() as session:
        found = counts(session)
        shown = cards(session, states, A_PAGE, start)
    there = sum(found.get(state, 0) for state in states)
    return render_template(
        "bikes/all.html",
        cards=shown,
        counts=found,
        asked=asked,
        meant=MEANT,
        there=there,
        here=there if asked == "" else sum(found.get(s, 0) for s in ORDER if s not in GONE),
        start=start,
        a_page=A_PAGE,
    )


def _states(asked: str) -> tuple[BikeState, ...]:
    """Return the states that are asked for; those of bikes that are here without any."""
    if asked == ALL:
        return ORDER
    if asked in set(BikeState):
        return (BikeState(asked),)
    return tuple(state for state in ORDER if state not in GONE)
