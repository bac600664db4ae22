"""`partsbin export`: the workshop as CSV files."""

from __future__ import annotations

from pathlib import Path

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say


@click.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
@click.option("--force", is_flag=True, help="Replace files that are there already.")
@json_option
def export_command(folder: Path, *, force: bool, as_json: bool) -> None:
    """Write the workshop into FOLDER as CSV files that `partsbin import` takes in again.

    They hold the bins, parts, bikes and what is on them, accounts and names, with the numbers of
    their labels, but neither the history nor the photos: `partsbin db backup` keeps those too.

    \b
    Example:
      partsbin export workshop/
      partsbin --db new.db import workshop/
    """
    from partsbin.workshop.exporting import export_folder

    with opened() as database, database.reading() as session:
        counts = export_folder(session, folder, force=force)
    if as_json:
        print_json({"folder": str(folder), **counts})
        return
    for name, count in counts.items():
        click.echo(f"{folder / name}.csv: {count} rows")
    say("the history and the photos are not in these files; partsbin db backup keeps them")
