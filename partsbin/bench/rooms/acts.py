"""What every room may do: go to what a number names, and take the last act back."""

from __future__ import annotations

from flask import Blueprint, flash, redirect, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber, Thing, thing_of
from partsbin.bench.shop import record, wants_json
from partsbin.bench.telling import back_to

room = Blueprint("acts", __name__)
PAGES = {
    Thing.BIN: "stock.bin_page",
    Thing.PART: "stock.part_page",
    Thing.LOT: "stock.part_page",
    Thing.BIKE: "bikes.bike",
}


@room.get("/")
def start() -> ResponseReturnValue:
    """Begin where the day's work is: at the scanner."""
    return redirect(url_for("scan.page"))


@room.get("/n/<label:number>")
def number(number: LabelNumber) -> ResponseReturnValue:
    """Go to the page of what a label number names."""
    return redirect(url_for(PAGES[thing_of(number)], number=number))


@room.post("/undo")
def undo() -> ResponseReturnValue:
    """Take back the last act of who asks, and say what that was."""
    from partsbin.workshop.undoing import undo as undo_last

    with record().changing("undo") as session:
        undone = undo_last(session)
    told = f"taken back: {undone.what}"
    if wants_json():
        return {"done": told}
    flash(told, "done")
    return redirect(back_to("scan.page"))
