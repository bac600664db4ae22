"""What single cells of a row mean: a spec, money, a label number."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from labels.number import Thing, thing_of
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec, kind_named
from partsbin.stock.money import NOTHING, Money, read_money
from partsbin.stock.places import read_number
from partsbin.workshop.assignments import read_spec, split

if TYPE_CHECKING:
    from labels.number import LabelNumber
    from partsbin.workshop.csv_files import Row


def read_row_spec(row: Row) -> Spec:
    """Return the spec of a row's kind and attributes, an empty one of any kind after a fault."""
    blank = Spec(next(iter(KINDS)))
    kind = row.read("kind", lambda text: kind_named(text).word, "")
    if not kind:
        return blank
    return row.read(
        "attributes", lambda text: read_spec(kind, split(text)), replace(blank, kind=kind)
    )


def money_of(row: Row, column: str) -> Money:
    """Return the amount in a cell, nothing if it is empty."""
    return row.read(column, read_money, NOTHING)


def signed_money(text: str) -> Money:
    """Return an amount that may be below nothing: it takes an entry back."""
    return Money(-read_money(text[1:])) if text.startswith("-") else read_money(text)


def number_of(row: Row, *things: Thing) -> LabelNumber | None:
    """Return the label number that a row states of one of these things, None without one."""
    return row.read("number", lambda text: read_number(text, *things), None)


def check_thing(row: Row, number: LabelNumber, *, lot: bool, known: bool) -> None:
    """See that a number is that of a lot where there is a quantity, and of a part where not."""
    if lot != (thing_of(number) is Thing.LOT):
        need = "no quantity" if lot else "a quantity"
        row.fault("quantity", f"{number} is the number of a {_name(number)}, which has {need}")
    elif known and not lot:
        row.fault("number", f"{number} is on a line before; a single part is in one place")


def _name(number: LabelNumber) -> str:
    return thing_of(number).name.lower()
