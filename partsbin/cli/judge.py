"""`partsbin judge`: the verdicts of sets of parts, from a JSON file and without a database."""

from __future__ import annotations

from typing import IO, Any

import click

from partsbin.cli.printing import json_option, print_json, print_wrapped


@click.command()
@click.argument("file", type=click.File("rb"))
@json_option
def judge_command(file: IO[bytes], *, as_json: bool) -> None:
    """Judge the sets of parts in FILE (`-` for standard input), and say why.

    FILE holds one JSON object: {"cases": [{"id": "a", "parts": [{"kind": "seatpost",
    "diameter_mm": 27.2}, {"kind": "frame", "seat_tube_bore_mm": 27.2}]}]}.
    `partsbin kinds` lists the kinds and their attributes.

    \b
    Example:
      partsbin judge cases.json
      partsbin judge --json - < cases.json
    """
    from partsbin.workshop.cases import judge_cases, read_cases

    results = judge_cases(read_cases(file.read()))
    if as_json:
        print_json({"results": results})
        return
    for result in results:
        _print(result)


def _print(result: dict[str, Any]) -> None:
    click.echo(f"{result['id']}: {result['verdict']}")
    for interface in result["interfaces"]:
        click.echo(f"  {interface['interface']}: {interface['verdict']}")
        print_wrapped(interface["why"], 4)
        click.echo(f"    source: {interface['source']}")
    if "why" in result:
        click.echo(f"  {result['why']}")
    if "unchecked" in result:
        click.echo(f"  nothing recorded on either side: {', '.join(result['unchecked'])}")
