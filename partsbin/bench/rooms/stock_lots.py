"""What is done with a lot from its page: more is bought, some is used, its cost is reckoned."""

from __future__ import annotations

from flask import flash, redirect, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.rooms.stock_acts import CONFLICT
from partsbin.bench.rooms.stock_part import shown
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal, plainly, tell_done
from partsbin.errors import PartsbinError, UsageError

LONGEST_COUNT = 6
"""Digits of a number of packs; more is a slip of the finger."""


def buy_more(number: LabelNumber) -> ResponseReturnValue:
    """Put more of a lot into its bin, by quantity or in packs."""
    from partsbin.stock.money import read_money
    from partsbin.workshop.lots import buy_more as buy

    form = request.form
    try:
        with record().changing("lot add") as session:
            done = buy(
                session,
                number,
                read_money(form.get("cost", "").strip() or "0"),
                quantity=form.get("quantity", "").strip(),
                packs=_packs(form.get("packs", "").strip()),
                bin_name=form.get("bin", "").strip(),
            )
    except PartsbinError as fault:
        return shown(number, Refusal("buy", plainly(fault))), CONFLICT
    tell_done(done)
    return redirect(url_for("stock.part_page", number=number))


def _packs(text: str) -> int | None:
    """Return a number of packs, None if none was typed. Raises `UsageError` for what is none."""
    if not text:
        return None
    if not text.isdecimal() or len(text) > LONGEST_COUNT:
        raise UsageError(f"{text[:LONGEST_COUNT]!r} is no number of packs; give 1 or more")
    return int(text)


def use(number: LabelNumber) -> ResponseReturnValue:
    """Take some of a lot onto a bike, or write it off as consumed."""
    from partsbin.workshop.lots import use as use_some

    form = request.form
    reason = form.get("reason", "").strip()
    try:
        with record().changing("use", reason or "consumed") as session:
            done = use_some(
                session,
                number,
                form.get("quantity", ""),
                form.get("bike", ""),
                form.get("bin", "").strip(),
            )
    except PartsbinError as fault:
        return shown(number, Refusal("use", plainly(fault))), CONFLICT
    tell_done(done)
    return redirect(url_for("stock.part_page", number=number))


def formula(number: LabelNumber) -> ResponseReturnValue:
    """Choose how the cost of what leaves lots of this kind is found."""
    from partsbin.stock.count_tables import CostFormula
    from partsbin.stock.parts import part_by_number
    from partsbin.workshop.lots import set_formula

    word = request.form.get("formula", "")
    if word not in set(CostFormula):
        raise UsageError(f"{word!r} is no cost formula; choose one of the list")
    with record().changing("lot formula", word) as session:
        kind = part_by_number(session, number).spec.kind
        set_formula(session, kind, CostFormula(word))
    flash(f"lots of this kind: cost by {word}", "done")
    return redirect(url_for("stock.part_page", number=number))
