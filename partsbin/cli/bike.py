"""`partsbin bike`: bikes, what is on them, and taking them apart."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, say
from partsbin.cli.types import FOR_SLOT, MONEY

if TYPE_CHECKING:
    from datetime import datetime

    from partsbin.workshop.stripping import Stripped


@click.group()
def bike_command() -> None:
    """Add, list, show and strip bikes.

    \b
    Example:
      partsbin bike add Teasel --style hybrid --price 30 seat_tube_bore=27.2
      partsbin bike show Teasel
    """


@bike_command.command("add")
@click.argument("name")
@click.argument("attributes", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--style", default="", help="What kind of bike it is.")
@click.option("--price", type=MONEY, default="0", help="What it was bought for.")
@click.option("--bought", type=click.DateTime(["%Y-%m-%d"]), help="When.")
@click.option("--seller-note", default="", help="Who sold it, and what was said.")
@click.option("--serial", default="", help="The number on its frame.")
@click.option("--serial-checked", is_flag=True, help="Looked up in a register of stolen bikes.")
@click.option("--note", default="")
@json_option
def add(
    name: str,
    attributes: tuple[str, ...],
    style: str,
    price: int,
    bought: datetime | None,
    seller_note: str,
    serial: str,
    note: str,
    *,
    serial_checked: bool,
    as_json: bool,
) -> None:
    """Add a bike called NAME with its frame; NAME=VALUE are attributes of the frame.

    What else is on it is added with `partsbin part add ... --bike NAME --slot SLOT`.

    \b
    Example:
      partsbin bike add Teasel --style hybrid --price 30 seat_tube_bore=27.2 rear_spacing=135
    """
    from labels.number import grouped
    from partsbin.stock.bikes import NewBike
    from partsbin.stock.money import Money
    from partsbin.workshop.buying import buy_bike

    new = NewBike(
        name=name,
        style=style,
        price=Money(price),
        bought_on=bought.date() if bought else None,
        seller_note=seller_note,
        serial_number=serial,
        serial_checked=serial_checked,
        note=note,
    )
    with opened() as database, database.changing("bike add") as session:
        number = buy_bike(session, new, attributes)
    if as_json:
        print_json({"bike": name, "number": number})
        return
    click.echo(f"bike {name} is {grouped(number)}")
    say(f"next: partsbin part add KIND --bike {name} --slot SLOT")
    if not serial_checked:
        say("look its frame number up in a register of stolen bikes before any work on it")


@bike_command.command("list")
@json_option
def list_(*, as_json: bool) -> None:
    """List the bikes, their state and how many needs each has.

    \b
    Example:
      partsbin bike list
    """
    from labels.number import grouped
    from partsbin.stock.money import show_money
    from partsbin.workshop.buying import overview

    with opened() as database, database.reading() as session:
        bikes = overview(session)
    if as_json:
        print_json(
            [
                {
                    "bike": b.name,
                    "number": b.number,
                    "style": b.style,
                    "state": str(b.state),
                    "price": show_money(b.price),
                    "parts": b.parts,
                    "needs": b.needs,
                }
                for b in bikes
            ]
        )
        return
    print_columns(
        ("bike", "number", "style", "state", "price", "parts", "needs"),
        [
            (
                b.name,
                grouped(b.number),
                b.style,
                str(b.state),
                show_money(b.price),
                str(b.parts),
                str(b.needs),
            )
            for b in bikes
        ],
    )


@bike_command.command("show")
@click.argument("name")
@json_option
def show(name: str, *, as_json: bool) -> None:
    """Show what is on the bike of that NAME or number, slot by slot, and what it needs.

    \b
    Example:
      partsbin bike show Teasel
    """
    from labels.number import grouped
    from partsbin.cli.telling import mounted_as_data
    from partsbin.stock.bikes import bike_named
    from partsbin.stock.ids import BikeId
    from partsbin.stock.lookup import mounted
    from partsbin.workshop.mounting import needs

    with opened() as database, database.reading() as session:
        bike = bike_named(session, name)
        on_bike = mounted(session, BikeId(bike.id))
    wanted = needs(on_bike)
    if as_json:
        held = {"bike": bike.name, "number": bike.number, "state": str(bike.state)}
        needed = [{"slot": slot.name, "why": why} for slot, why in wanted]
        print_json({**held, "parts": [mounted_as_data(p) for p in on_bike], "needs": needed})
        return
    checked = "checked" if bike.serial_checked else "not checked"
    click.echo(f"{bike.name}, {grouped(bike.number)}: {bike.style}, {bike.state}")
    click.echo(f"frame number {bike.serial_number or 'not recorded'}, {checked} in a register")
    rows = [
        (p.slot or "loose", grouped(p.number), str(p.condition), p.spec.brief + _note(p.note))
        for p in on_bike
    ]
    rows += [(slot.name, "", "empty", "") for slot, why in wanted if why == "empty"]
    print_columns(("slot", "number", "condition", "what"), rows)


def _note(note: str) -> str:
    return f" ({note})" if note else ""


@bike_command.command("strip")
@click.argument("name")
@click.option("--into", default="", metavar="BIN", help="One bin for all; else each kind's own.")
@click.option(
    "--split",
    type=click.Choice(["value", "zero", "hand"]),
    default="value",
    show_default=True,
    help="How the price is split: by sales value, not at all, or by --cost.",
)
@click.option("--inspected", is_flag=True, help="The inspections that the kinds need were made.")
@click.option("--grade", "grades", type=FOR_SLOT, multiple=True, help="Grade of what comes off.")
@click.option("--value", "values", type=FOR_SLOT, multiple=True, help="What it would sell for.")
@click.option("--cost", "costs", type=FOR_SLOT, multiple=True, help="Its share, split by hand.")
@click.option("--bin", "bins", type=FOR_SLOT, multiple=True, help="The bin for what comes off.")
@click.option("--keep", multiple=True, metavar="SLOT", help="Leave this on the bike.")
@json_option
def strip(
    name: str,
    into: str,
    split: str,
    grades: tuple[tuple[str, str], ...],
    values: tuple[tuple[str, str], ...],
    costs: tuple[tuple[str, str], ...],
    bins: tuple[tuple[str, str], ...],
    keep: tuple[str, ...],
    *,
    inspected: bool,
    as_json: bool,
) -> None:
    """Take the bike of that NAME apart: its parts go into bins, its price is split over them.

    Dead and unsafe parts are scrapped. Kinds that can hurt someone wait in quarantine unless they
    were inspected; `partsbin kinds KIND` says what to look at.

    \b
    Example:
      partsbin bike strip Bracken --inspected --grade saddle=fair --keep fork
    """
    from partsbin.workshop.stripping import read_orders
    from partsbin.workshop.stripping import strip as strip_bike

    orders = read_orders(
        into=into,
        split=split,
        inspected=inspected,
        grades=dict(grades),
        values=dict(values),
        costs=dict(costs),
        bins=dict(bins),
        keep=keep,
    )
    with opened() as database, database.changing("bike strip") as session:
        stripped = strip_bike(session, name, orders)
    if as_json:
        from partsbin.cli.telling import done_as_data
        from partsbin.stock.money import show_money

        parts = [done_as_data(done) for done in stripped.parts]
        off = show_money(stripped.written_off)
        print_json({"bike": stripped.bike, "parts": parts, "written_off": off})
    else:
        _tell_stripped(stripped)


def _tell_stripped(stripped: Stripped) -> None:
    from labels.number import grouped
    from partsbin.stock.money import show_money

    print_columns(
        ("number", "from", "to", "cost", "what"),
        [
            (
                grouped(done.number),
                done.source.removeprefix(f"{stripped.bike}, "),
                done.target,
                show_money(done.cost),
                done.spec.brief,
            )
            for done in stripped.parts
        ],
    )
    if stripped.written_off:
        click.echo(f"written off: {show_money(stripped.written_off)}")
    if stripped.uninspected:
        say(f"in quarantine until inspected: {', '.join(stripped.uninspected)}")
        say("then: partsbin part move NUMBER BIN --inspected")
