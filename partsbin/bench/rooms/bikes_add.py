"""A bike that comes in, and what is known of it put right."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from flask import flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber, grouped
from partsbin.bench.shop import record
from partsbin.bench.telling import plainly
from partsbin.errors import PartsbinError, UsageError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from partsbin.stock.bikes import NewBike

UNPROCESSABLE = 422
STYLES = ("mtb", "road", "touring", "hybrid", "city", "bmx", "folding", "kids")


def day_of(text: str) -> dt.date | None:
    """Return the day of a date field, None if it is empty. Raises `UsageError`."""
    try:
        return dt.date.fromisoformat(text.strip()) if text.strip() else None
    except ValueError:
        raise UsageError(f"{text.strip()!r} is no day; type it like 2026-03-31") from None


def blank() -> ResponseReturnValue:
    """Show the form of a new bike."""
    return _form({})


def _form(typed: Mapping[str, str], refused: str = "") -> str:
    from partsbin.kinds.eras import names, template

    eras = [(name, template(name).title) for name in names()]
    return render_template("bikes/add.html", typed=typed, refused=refused, eras=eras, styles=STYLES)


def added() -> ResponseReturnValue:
    """Put the bike with its frame into the record; a refused form is shown again as it was."""
    from partsbin.workshop.assignments import split
    from partsbin.workshop.buying import buy_bike

    try:
        new = _new(request.form)
        frame = split(request.form.get("frame", "").replace("\n", "; "))
        with record().changing("bike add") as session:
            number, filled = buy_bike(session, new, frame, request.form.get("like", ""))
    except PartsbinError as fault:
        return _form(request.form, plainly(fault)), UNPROCESSABLE
    flash(f"{new.name} is {grouped(number)}", "done")
    if filled:
        flash(f"its frame: {filled}", "done")
    if not new.serial_checked:
        told = "look its frame number up in a register of stolen bikes before any work on it"
        flash(told, "caution")
    return redirect(url_for("bikes.bike", number=number))


def _new(form: Mapping[str, str]) -> NewBike:
    from partsbin.stock.bikes import NewBike
    from partsbin.stock.money import read_money

    return NewBike(
        name=form.get("name", ""),
        style=form.get("style", "").strip(),
        price=read_money(form.get("price", "").strip() or "0"),
        bought_on=day_of(form.get("bought", "")),
        seller_note=form.get("seller_note", "").strip(),
        serial_number=form.get("serial", "").strip(),
        serial_checked=form.get("serial_checked") == "yes",
        note=form.get("note", "").strip(),
    )


def filled(number: LabelNumber) -> ResponseReturnValue:
    """Show what is known of a bike, to be put right."""
    from partsbin.stock.bikes import bike_named

    with record().reading() as session:
        bike = bike_named(session, number)
    typed: dict[str, Any] = {
        "name": bike.name,
        "style": bike.style,
        "bought": bike.bought_on.isoformat() if bike.bought_on else "",
        "seller_note": bike.seller_note,
        "serial": bike.serial_number,
        "serial_checked": "yes" if bike.serial_checked else "",
        "note": bike.note,
    }
    return _edit_form(number, bike.name, typed)


def _edit_form(number: LabelNumber, name: str, typed: Mapping[str, str], refused: str = "") -> str:
    return render_template(
        "bikes/edit.html", number=number, name=name, typed=typed, refused=refused, styles=STYLES
    )


def edited(number: LabelNumber) -> ResponseReturnValue:
    """Change what is known of a bike."""
    from partsbin.workshop.buying import correct_bike

    form = request.form
    try:
        changed = {
            "style": form.get("style", "").strip(),
            "bought_on": day_of(form.get("bought", "")),
            "seller_note": form.get("seller_note", "").strip(),
            "serial_number": form.get("serial", "").strip(),
            "serial_checked": form.get("serial_checked") == "yes",
            "note": form.get("note", "").strip(),
        }
        with record().changing("bike edit") as session:
            bike = correct_bike(session, number, form.get("name", ""), changed)
    except PartsbinError as fault:
        return _edit_form(number, form.get("name", ""), form, plainly(fault)), UNPROCESSABLE
    flash(f"{bike.name}: kept", "done")
    return redirect(url_for("bikes.bike", number=number))
