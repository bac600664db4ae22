"""`partsbin demo`: the whole job, done for real on an invented workshop."""

from __future__ import annotations

import json
import shlex
import tempfile
from collections.abc import Sequence
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path
from typing import Any

import click

from partsbin.cli.main import main
from partsbin.errors import PartsbinError

DONOR = "Bracken"
PATIENT = "Teasel"
SLOT = "rear shifter"
LABELS_ON_A_SHEET = 24
"""Of the stock that `partsbin label` takes when none is named."""
TO_TRY = (
    ("fit", "Juniper", "rear tyre"),
    ("find", "seatpost", "diameter=26.8..27.4"),
    ("bike", "show", "Yarrow"),
    ("kinds", "rear_derailleur"),
)


@click.command()
@click.option(
    "--folder",
    type=click.Path(file_okay=False, path_type=Path),
    help="Where to build the workshop; a new folder for temporary files without it.",
)
def demo_command(folder: Path | None) -> None:
    """Build an invented workshop in a folder and walk through the whole job on it.

    Each step shows the command that you would type and what it really returned.

    \b
    Example:
      partsbin demo
      partsbin demo --folder /tmp/workshop
    """
    from demo_db.loader import build

    folder = _empty(folder)
    database = folder / "workshop.db"
    built = build(database)
    click.echo(
        f"An invented workshop is in {folder}: {built.bins} bins with {built.parts} parts and "
        f"lots, {built.bikes} bikes with {built.mounted} parts on them."
    )
    _Walk(database, folder).through()


def _empty(folder: Path | None) -> Path:
    if folder is None:
        return Path(tempfile.mkdtemp(prefix="partsbin-demo-"))
    if folder.exists() and any(folder.iterdir()):
        raise PartsbinError(f"{folder} is not empty; name a new folder")
    folder.mkdir(parents=True, exist_ok=True)
    return folder


class _Walk:
    """The walk through the job; every command is run as it is shown."""

    def __init__(self, database: Path, folder: Path) -> None:
        self._database = database
        self._folder = folder
        self._step = 0

    def through(self) -> None:
        """Strip a donor, label and read its parts, find a shifter, mount it, close the books."""
        self._say(f"{PATIENT} came in with a dead rear shifter. What is on it?")
        self._run("bike", "show", PATIENT)
        self._say(f"{DONOR}'s frame is cracked. Take it apart; its price goes with its parts.")
        came = [part["number"] for part in self._ask("bike", "show", DONOR)["parts"]]
        self._run("bike", "strip", DONOR, "--inspected")
        binned = {part["number"] for part in self._ask("find", "--most", "1000")["parts"]}
        self._label_and_read([number for number in came if number in binned])
        self._say(f"Before buying a shifter: what in stock fits {PATIENT}?")
        self._run("fit", PATIENT, SLOT, "--most", "3")
        best = self._ask("fit", PATIENT, SLOT)["suggestions"][0]
        self._say("Take the dead one off, and hold the best one's label before the camera.")
        self._run("unmount", PATIENT, SLOT, "A1", "--grade", "core")
        self._run("label", best["parts"][0]["number"], "-o", self._path("shifter.pdf"))
        self._photograph("shifter.pdf", 1, "shifter.jpg")
        self._run("scan", self._path("shifter.jpg"), "--onto", PATIENT)
        self._say("What has it cost so far, and does everything add up?")
        self._run("books", PATIENT)
        self._run("db", "check")
        self._next()

    def _label_and_read(self, numbers: Sequence[str]) -> None:
        self._say("Print the labels of what came off.")
        self._run("label", *numbers, "-o", self._path("labels.pdf"))
        self._say("Read them back from pictures of the sheets, as a camera sees them.")
        pages = -(-len(numbers) // LABELS_ON_A_SHEET)
        pictures = [f"sheet-{page}.jpg" for page in range(1, pages + 1)]
        for page, picture in enumerate(pictures, start=1):
            self._photograph("labels.pdf", page, picture)
        told = self._run("scan", *map(self._path, pictures))
        read = {line[:9].replace(" ", "") for line in told.splitlines()}
        missed = set(numbers) - read
        if missed:
            raise PartsbinError(f"labels that were not read: {', '.join(sorted(missed))}")
        click.echo(f"\nAll {len(numbers)} labels were read.")

    def _path(self, name: str) -> str:
        return str(self._folder / name)

    def _photograph(self, sheet: str, page: int, picture: str) -> None:
        from demo_db.photograph import photograph

        photograph(self._folder / sheet, self._folder / picture, page)

    def _say(self, text: str) -> None:
        self._step += 1
        click.echo("\n" + click.style(f"{self._step}. {text}", bold=True))

    def _run(self, *words: str) -> str:
        """Run a command as it is shown and return what it printed."""
        click.echo(f"\n$ partsbin {shlex.join(words)}")
        told = self._call(words)
        click.echo(told, nl=False)
        return told

    def _ask(self, *words: str) -> Any:
        """Return what a command tells a script, without showing it."""
        return json.loads(self._call((*words, "--json")))

    def _call(self, words: Sequence[str]) -> str:
        out = StringIO()
        with redirect_stdout(out):
            main(["--db", str(self._database), *words], standalone_mode=False)
        return out.getvalue()

    def _next(self) -> None:
        click.echo("\nThe workshop is yours to try on:")
        click.echo(f"  export PARTSBIN_DB={shlex.quote(str(self._database))}")
        for words in TO_TRY:
            click.echo(f"  partsbin {shlex.join(words)}")
        click.echo(f"The labels and their pictures are in {self._folder}.")
