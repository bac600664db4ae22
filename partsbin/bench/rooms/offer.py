"""What a bike that is for sale is worth, to read where it stands; nothing is written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeVar

from flask import Blueprint, render_template, request, session
from flask.typing import ResponseReturnValue

from partsbin.bench.shop import record
from partsbin.errors import PartsbinError, UsageError
from partsbin.kinds.eras import names, template
from partsbin.kinds.slots import slot_named
from partsbin.stock.money import NOTHING, Money, read_money
from partsbin.workshop.most_to_pay import Terms
from partsbin.workshop.offer_words import (
    discount,
    read_minutes,
    read_profit,
    read_share,
    verdict,
)
from partsbin.workshop.offering import CAUTIONS, FAULTS, Asked, Offering, offering

if TYPE_CHECKING:
    from collections.abc import Mapping

    from partsbin.kinds.eras import Template

T = TypeVar("T")
room = Blueprint("offer", __name__, url_prefix="/offer")

OF_SLOT = "f."
"""What the fields of the slots' faults begin with."""
USUAL = ("fee", "profit", "rate", "hours", "transport", "sure")
"""The answers that are mostly the same as last time; the device's cookie keeps them."""
LAST = "offer"
AT_FIRST = {"fee": "0%", "profit": "30%", "sure": "80%"}
BEST_PIECES = 6
UNPROCESSABLE = 422


@dataclass(slots=True)
class Answers:
    """What was typed of a bike for sale, read field by field; each fault stands at its field."""

    typed: Mapping[str, str]
    faults: dict[str, str] = field(default_factory=dict)

    def read(self, name: str, reader: Callable[[str], T], empty: T) -> T:
        """Return a field as its reader reads it; `empty` where nothing was typed, or a fault is."""
        text = self.typed.get(name, "").strip()
        if not text:
            return empty
        try:
            return reader(text)
        except UsageError as fault:
            self.faults[name] = str(fault)
            return empty

    def question(self, like: str) -> Asked:
        """Return what is asked of the workshop. Look at `faults` afterwards."""
        price = self.read("expect", read_money, NOTHING)
        if not self.typed.get("expect", "").strip():
            self.faults["expect"] = "say what it will sell for, made right"
        share, amount = self.read("profit", read_profit, (read_share("0"), NOTHING))
        minutes = self.read("hours", read_minutes, 0)
        rate = self.read("rate", read_money, NOTHING)
        if minutes and not rate:
            self.faults.setdefault("rate", "say what an hour of work costs")
        sure = Fraction(self.read("sure", read_share, read_share("80")))
        if not sure:
            self.faults["sure"] = "it must be more than 0%"
        terms = Terms(
            price=price,
            fee_share=self.read("fee", read_share, read_share("0")),
            profit_share=share,
            profit=amount,
            labour_minutes=minutes,
            rate=rate,
            transport=self.read("transport", read_money, NOTHING),
        )
        return Asked(
            like=like,
            terms=terms,
            stated=self.read("stated", read_stated, {}),
            faults=faults_seen(self.typed),
            asked=self._asked(),
            sure=sure,
        )

    def _asked(self) -> Money | None:
        return self.read("asked", read_money, None)


def read_stated(text: str) -> dict[str, str]:
    """Return what is stated of each slot, a line each: `chain: links=116; speeds=8`."""
    stated = {}
    for line in filter(str.strip, text.splitlines()):
        slot, sign, told = line.partition(":")
        if not sign:
            raise UsageError(f"{line.strip()!r} names no slot; type it like chain: links=116")
        try:
            stated[slot_named(slot).name] = told.strip()
        except ValueError as fault:
            raise UsageError(str(fault)) from fault
    return stated


def faults_seen(typed: Mapping[str, str]) -> dict[str, str]:
    """Return the faults that were marked, by slot."""
    return {
        name.removeprefix(OF_SLOT): fault
        for name, fault in typed.items()
        if name.startswith(OF_SLOT) and fault in FAULTS
    }


@room.get("/")
def page() -> ResponseReturnValue:
    """Ask what bike it is like, then for the few answers, and show what it is worth."""
    like = request.args.get("like", "")
    if not like:
        return render_template("offer/eras.html", eras=[template(name) for name in names()])
    bike = template(like)
    if "expect" not in request.args:
        return _asking(bike, Answers({**AT_FIRST, **session.get(LAST, {})}))
    answers = Answers(request.args.to_dict())
    question = answers.question(bike.name)
    if answers.faults:
        return _asking(bike, answers), UNPROCESSABLE
    try:
        with record().reading() as reading:
            found = offering(reading, question)
    except PartsbinError as fault:
        return _asking(bike, answers, refused=str(fault)), UNPROCESSABLE
    session.permanent = True
    session[LAST] = {name: answers.typed.get(name, "") for name in USUAL}
    return _asking(bike, answers, found=found)


def _asking(
    bike: Template, answers: Answers, *, found: Offering | None = None, refused: str = ""
) -> str:
    return render_template(
        "offer/page.html",
        bike=bike,
        typed=answers.typed,
        faults=answers.faults,
        seen=faults_seen(answers.typed),
        fault_words=FAULTS,
        refused=refused,
        cautions=CAUTIONS,
        found=found,
        **(_shown(found) if found is not None else {}),
    )


def _shown(found: Offering) -> dict[str, Any]:
    """Return what the page shows of an offer, as the command line tells it."""
    from partsbin.workshop.offer_plot import drawn, svg
    from partsbin.workshop.planning.words import lines
    from partsbin.workshop.surprises import PRIOR

    pieces = sorted((p for p in found.pieces if p.gain), key=lambda piece: -piece.gain)
    plot = svg(list(drawn(found)))
    return {
        "rows": _rows(found),
        "verdict": None if found.asked is None else verdict(found, found.asked),
        "plan": list(lines(found.plan)),
        "gains": pieces,
        "best": pieces[:BEST_PIECES],
        "wanted": [piece for piece in pieces if piece.given is not None],
        "discount": discount(found.turnover),
        "prior": PRIOR,
        "plot": plot.replace(
            "<svg ", '<svg role="img" aria-label="Chance of a loss by the price that you pay" ', 1
        ),
    }


def _rows(found: Offering) -> list[dict[str, Any]]:
    """Return the amounts from the expected price down, each with the share of it for its bar."""
    amounts = found.amounts
    rows = [
        ("expected price", amounts.price, "start"),
        ("fee", -amounts.fee, ""),
        ("profit", -amounts.profit, ""),
        ("parts", -amounts.parts, ""),
        ("labour", -amounts.labour, ""),
        ("transport", -amounts.transport, ""),
        ("most to pay", amounts.most, "sum"),
        (f"surprises, {float(found.sure):.0%} sure", -found.surprises, ""),
        ("cautious", found.cautious, "sum"),
    ]
    if found.asked is not None:
        rows.append(("asked", found.asked, "asked"))
    largest = max(abs(amount) for _, amount, _ in rows) or 1
    return [
        {"name": name, "amount": amount, "role": role, "share": round(100 * abs(amount) / largest)}
        for name, amount, role in rows
        if amount or role
    ]
