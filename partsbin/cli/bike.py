"""`partsbin bike`: bikes, what is on them, and taking them apart."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli import bike_account, bike_edit, bike_presale
from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, print_wrapped, say
from partsbin.cli.strip import strip
from partsbin.cli.types import MONEY

if TYPE_CHECKING:
    from datetime import datetime


@click.group()
def bike_command() -> None:
    """Add, list, show and strip bikes.

    \b
    Example:
      partsbin bike add Teasel --style hybrid --price 30 seat_tube_bore=27.2
      partsbin bike show Teasel
    """


for _command in (
    bike_account.work,
    bike_account.fee,
    bike_account.transport,
    bike_account.expect,
    bike_edit.edit,
    bike_presale.check,
    bike_presale.ready,
    bike_presale.listing,
    strip,
):
    bike_command.add_command(_command)


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
@click.option(
    "--like", default="", metavar="ERA", help="The template it is like; see kinds --eras."
)
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
    like: str,
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
        number, filled = buy_bike(session, new, attributes, like)
    if as_json:
        print_json({"bike": name, "number": number, "filled": filled})
        return
    click.echo(f"bike {name} is {grouped(number)}")
    if filled:
        say(f"its frame: {filled}")
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
    from partsbin.workshop.buying import provenance
    from partsbin.workshop.mounting import needs
    from partsbin.workshop.photos import photos_of

    with opened() as database, database.reading() as session:
        bike = bike_named(session, name)
        on_bike = mounted(session, BikeId(bike.id))
        photos = photos_of(session, bike.number)
    wanted = needs(on_bike)
    if as_json:
        held = {"bike": bike.name, "number": bike.number, "state": str(bike.state)}
        needed = [{"slot": slot.name, "why": why} for slot, why in wanted]
        parts = {"parts": [mounted_as_data(p) for p in on_bike], "needs": needed}
        shown = {"provenance": provenance(bike), "photos": [p.digest for p in photos]}
        print_json({**held, **parts, **shown})
        return
    checked = "checked" if bike.serial_checked else "not checked"
    click.echo(f"{bike.name}, {grouped(bike.number)}: {bike.style}, {bike.state}")
    click.echo(f"frame number {bike.serial_number or 'not recorded'}, {checked} in a register")
    if bike.seller_note or bike.bought_on:
        print_wrapped(f"bought {bike.bought_on or ''}: {bike.seller_note or 'no note'}")
    if photos:
        click.echo(f"{len(photos)} photos: partsbin photo list {bike.number}")
    rows = [
        (p.slot or "loose", grouped(p.number), str(p.condition), p.spec.brief + _note(p.note))
        for p in on_bike
    ]
    rows += [(slot.name, "", "empty", "") for slot, why in wanted if why == "empty"]
    print_columns(("slot", "number", "condition", "what"), rows)


def _note(note: str) -> str:
    return f" ({note})" if note else ""
