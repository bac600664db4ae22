"""`partsbin names`: the user's own list of what is printed on parts."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json
from partsbin.errors import NotFoundError

if TYPE_CHECKING:
    from partsbin.workshop.names import Named


@click.group()
def names_command() -> None:
    """Keep your own list: what is printed on a part, and what it then is.

    The program ships no list. `partsbin part add KIND --named TEXT` uses yours.

    \b
    Example:
      partsbin names import names.csv
      partsbin names find "larkspur rd7"
    """


@names_command.command("import")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@click.option("--only", is_flag=True, help="Forget every name that is not in this file.")
@json_option
def import_(file: Path, *, only: bool, as_json: bool) -> None:
    """Take the names of a CSV FILE into the list: all of them, or nothing with every fault.

    Its columns are printed, kind, attributes and note. A name that is in the list already is
    replaced; one name may stand for parts of several kinds.

    \b
    Example of a file:
      printed,kind,attributes,note
      Larkspur RD7,rear_derailleur,"speeds=7; index_family=ratio-1.7",

    \b
    Example:
      partsbin names import names.csv
    """
    from partsbin.workshop.name_files import import_names

    with opened() as database, database.changing("names import") as session:
        done = import_names(session, file, only=only)
    if as_json:
        counts = {"new": done.new, "changed": done.changed, "same": done.same}
        print_json({**counts, "removed": done.removed})
        return
    gone = f", {done.removed} forgotten" if only else ""
    click.echo(f"{done.new} new names, {done.changed} changed, {done.same} as before{gone}")


@names_command.command("list")
@json_option
def list_(*, as_json: bool) -> None:
    """List all names.

    \b
    Example:
      partsbin names list
    """
    from partsbin.workshop.names import list_names

    with opened() as database, database.reading() as session:
        _tell(list_names(session), as_json=as_json)


@names_command.command("find")
@click.argument("text")
@json_option
def find(text: str, *, as_json: bool) -> None:
    """Say what a part is that shows TEXT; some of its words are enough.

    \b
    Example:
      partsbin names find "larkspur rd7"
    """
    from partsbin.workshop.names import find_names

    with opened() as database, database.reading() as session:
        found = find_names(session, text)
    if not found:
        raise NotFoundError(f"your list of names has no {text!r}; add it with: names import FILE")
    _tell(found, as_json=as_json)


def _tell(entries: Sequence[Named], *, as_json: bool) -> None:
    if as_json:
        print_json(
            [
                {
                    "printed": entry.printed,
                    "kind": entry.spec.kind,
                    "attributes": entry.spec.plain(),
                    "assumed": sorted(entry.spec.assumed),
                    "note": entry.note,
                }
                for entry in entries
            ]
        )
        return
    print_columns(
        ("printed", "what", "note"),
        [(entry.printed, str(entry.spec), entry.note) for entry in entries],
    )
