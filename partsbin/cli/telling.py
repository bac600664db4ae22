"""How the commands tell of parts and acts: the same words and the same JSON everywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from labels.number import grouped
from partsbin.cli.printing import print_columns, print_wrapped, say
from partsbin.fit.condition import sentence
from partsbin.fit.words import headline
from partsbin.stock.money import show_money
from partsbin.stock.quantity import show_quantity
from partsbin.stock.titles import words_for

if TYPE_CHECKING:
    from collections.abc import Sequence

    from partsbin.stock.lookup import Mounted, Stocked
    from partsbin.stock.places import Bin
    from partsbin.workshop.counter import PartSold
    from partsbin.workshop.mounting import Done


def done_as_data(done: Done) -> dict[str, Any]:
    """Return what was done to a part as JSON holds it."""
    held: dict[str, Any] = {
        "part": done.number,
        "spec": str(done.spec),
        "from": done.source,
        "to": done.target,
        "cost": show_money(done.cost),
    }
    if done.judgement is not None:
        held["verdict"] = str(done.judgement.verdict)
        held["why"] = headline(done.judgement)
    if done.signs:
        held["signs"] = [sentence(sign) for sign in done.signs]
    return held


def tell_done(done: Done) -> None:
    """Print what was done to a part, and on standard error what to take care of."""
    click.echo(
        f"{grouped(done.number)}  {done.spec.brief}: {done.source} -> {done.target}"
        f" (cost {show_money(done.cost)})"
    )
    if done.judgement is not None:
        print_wrapped(f"{done.judgement.verdict}: {headline(done.judgement)}", 2)
    for sign in done.signs:
        say(f"  {sentence(sign)}")
    if done.judgement is not None and done.caution:
        say(f"  caution: {done.caution}")


def part_sold_as_data(sold: PartSold) -> dict[str, Any]:
    """Return what the sale of a part did as JSON holds it."""
    return {
        **done_as_data(sold.done),
        "amount": show_money(sold.amount),
        "fee": show_money(sold.fee),
        "profit": show_money(sold.profit),
        "overruled": list(sold.overruled),
        "caution": sold.caution,
    }


def tell_part_sold(sold: PartSold) -> None:
    """Print what the sale of a part did, and on standard error what to tell the buyer."""
    tell_done(sold.done)
    fee = f", fee {show_money(sold.fee)}" if sold.fee else ""
    click.echo(f"  for {show_money(sold.amount)}{fee}: profit {show_money(sold.profit)}")
    if sold.overruled:
        say(f"  overruled: it {' and '.join(sold.overruled)}")
    if sold.caution:
        say(f"  caution: {sold.caution}")


def stocked_as_data(part: Stocked) -> dict[str, Any]:
    """Return a part in its place as JSON holds it."""
    return {
        "number": part.number,
        "kind": part.spec.kind,
        "attributes": part.spec.plain(),
        "assumed": sorted(part.spec.assumed),
        "grade": str(part.grade),
        "place": words_for(part.place_type, part.place_name, part.bike),
        "quantity": show_quantity(part.quantity, part.unit),
        "cost": show_money(part.cost),
        "value": None if part.value is None else show_money(part.value),
        "origin": part.origin,
        "note": part.note,
    }


def print_stocked(parts: Sequence[Stocked]) -> None:
    """Print parts in their places, a line each."""
    rows = [
        (
            grouped(part.number),
            words_for(part.place_type, part.place_name, part.bike),
            show_quantity(part.quantity, part.unit) if part.lot else "",
            str(part.grade),
            show_money(part.cost),
            part.spec.brief + (f" ({part.note})" if part.note else ""),
        )
        for part in parts
    ]
    print_columns(("number", "place", "quantity", "grade", "cost", "what"), rows)


def bin_as_data(held: Bin) -> dict[str, Any]:
    """Return a bin and how much is in it as JSON holds it."""
    return {
        "bin": held.name,
        "number": held.number,
        "parts": held.parts,
        "cost": show_money(held.cost),
        "note": held.note,
        "location": held.location,
    }


def mounted_as_data(part: Mounted) -> dict[str, Any]:
    """Return a part on a bike as JSON holds it."""
    return {
        "slot": part.slot,
        "number": part.number,
        "kind": part.spec.kind,
        "attributes": part.spec.plain(),
        "assumed": sorted(part.spec.assumed),
        "grade": str(part.grade),
        "condition": str(part.condition),
        "cost": show_money(part.cost),
        "note": part.note,
    }
