"""`partsbin bike edit`: what is known of a bike, where it came from, and its serial number."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json

if TYPE_CHECKING:
    from datetime import datetime


@click.command("edit")
@click.argument("name")
@click.option("--name", "new_name", help="What it is called from now on.")
@click.option("--style", help="What kind of bike it is.")
@click.option("--bought", type=click.DateTime(["%Y-%m-%d"]), help="When it was bought.")
@click.option("--seller-note", help="Where it came from: who sold it, and what was said.")
@click.option("--serial", help="The number on its frame.")
@click.option(
    "--serial-checked/--serial-not-checked",
    default=None,
    help="Whether it was looked up in a register of stolen bikes.",
)
@click.option("--note")
@json_option
def edit(
    name: str,
    new_name: str | None,
    style: str | None,
    bought: datetime | None,
    seller_note: str | None,
    serial: str | None,
    note: str | None,
    *,
    serial_checked: bool | None,
    as_json: bool,
) -> None:
    """Change what is known of the bike of that NAME or number; what is not given stays.

    \b
    Example:
      partsbin bike edit Teasel --serial W1234567 --serial-checked
    """
    from partsbin.workshop.buying import correct_bike, provenance

    changed = {
        "style": style,
        "bought_on": bought.date() if bought else None,
        "seller_note": seller_note,
        "serial_number": serial,
        "serial_checked": serial_checked,
        "note": note,
    }
    with opened() as database, database.changing("bike edit") as session:
        bike = correct_bike(session, name, new_name, changed)
        shown = provenance(bike)
    if as_json:
        print_json({"bike": bike.name, "number": bike.number, **shown})
        return
    click.echo(f"{bike.name}:")
    for what, told in shown.items():
        click.echo(f"  {what.replace('_', ' ')}: {told}")
