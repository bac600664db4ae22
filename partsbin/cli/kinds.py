"""`partsbin kinds`: the kinds of part, their attributes, and how to measure each."""

from __future__ import annotations

from typing import Any

import click

from partsbin.cli.printing import json_option, print_columns, print_json, print_wrapped

MOST_LISTED = 14
"""Listed sizes that are printed; the JSON has them all."""


@click.command()
@click.argument("kind", required=False)
@json_option
def kinds_command(kind: str | None, *, as_json: bool) -> None:
    """List the kinds of part, or show one KIND: its attributes, units and how to measure them.

    \b
    Example:
      partsbin kinds
      partsbin kinds seatpost
      partsbin kinds rear_derailleur --json
    """
    from partsbin.kinds.catalogue import definition, overview

    if kind is None:
        listed = overview()
        if as_json:
            print_json(listed)
        else:
            rows = [(row["area"], row["kind"], ", ".join(row["first"])) for row in listed]
            print_columns(("area", "kind", "asked for first"), rows)
        return
    shown = definition(kind)
    if as_json:
        print_json(shown)
    else:
        _print(shown)


def _print(kind: dict[str, Any]) -> None:
    click.echo(f"{kind['kind']} ({kind['area']}): {kind['what']}")
    if kind["caution"]:
        print_wrapped(f"caution: {kind['caution']}")
    for look in kind["inspection"]:
        print_wrapped(f"inspect: {look}")
    if kind["free"]:
        click.echo("takes attributes of any name")
    for attribute in kind["attributes"]:
        click.echo(f"\n{attribute['name']}")
        listed = [str(size) for size in attribute["listed"]]
        if attribute["allowed"].startswith(("a length", "a whole")) and listed:
            cut = " ..." if len(listed) > MOST_LISTED else ""
            listing = f"; listed: {', '.join(listed[:MOST_LISTED])}{cut}"
        else:
            listing = ""
        for text in (attribute["allowed"] + listing, f"measure: {attribute['measure']}"):
            print_wrapped(text, 2)
