"""Change what is known of a part: its attributes, grade, condition, value and note."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from flask import flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.drawing.measure import drawings_of
from partsbin.bench.kind_form import Filled, fields, of_spec, read
from partsbin.bench.shop import record
from partsbin.bench.telling import plainly
from partsbin.errors import PartsbinError, UsageError
from partsbin.fit.condition import sentence
from partsbin.kinds.kind import KINDS
from partsbin.stock.words import Condition, Grade

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.kinds.spec import Spec
    from partsbin.stock.models import Part
    from partsbin.stock.money import Money

UNPROCESSABLE = 422


def filled(number: LabelNumber) -> ResponseReturnValue:
    """Show the form of a part's kind, filled with what is known of it."""
    from partsbin.stock.money import show_money

    with record().reading() as session:
        part, spec = _part(session, number)
    told = {
        "grade": str(part.grade),
        "condition": str(part.condition),
        "value": "" if part.value is None else show_money(part.value),
        "note": part.note,
    }
    return _form(number, spec, of_spec(spec), told)


def _part(session: Session, number: LabelNumber) -> tuple[Part, Spec]:
    from partsbin.stock.parts import part_by_number
    from partsbin.stock.specs import spec_of

    part = part_by_number(session, number)
    return part, spec_of(part.spec.text)


def _form(
    number: LabelNumber,
    spec: Spec,
    held: Filled,
    told: Mapping[str, str],
    faults: Mapping[str, str] | None = None,
    refused: str = "",
) -> str:
    kind = KINDS[spec.kind]
    return render_template(
        "stock/edit.html",
        number=number,
        kind=kind,
        brief=spec.brief,
        fields=fields(kind),
        filled=held,
        told=told,
        faults={**held.faults, **(faults or {})},
        refused=refused,
        drawings=drawings_of(kind.word),
        grades=[grade.value for grade in Grade],
        conditions=[condition.value for condition in Condition],
    )


def correct(number: LabelNumber) -> ResponseReturnValue:
    """Keep what is known of a part now; what was emptied is unknown."""
    from partsbin.workshop.intake import correct as correct_part

    with record().reading() as session:
        _, before = _part(session, number)
    held = read(KINDS[before.kind], request.form)
    changed, faults = _changed()
    typed = request.form.to_dict()
    if held.spec is None or faults:
        return _form(number, before, held, typed, faults), UNPROCESSABLE
    gone = [f"{name}=" for name, _ in before.values if held.spec.get(name) is None]
    try:
        with record().changing("part edit") as session:
            _, grade, signs = correct_part(session, number, [*held.assignments, *gone], **changed)
    except PartsbinError as fault:
        return _form(number, before, held, typed, refused=plainly(fault)), UNPROCESSABLE
    flash(f"kept; its grade is {grade}", "done")
    for sign in signs:
        flash(sentence(sign), "caution")
    return redirect(url_for("stock.part_page", number=number))


def _changed() -> tuple[dict[str, Any], dict[str, str]]:
    """Return what is told besides the attributes, and the faults of those fields."""
    from partsbin.stock.conditions import read_grade
    from partsbin.stock.money import read_money

    form = {name: text.strip() for name, text in request.form.items()}
    faults: dict[str, str] = {}
    value: Money | None = None
    grade: Grade | None = None
    try:
        grade = read_grade(form["grade"]) if form.get("grade") else None
    except UsageError as fault:
        faults["grade"] = str(fault)
    try:
        value = read_money(form["value"]) if form.get("value") else None
    except UsageError as fault:
        faults["value"] = str(fault)
    condition = form.get("condition", "")
    if condition and condition not in set(Condition):
        faults["condition"] = f"{condition!r} is no condition; choose one of the list"
    changed = {
        "grade": grade,
        "condition": Condition(condition) if condition in set(Condition) else None,
        "value": value,
        "note": form.get("note"),
    }
    return changed, faults
