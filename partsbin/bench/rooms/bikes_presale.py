"""The check before a sale, item by item with the rule behind it; and the advertisement."""

from __future__ import annotations

from flask import flash, g, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal, plainly
from partsbin.errors import PartsbinError, UsageError
from partsbin.standards.presale_items import ITEMS, REMINDER

CONFLICT = 409


def presale(number: LabelNumber) -> ResponseReturnValue:
    """Show how the check of a bike stands."""
    return _shown(number)


def _shown(number: LabelNumber, refusal: Refusal | None = None) -> str:
    from partsbin.stock.bikes import bike_named
    from partsbin.workshop.presale import GONE, checklist

    with record().reading() as session:
        bike = bike_named(session, number)
        listed = checklist(session, number)
    return render_template(
        "bikes/presale.html",
        bike=bike,
        listed=listed,
        left=[checked for checked in listed.items if not checked.passed],
        gone=bike.state in GONE,
        reminder=REMINDER,
        refusal=refusal,
        typed=request.form,
        by=request.form.get("by", g.who),
    )


def check(number: LabelNumber) -> ResponseReturnValue:
    """Record what somebody found; an item that was not marked stays as it was."""
    from partsbin.workshop.presale import record_check

    try:
        found = _found()
        with record().changing("bike check") as session:
            listed = record_check(session, number, found, request.form.get("by", ""))
    except PartsbinError as fault:
        return _shown(number, Refusal("check", plainly(fault))), CONFLICT
    passed = sum(checked.passed for checked in listed.items)
    flash(f"recorded: {passed} of {len(listed.items)} items are ok", "done")
    return redirect(url_for("bikes.presale", number=number))


def _found() -> dict[str, tuple[bool, str]]:
    """Return what was marked of each item, read as the command line reads it."""
    from partsbin.workshop.presale import read_results

    typed = []
    for item in ITEMS:
        result = request.form.get(f"{item.word}.result", "")
        if result:
            typed.append(f"{item.word}={result}:{request.form.get(f'{item.word}.note', '')}")
    if not typed:
        raise UsageError("mark what was looked at; nothing was changed")
    return read_results(typed)


def ready(number: LabelNumber) -> ResponseReturnValue:
    """Call a bike ready, if nothing stands in the way."""
    from partsbin.workshop.presale import make_ready

    try:
        with record().changing("bike ready") as session:
            listed = make_ready(session, number)
    except PartsbinError as fault:
        return _shown(number, Refusal("ready", plainly(fault))), CONFLICT
    flash(f"{listed.bike} is ready", "done")
    for caution in listed.cautions:
        flash(caution, "caution")
    return redirect(url_for("bikes.bike", number=number))


def listing(number: LabelNumber) -> ResponseReturnValue:
    """Show the advertisement of a bike, to be edited and copied."""
    from partsbin.stock.bikes import bike_named
    from partsbin.workshop.listing import listing as text_of

    with record().reading() as session:
        bike = bike_named(session, number)
        text = text_of(session, number)
    return render_template("bikes/listing.html", bike=bike, text=text)
