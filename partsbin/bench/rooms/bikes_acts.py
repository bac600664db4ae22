"""What is entered of a bike besides its parts: work, money, and what becomes of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from flask import flash, redirect, request, url_for
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.rooms.bikes_add import day_of
from partsbin.bench.rooms.bikes_page import shown
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal, plainly
from partsbin.errors import PartsbinError
from partsbin.stock.money import NOTHING, Money, read_money, show_money
from partsbin.stock.words import EntryType

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.workshop.selling import Sale

CONFLICT = 409
PAID = (EntryType.FEE, EntryType.TRANSPORT)


def _do(
    number: LabelNumber, what: str, act: Callable[[Session], str], reason: str = ""
) -> ResponseReturnValue:
    """Do an act that returns what to tell; refused, its form is shown again with the refusal."""
    try:
        with record().changing(what, reason) as session:
            told = act(session)
    except PartsbinError as fault:
        refusal = Refusal(what, plainly(fault), anyway="--anyway" in str(fault))
        return shown(number, refusal), CONFLICT
    flash(told, "done")
    return redirect(url_for("bikes.bike", number=number))


def _text(name: str) -> str:
    return request.form.get(name, "").strip()


def _amount(name: str) -> Money | None:
    """Return the amount of a field, None if it is empty."""
    return read_money(_text(name)) if _text(name) else None


def work(number: LabelNumber) -> ResponseReturnValue:
    """Enter time of work on a bike."""
    from partsbin.workshop.selling import read_minutes
    from partsbin.workshop.selling import work as enter

    def act(session: Session) -> str:
        minutes = read_minutes(_text("time"))
        rate, day = _amount("rate"), day_of(_text("day"))
        entry = enter(session, number, minutes, rate, day, _text("note"))
        hourly, cost = show_money(entry.rate or 0), show_money(entry.amount)
        return f"{minutes} minutes at {hourly} an hour, {cost}"

    return _do(number, "bike work", act, _text("note"))


def pay(number: LabelNumber) -> ResponseReturnValue:
    """Enter a fee or transport that was paid for a bike."""
    from partsbin.workshop.selling import pay as enter

    type_ = EntryType.TRANSPORT if _text("type") == "transport" else EntryType.FEE

    def act(session: Session) -> str:
        entry = enter(
            session, number, type_, read_money(_text("amount")), day_of(_text("day")), _text("note")
        )
        return f"{type_} {show_money(entry.amount)}"

    return _do(number, f"bike {type_}", act, _text("note"))


def expect(number: LabelNumber) -> ResponseReturnValue:
    """Record what a bike should sell for."""
    from partsbin.workshop.selling import expect as enter

    def act(session: Session) -> str:
        price, left = read_money(_text("price")), _amount("to_complete") or NOTHING
        enter(session, number, price, left)
        more = f", with {show_money(left)} still to spend" if left else ""
        return f"expected to sell for {show_money(price)}{more}"

    return _do(number, "bike expect", act)


def sell(number: LabelNumber) -> ResponseReturnValue:
    """Sell a bike; one that is not ready only with a reason, which is kept."""
    from partsbin.workshop.selling import sell as sell_bike

    def act(session: Session) -> str:
        sale = sell_bike(
            session,
            number,
            read_money(_text("price")),
            fee=_amount("fee") or NOTHING,
            day=day_of(_text("day")),
            note=_text("note"),
            anyway=_text("anyway"),
        )
        if sale.overruled:
            flash(f"overruled: {'; '.join(sale.overruled)}", "caution")
        return _sale(sale, "sold")

    return _do(number, "sell", act, _text("anyway"))


def take_back(number: LabelNumber) -> ResponseReturnValue:
    """Take the sale of a bike back; every check before a sale must then be made again."""
    from partsbin.workshop.selling import take_back as take

    def act(session: Session) -> str:
        sale = take(
            session,
            number,
            refund=_amount("refund"),
            fee_back=_amount("fee_back") or NOTHING,
            day=day_of(_text("day")),
            note=_text("note"),
        )
        return _sale(sale, "returned")

    return _do(number, "return", act, _text("note"))


def keep(number: LabelNumber) -> ResponseReturnValue:
    """Take a bike into the workshop's own fleet at what it cost."""
    from partsbin.workshop.books import account
    from partsbin.workshop.selling import keep as keep_bike

    def act(session: Session) -> str:
        kept = keep_bike(session, number)
        return f"{kept.name} is kept, at a cost of {show_money(account(session, kept).cost)}"

    return _do(number, "keep", act)


def _sale(sale: Sale, word: str) -> str:
    fee = f", fee {show_money(sale.fee)}" if sale.fee else ""
    return (
        f"{sale.bike} {word} for {show_money(abs(sale.amount))}{fee}: "
        f"{sale.parts} parts that cost {show_money(sale.cost)}"
    )
