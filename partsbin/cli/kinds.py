"""`partsbin kinds`: the kinds of part, their attributes, and how to measure each."""

from __future__ import annotations

from typing import Any

import click

from partsbin.cli.printing import json_option, print_columns, print_json, print_wrapped

MOST_LISTED = 14
"""Listed sizes that are printed; the JSON has them all."""


@click.command()
@click.argument("kind", required=False)
@click.option("--eras", is_flag=True, help="List the templates of bikes that --like names.")
@click.option("--era", default="", help="Show one template: what such a bike likely has.")
@json_option
def kinds_command(kind: str | None, era: str, *, eras: bool, as_json: bool) -> None:
    """List the kinds of part, or show one KIND: its attributes, units and how to measure them.

    \b
    Example:
      partsbin kinds
      partsbin kinds seatpost
      partsbin kinds --eras
      partsbin kinds rear_derailleur --json
    """
    from partsbin.kinds.catalogue import definition, overview

    if eras or era:
        _tell_eras(era, as_json=as_json)
        return
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


def _tell_eras(name: str, *, as_json: bool) -> None:
    """Print one template, or all in a line each."""
    from partsbin.kinds.eras import names, template

    if not name:
        held = [template(known) for known in names()]
        rows = [(era.name, f"{era.years[0]}-{era.years[1]}", era.title) for era in held]
        if as_json:
            print_json([dict(zip(("era", "years", "what"), row, strict=True)) for row in rows])
        else:
            print_columns(("era", "years", "what"), rows)
        return
    era = template(name)
    if as_json:
        parts = [
            {"slot": slot, "kind": part.kind, "likely": [row._asdict() for row in part.rows]}
            for slot, part in era.parts.items()
        ]
        print_json({"era": era.name, "what": era.title, "years": era.years, "parts": parts})
        return
    click.echo(f"{era.name}: {era.title}, {era.years[0]} to {era.years[1]}")
    for slot in era.parts:
        print_wrapped(f"{slot}: {era.assumed(slot)}", 2)


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
