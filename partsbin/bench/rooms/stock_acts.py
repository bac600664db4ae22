"""What is done with one part from its page: moved, inspected, mounted, scrapped."""

from __future__ import annotations

from flask import redirect, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.rooms.stock_part import shown
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal, plainly, tell_done
from partsbin.errors import PartsbinError

CONFLICT = 409


def move(number: LabelNumber) -> ResponseReturnValue:
    """Move a part, or so much of a lot, into a bin; with its inspection, out of quarantine."""
    from partsbin.workshop.intake import put

    form = request.form
    try:
        with record().changing("part move") as session:
            done = put(
                session,
                number,
                form.get("bin", "").strip(),
                form.get("quantity", ""),
                inspected=form.get("inspected") == "yes",
            )
    except PartsbinError as fault:
        return shown(number, Refusal("move", plainly(fault))), CONFLICT
    tell_done(done)
    return redirect(url_for("stock.part_page", number=number))


def mount(number: LabelNumber) -> ResponseReturnValue:
    """Put a part onto a bike; what clashes is asked about, and goes with a second press."""
    from partsbin.workshop.mounting import mount as mount_part

    form = request.form
    anyway = form.get("anyway") == "yes"
    try:
        with record().changing("mount") as session:
            done = mount_part(
                session, number, form.get("bike", ""), form.get("slot", ""), anyway=anyway
            )
    except PartsbinError as fault:
        overruled = "--anyway" in str(fault)
        return shown(number, Refusal("mount", plainly(fault), anyway=overruled)), CONFLICT
    tell_done(done)
    return redirect(url_for("stock.part_page", number=number))


def scrap(number: LabelNumber) -> ResponseReturnValue:
    """Scrap a part, or so much of a lot, and write its cost off."""
    from partsbin.workshop.intake import scrap as scrap_part

    form = request.form
    try:
        with record().changing("part scrap", form.get("reason", "").strip()) as session:
            done = scrap_part(session, number, form.get("quantity", ""))
    except PartsbinError as fault:
        return shown(number, Refusal("scrap", plainly(fault))), CONFLICT
    tell_done(done)
    return redirect(url_for("stock.part_page", number=number))
