"""The bins: all of them, what is in each, which are to be counted, and new ones."""

from __future__ import annotations

import datetime as dt

from flask import flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber, grouped
from partsbin.bench.kept import kept
from partsbin.bench.rooms.stock_search import A_PAGE, MOST, bin_numbers
from partsbin.bench.shop import record
from partsbin.bench.telling import plainly
from partsbin.errors import PartsbinError

BINS = 100
"""Bins that are shown at first, and that each "more" adds."""
UNPROCESSABLE = 422


def all_bins() -> ResponseReturnValue:
    """Show the bins with how much is in each."""
    return _all_bins()


def _all_bins(fault: str = "") -> str:
    from partsbin.stock.places import list_bins

    wanted = request.args.get("q", "").strip()
    most = min(max(request.args.get("most", BINS, int), BINS), MOST)
    with record().reading() as session:
        bins = list_bins(session)
    found = [
        one for one in bins if wanted.lower() in f"{one.name} {one.note} {one.location}".lower()
    ]
    return render_template(
        "stock/bins.html",
        bins=found[:most],
        count=len(found),
        next_most=most + BINS,
        wanted=wanted,
        fault=fault,
        typed=request.form,
    )


def add() -> ResponseReturnValue:
    """Add a bin; it gets the next label number."""
    from partsbin.stock.places import add_bin

    form = {name: text.strip() for name, text in request.form.items()}
    try:
        with record().changing("bin add") as session:
            place = add_bin(
                session, form.get("name", ""), form.get("note", ""), form.get("location", "")
            )
    except PartsbinError as fault:
        return _all_bins(plainly(fault)), UNPROCESSABLE
    assert place.number is not None
    flash(f"bin {place.name} is {grouped(place.number)}", "done")
    return redirect(url_for("stock.bin_page", number=place.number))


def bin_page(number: LabelNumber) -> ResponseReturnValue:
    """Show what is in a bin."""
    from partsbin.stock.ids import PlaceId
    from partsbin.stock.lookup import contents
    from partsbin.stock.places import bin_named

    most = min(max(request.args.get("most", A_PAGE, int), A_PAGE), MOST)
    with record().reading() as session:
        place = bin_named(session, number)
        parts = contents(session, PlaceId(place.id))
        bins = bin_numbers(session)
    return render_template(
        "stock/bin.html",
        place=place,
        parts=parts[:most],
        count=len(parts),
        cost=sum(part.cost for part in parts),
        next_most=most + A_PAGE,
        bin_numbers=bins,
    )


def due() -> ResponseReturnValue:
    """Show which bins are to be counted, the most important first."""
    from partsbin.workshop.counts_due import TARGET_PERCENT, accuracy_of_year, bins_due

    today = dt.datetime.now(dt.UTC).date()
    with record().reading() as session:
        listed = kept(session, bins_due, today)
        accuracy = kept(session, accuracy_of_year, today)
    return render_template(
        "stock/bins_due.html",
        due=listed[:BINS],
        count=len(listed),
        accuracy=accuracy,
        target=TARGET_PERCENT,
    )
