"""`partsbin import`: CSV files into the record, all of them or nothing."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say


class _OnlyTried(Exception):  # noqa: N818 - nothing went wrong
    """Takes a trial import back."""


@click.command()
@click.argument(
    "paths", nargs=-1, required=True, metavar="FOLDER|FILE...", type=click.Path(path_type=Path)
)
@click.option(
    "--mapping",
    type=click.Path(dir_okay=False, path_type=Path),
    help="A TOML file that says what the columns of your own spreadsheet mean.",
)
@click.option("--dry-run", is_flag=True, help="Only say what would be taken in, or what is wrong.")
@json_option
def import_command(
    paths: tuple[Path, ...], mapping: Path | None, *, dry_run: bool, as_json: bool
) -> None:
    """Take in CSV files: all of them, or nothing with every fault by line and column.

    A FOLDER may hold bins.csv, parts.csv, bikes.csv, mounted.csv and others, as `partsbin export`
    writes them; each column is optional but those that a fault names. A FILE is called like these.

    A spreadsheet of your own, saved as CSV, is taken in with a mapping file such as:

    \b
      make_bins = true
      [columns]
      "What" = "kind"
      "Where" = "bin"
      "Price" = "cost"
      "Size" = "attribute diameter"
      [words.kind]
      "gear lever" = "shifter"
      [defaults]
      grade = "fair"

    Columns that it does not name are kept as notes.

    \b
    Example:
      partsbin import workshop/ --dry-run
      partsbin import shed.csv --mapping shed.toml
    """
    from dataclasses import asdict

    from partsbin.workshop.importing import import_files
    from partsbin.workshop.mapping import read_mapping

    mapped = None if mapping is None else read_mapping(mapping)
    counts: dict[str, int] = {"to_inspect": 0}
    with (
        suppress(_OnlyTried),
        opened() as database,
        _progress(paths) as advance,
        database.changing("import") as session,
    ):
        counts = asdict(import_files(session, paths, mapped, advance))
        if dry_run:
            raise _OnlyTried
    if as_json:
        print_json({"taken_in": not dry_run, **counts})
        return
    to_inspect = counts.pop("to_inspect")
    told = ", ".join(f"{count} in {name}" for name, count in counts.items() if count) or "no rows"
    click.echo(f"{'would take in' if dry_run else 'taken in'}: {told}")
    if mapped and to_inspect:
        say(f"{to_inspect} of them are of kinds that are to be inspected before they are used")
    if dry_run:
        say("nothing was changed; repeat it without --dry-run")


@contextmanager
def _progress(paths: Sequence[Path]) -> Iterator[Callable[[int], None]]:
    """Give what shows the progress on a terminal; elsewhere it shows nothing."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    with click.progressbar(length=_steps(paths), label="taking in", file=sys.stderr) as bar:
        yield bar.update


def _steps(paths: Sequence[Path]) -> int:
    """Return about how many rows there are; each is read, and most are written then."""
    files = [file for path in paths for file in (path.glob("*.csv") if path.is_dir() else [path])]
    return 2 * sum(file.read_bytes().count(b"\n") for file in files if file.is_file())
