"""Add a part: choose its kind, then fill in the form that the kind's attributes make."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from flask import jsonify, redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue

from partsbin.bench.drawing.measure import drawings_of
from partsbin.bench.kind_form import Filled, fields, of_spec, read, taken_for
from partsbin.bench.rooms.stock_search import bin_numbers
from partsbin.bench.shop import record
from partsbin.bench.telling import plainly, tell_done
from partsbin.errors import PartsbinError, UsageError
from partsbin.kinds.catalogue import AREAS, area_of, overview, what_is
from partsbin.kinds.spec import SpecError, kind_named
from partsbin.stock.words import Grade

if TYPE_CHECKING:
    from collections.abc import Mapping

    from partsbin.kinds.kind import Kind
    from partsbin.workshop.intake import Intake

LAST_KINDS = "last-kinds"
"""Where the device's cookie keeps which kinds it added last."""
MOST_LAST = 6
UNPROCESSABLE = 422


def kinds() -> ResponseReturnValue:
    """Show the kinds of part, area by area, those that were added last in front."""
    by_area: dict[str, list[dict[str, Any]]] = {area: [] for area in AREAS}
    for row in overview():
        by_area[row["area"]].append(row)
    return render_template(
        "stock/kinds.html",
        areas=by_area,
        last=session.get(LAST_KINDS, []),
        bin=request.args.get("bin") or None,
    )


def blank(kind: str) -> ResponseReturnValue:
    """Show the form of a kind, empty or filled like the part that `like` names."""
    known = kind_named(kind)
    like = request.args.get("like", "")
    if not like:
        return _form(known, Filled(), {"grade": "good", "bin": request.args.get("bin", "")})
    from partsbin.stock.parts import part_by_number
    from partsbin.stock.specs import spec_of

    with record().reading() as reading:
        part = part_by_number(reading, like)
        spec, grade, origin = spec_of(part.spec.text), str(part.grade), part.origin
    if spec.kind != known.word:
        raise UsageError(f"{like} is a {spec.kind}, not a {known.word}; add one of its own kind")
    told = {"grade": grade, "origin": origin, "bin": request.args.get("bin", "")}
    return _form(known, of_spec(spec), told)


def _form(
    kind: type[Kind],
    filled: Filled,
    told: Mapping[str, str],
    faults: Mapping[str, str] | None = None,
    refused: str = "",
) -> str:
    with record().reading() as reading:
        bins = bin_numbers(reading)
    return render_template(
        "stock/add.html",
        kind=kind,
        what=what_is(kind),
        area=area_of(kind),
        fields=fields(kind),
        filled=filled,
        told=told,
        faults={**filled.faults, **(faults or {})},
        refused=refused,
        drawings=drawings_of(kind.word),
        grades=[grade.value for grade in Grade],
        bin_numbers=bins,
    )


def take_in(kind: str) -> ResponseReturnValue:
    """Take the part into the record; a form with faults is shown again as it was typed."""
    from partsbin.workshop.intake import take_in as take

    known = kind_named(kind)
    filled = read(known, request.form)
    told, faults = _intake(known, filled)
    typed = request.form.to_dict()
    if told is None or filled.spec is None:
        return _form(known, filled, typed, faults), UNPROCESSABLE
    try:
        with record().changing("part add") as changing:
            done = take(changing, told)
    except PartsbinError as fault:
        return _form(known, filled, typed, refused=plainly(fault)), UNPROCESSABLE
    tell_done(done)
    last = [known.word, *(word for word in session.get(LAST_KINDS, []) if word != known.word)]
    session[LAST_KINDS] = last[:MOST_LAST]
    return redirect(
        url_for("stock.part_page", number=done.number, added=request.form.get("bin", "").strip())
    )


def _intake(kind: type[Kind], filled: Filled) -> tuple[Intake | None, dict[str, str]]:
    """Return what is told of the part besides its attributes, or the faults of those fields."""
    from partsbin.stock.conditions import read_grade
    from partsbin.stock.money import NOTHING, read_money
    from partsbin.stock.quantity import read_quantity
    from partsbin.workshop.intake import Intake, unit_of

    form = {name: text.strip() for name, text in request.form.items()}
    faults: dict[str, str] = {}
    grade, cost, value = Grade.GOOD, NOTHING, None
    if not form.get("bin"):
        faults["bin"] = "say into which bin it goes"
    try:
        grade = read_grade(form.get("grade") or grade)
    except UsageError as fault:
        faults["grade"] = str(fault)
    for name in ("cost", "value"):
        try:
            amount = read_money(form[name]) if form.get(name) else None
        except UsageError as fault:
            faults[name] = str(fault)
        else:
            cost, value = (amount or NOTHING, value) if name == "cost" else (cost, amount)
    if quantity := form.get("quantity", ""):
        try:
            read_quantity(quantity, unit_of(kind.word, quantity))
        except UsageError as fault:
            faults["quantity"] = str(fault)
    if faults or filled.faults:
        return None, faults
    told = Intake(
        kind=kind.word,
        attributes=filled.assignments,
        bin=form["bin"],
        grade=grade,
        quantity=quantity,
        cost=cost,
        value=value,
        origin=form.get("origin", ""),
        note=form.get("note", ""),
        inspected=form.get("inspected") == "yes",
        named=form.get("named", ""),
    )
    return told, faults


def reading(kind: str) -> ResponseReturnValue:
    """Answer what a typed value is taken for, or why it is none, while the form is filled in."""
    known = kind_named(kind)
    name, text = request.args.get("name", ""), request.args.get("value", "")
    if not text.strip():
        return jsonify(shown="")
    try:
        return jsonify(shown=taken_for(known, name, text))
    except SpecError as fault:
        return jsonify(fault=fault.reason)
