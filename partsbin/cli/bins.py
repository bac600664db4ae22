"""`partsbin bin`: the bins and what is in them."""

from __future__ import annotations

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, say


@click.group()
def bin_command() -> None:
    """Add, list and show bins.

    \b
    Example:
      partsbin bin add A1 --note shifters
      partsbin bin list
      partsbin bin show A1
    """


@bin_command.command("add")
@click.argument("name")
@click.option("--note", default="", help="What goes into it.")
@click.option("--location", default="", help="Where it stands.")
@json_option
def add(name: str, note: str, location: str, *, as_json: bool) -> None:
    """Add a bin called NAME; it gets the next label number.

    \b
    Example:
      partsbin bin add A1 --note shifters --location "shelf A, left"
    """
    from labels.number import grouped
    from partsbin.stock.places import add_bin

    with opened() as database, database.changing("bin add") as session:
        place = add_bin(session, name, note, location)
    assert place.number is not None
    if as_json:
        print_json({"bin": place.name, "number": place.number})
        return
    click.echo(f"bin {place.name} is {grouped(place.number)}")
    say(f"next: partsbin label {place.name} -o bin.pdf")


@bin_command.command("list")
@json_option
def list_(*, as_json: bool) -> None:
    """List all bins with how much is in them and what it cost.

    \b
    Example:
      partsbin bin list
    """
    from labels.number import grouped
    from partsbin.cli.telling import bin_as_data
    from partsbin.stock.money import show_money
    from partsbin.stock.places import list_bins

    with opened() as database, database.reading() as session:
        bins = list_bins(session)
    if as_json:
        print_json([bin_as_data(held) for held in bins])
        return
    print_columns(
        ("bin", "number", "parts", "cost", "note", "where it stands"),
        [
            (b.name, grouped(b.number), str(b.parts), show_money(b.cost), b.note, b.location)
            for b in bins
        ],
    )


@bin_command.command("show")
@click.argument("name")
@json_option
def show(name: str, *, as_json: bool) -> None:
    """Show what is in the bin of that NAME or number.

    \b
    Example:
      partsbin bin show A1
    """
    from labels.number import grouped
    from partsbin.cli.telling import print_stocked, stocked_as_data
    from partsbin.stock.ids import PlaceId
    from partsbin.stock.lookup import contents
    from partsbin.stock.places import bin_named

    with opened() as database, database.reading() as session:
        place = bin_named(session, name)
        parts = contents(session, PlaceId(place.id))
    assert place.number is not None
    if as_json:
        held = {"bin": place.name, "number": place.number, "note": place.note}
        print_json({**held, "parts": [stocked_as_data(part) for part in parts]})
        return
    click.echo(f"bin {place.name}, {grouped(place.number)}: {place.note}".rstrip(": "))
    if parts:
        print_stocked(parts)
    else:
        say("it is empty")
