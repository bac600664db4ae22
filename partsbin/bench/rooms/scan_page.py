"""The page before the camera, and how answers are shown on it or sent to its script."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from flask import flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue

from partsbin.bench.answers import NOT_DONE, TARGETS, Answer, Mode, Orders, State
from partsbin.bench.shop import record, wants_json
from partsbin.stock.bikes import list_bikes
from partsbin.stock.places import list_bins
from partsbin.stock.words import BikeState

if TYPE_CHECKING:
    from collections.abc import Sequence

MODES = (
    (Mode.LOOK, "Look up"),
    (Mode.ONTO, "Onto a bike"),
    (Mode.INTO, "Into a bin"),
    (Mode.COUNT, "Count a bin"),
)
AT_WORK = (BikeState.BOUGHT, BikeState.IN_WORK, BikeState.READY)
MOST_CHOICES = 200
"""Of more bins than that nobody picks from a list; the name is typed."""
CONFLICT = 409


def scanner(orders: Orders, answers: Sequence[Answer] = (), lines: str = "") -> str:
    """Return the page before the camera with what was answered last."""
    return render_template(
        "scan/page.html",
        orders=orders,
        modes=MODES,
        choices=_choices(orders.mode),
        answers=answers,
        lines=lines,
        watch="",
    )


def _choices(mode: Mode) -> list[str] | None:
    """Return the names of the bikes or bins to choose from, None if they are too many."""
    if mode not in TARGETS:
        return []
    with record().reading() as session:
        if mode is Mode.ONTO:
            return [bike.name for bike in list_bikes(session, *AT_WORK)]
        names = [one.name for one in list_bins(session)]
    return names if len(names) <= MOST_CHOICES else None


def answered(
    orders: Orders, answers: Sequence[Answer], lines: str = "", watch: str = ""
) -> ResponseReturnValue:
    """Return answers as the page's script wants them, or as a page."""
    if wants_json():
        return {"answer": in_parts(orders, answers, watch)}
    last = answers[-1]
    if len(answers) == 1 and last.state in (State.DONE, State.TARGET):
        flash(last.words, "done")
        for told in last.more:
            flash(told, "done")
        for told in last.cautions:
            flash(told, "caution")
        return redirect(url_for("scan.page", mode=orders.mode, to=last.to or orders.to))
    status = CONFLICT if last.state in NOT_DONE else 200
    return scanner(orders, answers, lines), status


def in_parts(orders: Orders, answers: Sequence[Answer], watch: str = "") -> dict[str, Any] | None:
    """Return answers for the page's script: how to sound, what to show, what to count."""
    if not answers:
        return None
    html = render_template("scan/answers.html", orders=orders, answers=answers, watch=watch)
    last = answers[-1]
    return {
        "state": str(last.state),
        "html": html,
        "to": last.to,
        "title": Orders(orders.mode, last.to).title,
        "counted": [
            {"number": one.number, "words": one.words, "unit": one.unit}
            for one in answers
            if one.state is State.COUNTED
        ],
    }
