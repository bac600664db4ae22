"""`partsbin offer`: what a bike that is for sale is worth, to read where it stands."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING, Any, TypeVar

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json
from partsbin.cli.types import FOR_SLOT, MONEY
from partsbin.errors import UsageError

if TYPE_CHECKING:
    from partsbin.workshop.offering import Offering

T = TypeVar("T")
WIDE = 80
NAMES, FIGURES = 26, 9
"""Columns of a table of amounts."""
HIGH = 39
"""Lines of the whole answer; those of the plan that find no room are told by --json."""


@click.command()
@click.argument("stated", nargs=-1, type=FOR_SLOT, metavar="[SLOT=ATTRIBUTES]...")
@click.option(
    "--like", required=True, metavar="ERA", help="The era template that it is like, or words of it."
)
@click.option("--expect", type=MONEY, required=True, help="What it will sell for, made right.")
@click.option("--asked", type=MONEY, help="What the seller asks.")
@click.option(
    "--fault", multiple=True, type=FOR_SLOT, help="A fault seen, like 'rear shifter=dead'."
)
@click.option("--profit", default="0", help="Wanted profit: a share like 30%, or an amount.")
@click.option("--fee", default="0%", metavar="SHARE", help="What selling takes, like 10%.")
@click.option("--rate", type=MONEY, default=0, help="What an hour of your work costs.")
@click.option("--hours", default="0", help="Hours of work to make it right.")
@click.option("--transport", type=MONEY, default=0, help="What bringing it home costs.")
@click.option(
    "--sure", default="80%", metavar="SHARE", help="In how many bikes surprises are covered."
)
@click.option("--plot", type=click.Path(path_type=Path), help="Write a plot: FILE.svg or FILE.png.")
@json_option
def offer_command(
    stated: tuple[tuple[str, str], ...],
    like: str,
    expect: int,
    asked: int | None,
    fault: tuple[tuple[str, str], ...],
    profit: str,
    fee: str,
    rate: int,
    hours: str,
    transport: int,
    sure: str,
    plot: Path | None,
    *,
    as_json: bool,
) -> None:
    """Say the most to pay for a bike that is for sale; nothing is written into the record.

    The bike is taken to be as the era template says, but for what you state of its slots and the
    faults that you see: worn, dead or missing. The template is named, or found by its words, as
    "mtb 1992"; `partsbin kinds --eras` lists them.

    A part is worth what it saves the bikes in work or what ones like it are valued at in the
    record, whichever is more, less the fee and the work to take it off. One that no open need
    takes may lie for long: it counts at the share of the last 1,000 parts on record that were used
    or sold within a year of coming into a bin, with a prior of 10 in 20. Surprises are what
    finished bikes of the same style needed beyond what was seen.

    \b
    Example:
      partsbin offer --like hybrid-8-speed-1998-2005 "chain=links=116" --expect 120
        --asked 40 --fault "rear shifter=dead" --profit 30% --fee 10%
        --rate 12 --hours 2.5 --transport 5
    """
    from partsbin.stock.money import Money
    from partsbin.workshop.most_to_pay import Terms
    from partsbin.workshop.offer_words import read_minutes, read_profit, read_share
    from partsbin.workshop.offering import Asked, offering

    profit_share, profit_amount = _read("--profit", read_profit, profit)
    minutes = _read("--hours", read_minutes, hours)
    if minutes and not rate:
        raise click.UsageError("say with --rate what an hour of work costs")
    terms = Terms(
        price=Money(expect),
        fee_share=_read("--fee", read_share, fee),
        profit_share=profit_share,
        profit=profit_amount,
        labour_minutes=minutes,
        rate=Money(rate),
        transport=Money(transport),
    )
    sureness = Fraction(_read("--sure", read_share, sure))
    if not sureness:
        raise click.UsageError("--sure must be more than 0%")
    question = Asked(
        like=like,
        terms=terms,
        stated=dict(stated),
        faults={slot: text.lower() for slot, text in fault},
        asked=None if asked is None else Money(asked),
        sure=sureness,
    )
    with opened() as database, database.reading() as session:
        found = offering(session, question)
    if plot is not None:
        from partsbin.workshop.offer_plot import write_plot

        write_plot(found, plot)
    if as_json:
        print_json(_as_data(found))
        return
    for line in lines(found):
        click.echo(line)


def _read(option: str, read: Callable[[str], T], text: str) -> T:
    """Return what was typed for an option; a fault names it."""
    try:
        return read(text)
    except UsageError as fault:
        raise click.UsageError(f"{option} {fault}") from fault


def lines(found: Offering) -> Iterator[str]:
    """Yield the lines of the answer, none wider than a terminal of 80 columns."""
    from partsbin.workshop.offering import CAUTIONS

    first, last = found.bike.years
    needs = ", ".join(f"{slot} {why}" for slot, why in found.plan.needs) or "nothing"
    head = [
        *_wrapped(f"{found.bike.title}, {first} to {last}; what you did not state is assumed"),
        *_wrapped(f"needs {needs}"),
    ]
    rest = [*_parts(found), *_amounts(found), *_stripped(found), *_careful(found)]
    for caution in CAUTIONS:
        rest += _wrapped(caution, "! ")
    yield from head
    yield from _plan_lines(found, HIGH - len(head) - len(rest))
    yield from rest


def _wrapped(text: str, start: str = "") -> list[str]:
    indent = " " * len(start)
    return wrap(text, WIDE - 1, initial_indent=start, subsequent_indent=indent)


def _cut(text: str) -> str:
    return text if len(text) < WIDE else text[: WIDE - 4].rstrip(" ,") + "..."


def _plan_lines(found: Offering, room: int) -> Iterator[str]:
    from partsbin.workshop.planning.words import lines as plan_lines

    told = [f"  {line.verb}  {line.slot}: {line.what}" for line in plan_lines(found.plan)]
    shown = len(told) if len(told) <= room else max(room - 1, 0)
    yield from map(_cut, told[:shown])
    if len(told) > shown:
        yield f"  and {len(told) - shown} more lines of the plan; --json shows them"


def _parts(found: Offering) -> Iterator[str]:
    from partsbin.stock.money import show_money

    if found.uncounted:
        yield from _wrapped(f"without a price, so not counted: {', '.join(found.uncounted)}", "  ")
    if found.contested:
        yield from _wrapped(f"bikes in work may take first: {', '.join(found.contested)}", "  ")
    proof = "no plan is better" if found.plans.proven else "not proven to be the best plan"
    yield (
        f"  to buy {show_money(found.to_buy)}, from stock {show_money(found.from_stock)}; {proof}"
    )


def _amounts(found: Offering) -> Iterator[str]:
    from partsbin.workshop.offer_words import verdict

    amounts = found.amounts
    rows = [
        ("expected price", amounts.price),
        ("- fee", amounts.fee),
        ("- profit", amounts.profit),
        ("- parts", amounts.parts),
        ("- labour", amounts.labour),
        ("- transport", amounts.transport),
        ("= most to pay", amounts.most),
        (f"- surprises ({float(found.sure):.0%} sure)", found.surprises),
        ("= cautious", found.cautious),
    ]
    if found.asked is not None:
        rows.append(("asked", found.asked))
    yield from bars([(name, amount) for name, amount in rows if amount or name[0] == "="])
    if found.asked is not None:
        yield from _wrapped(verdict(found, found.asked))


def bars(rows: Sequence[tuple[str, int]]) -> Iterator[str]:
    """Yield a line for each amount with a bar as long as it is large, a light one below 0."""
    from partsbin.stock.money import show_money

    plain = "utf" not in (sys.stdout.encoding or "").lower()
    full, light = ("#", "-") if plain else ("\N{FULL BLOCK}", "\N{LIGHT SHADE}")
    largest = max((abs(amount) for _, amount in rows), default=0) or 1
    room = WIDE - 1 - NAMES - FIGURES - 4
    for name, amount in rows:
        bar = (full if amount >= 0 else light) * round(room * abs(amount) / largest)
        yield f"  {name:<{NAMES}}{show_money(amount):>{FIGURES}}  {bar}".rstrip()


def _stripped(found: Offering) -> Iterator[str]:
    from partsbin.stock.money import show_money
    from partsbin.workshop.offer_words import discount

    pieces = sorted((p for p in found.pieces if p.gain), key=lambda p: -p.gain)
    given = [p for p in pieces if p.given is not None]
    work = "less the work" if found.terms.rate else "your time not counted (no --rate)"
    text = (
        f"taken apart: {show_money(found.part_out)} for {len(pieces)} parts, {work}"
        f"; most to pay to strip it: {show_money(found.most_to_strip)}"
    )
    yield from _wrapped(text)
    best = ", ".join(f"{p.slot} {show_money(p.gain)}" for p in pieces[:4])
    if best:
        yield from _wrapped(f"most of it: {best}", "  ")
    if given:
        where = ", ".join(f"{p.slot} for {p.given.bike}" for p in given if p.given)
        yield from _wrapped(f"bikes in work need: {where}", "  ")
    yield from _wrapped(discount(found.turnover), "  ")
    better = "take it apart" if found.strip else "make it right"
    yield f"better: {better}"


def _careful(found: Offering) -> Iterator[str]:
    from partsbin.workshop.surprises import PRIOR

    record = found.record
    yield from _wrapped(
        f"surprises: {record.surprises} slots in {record.bikes} finished {record.style} bikes on "
        f"record, with a prior of {PRIOR.a} in {PRIOR.a + PRIOR.b} for each slot"
    )
    if found.uncosted:
        yield from _wrapped(f"no price, so look twice: {', '.join(found.uncosted)}", "  ")


def _as_data(found: Offering) -> dict[str, Any]:
    from partsbin.cli.worth import given_as_data
    from partsbin.stock.money import show_money
    from partsbin.workshop.offering import CAUTIONS
    from partsbin.workshop.planning.words import as_data
    from partsbin.workshop.surprises import PRIOR
    from partsbin.workshop.turnover import EVEN

    amounts = found.amounts
    names = ("price", "fee", "profit", "parts", "labour", "transport", "most")
    return {
        "like": found.bike.name,
        "plan": as_data(found.plans),
        "contested": list(found.contested),
        "to_buy": show_money(found.to_buy),
        "from_stock": show_money(found.from_stock),
        "not_counted": list(found.uncounted),
        "amounts": {name: show_money(getattr(amounts, name)) for name in names},
        "part_out": {
            "value": show_money(found.part_out),
            "most": show_money(found.most_to_strip),
            "counted_if_unwanted": {
                "share": round(float(found.turnover.share), 4),
                "used_in_a_year": found.turnover.used,
                "of_parts": found.turnover.parts,
                "prior": [str(EVEN.a), str(EVEN.b)],
            },
            "parts": [
                {
                    "slot": piece.slot,
                    "what": str(piece.spec),
                    "for": None if piece.given is None else given_as_data(piece.given),
                    "fetches": show_money(piece.fetch.amount),
                    "basis": piece.fetch.basis,
                    "worth": show_money(piece.worth),
                    "stripping": show_money(piece.stripping),
                    "gain": show_money(piece.gain),
                }
                for piece in found.pieces
            ],
        },
        "better": "strip" if found.strip else "repair",
        "surprises": {
            "sure": float(found.sure),
            "amount": show_money(found.surprises),
            "style": found.record.style,
            "finished_bikes": found.record.bikes,
            "prior": [str(PRIOR.a), str(PRIOR.b)],
            "slots": [
                {
                    "slot": risk.slot,
                    "chance": round(float(risk.chance), 4),
                    "cost": show_money(risk.cost),
                }
                for risk in found.risks
            ],
            "without_a_price": list(found.uncosted),
        },
        "cautious": show_money(found.cautious),
        "asked": None if found.asked is None else show_money(found.asked),
        "below_the_most": None if found.asked is None else found.asked <= amounts.most,
        "chance_of_loss": None
        if found.asked is None
        else round(float(found.chance_of_loss(found.asked)), 4),
        "cautions": list(CAUTIONS),
    }
