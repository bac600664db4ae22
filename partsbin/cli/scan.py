"""`partsbin scan`: labels read from pictures, a camera or a keyboard scanner, and acted on."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say
from partsbin.errors import PartsbinError

if TYPE_CHECKING:
    from labels.number import LabelNumber
    from labels.reading.look import Reading
    from partsbin.stock.database import Database


@dataclass(frozen=True, slots=True)
class Orders:
    """What to do with each number that is read."""

    onto: str
    into: str
    slot: str
    anyway: bool
    as_json: bool

    @property
    def acts(self) -> bool:
        """Return whether the record is to be changed."""
        return bool(self.onto or self.into)


@click.command()
@click.argument("files", nargs=-1, type=click.Path(), metavar="[PICTURE]...")
@click.option("--camera", type=click.IntRange(0), metavar="N", help="Read from camera N.")
@click.option("--keys", "from_keys", is_flag=True, help="Read lines from a keyboard scanner.")
@click.option("--list", "listing", is_flag=True, help="List the cameras and end.")
@click.option("--onto", default="", metavar="BIKE", help="Mount each part onto this bike.")
@click.option("--into", default="", metavar="BIN", help="Put each part into this bin.")
@click.option("--slot", default="", help="The slot on the bike, where more than one would do.")
@click.option("--anyway", is_flag=True, help="Also mount what clashes.")
@json_option
def scan_command(
    files: tuple[str, ...],
    camera: int | None,
    onto: str,
    into: str,
    slot: str,
    *,
    from_keys: bool,
    listing: bool,
    anyway: bool,
    as_json: bool,
) -> None:
    """Read labels and show what they are, or mount the parts, or put them into a bin.

    PICTURE is a picture or a folder of pictures. A number acts only if its check digits hold, it is
    in the record, and two looks agree.

    \b
    Example:
      partsbin scan drawer.jpg
      partsbin scan --camera 0 --onto Teasel
      partsbin scan --keys --into A1
    """
    if listing:
        _list_cameras(as_json=as_json)
        return
    if bool(files) + (camera is not None) + from_keys != 1:
        raise click.UsageError("give pictures, or --camera N, or --keys")
    if onto and into:
        raise click.UsageError("--onto and --into cannot both be done")
    orders = Orders(onto, into, slot, anyway, as_json)
    with opened() as database, _refusing():
        if from_keys:
            numbers = _from_keys()
        elif files:
            numbers = _from_pictures(files, orders)
        else:
            assert camera is not None
            numbers = _from_camera(camera, database)
        refused = _each(numbers, database, orders)
    if refused:
        raise PartsbinError(f"{refused} of the numbers were refused, as told above")


@contextmanager
def _refusing() -> Iterator[None]:
    from labels.reading.errors import ReadingError

    try:
        yield
    except ReadingError as fault:
        raise PartsbinError(str(fault)) from fault
    except KeyboardInterrupt:
        say("stopped")


def _list_cameras(*, as_json: bool) -> None:
    from labels.reading.sources import list_cameras

    cameras = list_cameras()
    if as_json:
        print_json([{"camera": c.index, "path": str(c.path), "name": c.name} for c in cameras])
    elif not cameras:
        say("no camera is connected")
    else:
        for c in cameras:
            click.echo(f"{c.index}  {c.path}  {c.name}")


def _each(numbers: Iterator[LabelNumber], database: Database, orders: Orders) -> int:
    """Do what is ordered with each number and return how many were refused."""
    refused = count = 0
    told: list[dict[str, Any]] = []
    for number in numbers:
        count += 1
        try:
            told.append(_one(number, database, orders))
        except PartsbinError as fault:
            refused += 1
            say(str(fault))
    if orders.as_json:
        print_json({"read": told})
    if not count:
        raise PartsbinError("no label was read")
    return refused


def _one(number: LabelNumber, database: Database, orders: Orders) -> dict[str, Any]:
    from labels.number import grouped
    from partsbin.cli.telling import done_as_data, tell_done
    from partsbin.workshop.scanning import act_on, look_up

    if orders.acts:
        with database.changing("scan") as session:
            done = act_on(
                session,
                number,
                onto=orders.onto,
                into=orders.into,
                slot=orders.slot,
                anyway=orders.anyway,
            )
        if not orders.as_json:
            tell_done(done)
        return done_as_data(done)
    with database.reading() as session:
        known = look_up(session, number)
    if not orders.as_json:
        click.echo(f"{grouped(number)}  {known.what}; {known.where}")
    return {"number": number, "what": known.what, "where": known.where}


def _from_keys() -> Iterator[LabelNumber]:
    from labels.number import NumberError, validate
    from labels.reading.sources import keys

    for line in keys(sys.stdin):
        try:
            yield validate(line)
        except NumberError as fault:
            say(str(fault))


def _from_pictures(files: tuple[str, ...], orders: Orders) -> Iterator[LabelNumber]:
    """Yield the numbers in some pictures; to act, both symbols or both decoders must agree."""
    from labels.number import grouped
    from labels.reading.reader import Reader
    from labels.reading.sources import pictures

    seen: set[LabelNumber] = set()
    with Reader() as reader, pictures(files) as frames:
        for frame in frames:
            readings = reader.read(frame)
            if not readings:
                say(f"{frame.name}: no label was found")
            for reading in sorted(readings, key=_top_down):
                if reading.number in seen:
                    continue
                if orders.acts and not _agreed(reading):
                    say(f"{grouped(reading.number)} was seen only once; show it again")
                    continue
                seen.add(reading.number)
                yield reading.number


def _agreed(reading: Reading) -> bool:
    return len(reading.symbols) > 1 or len(reading.decoders) > 1


def _top_down(reading: Reading) -> tuple[float, float]:
    left, top = min(reading.corners, key=lambda corner: (corner[1], corner[0]))
    return top, left


def _from_camera(index: int, database: Database) -> Iterator[LabelNumber]:
    """Yield the numbers held before a camera, each once until it leaves the view."""
    from labels.number import grouped
    from labels.reading.acceptance import Acceptance, Act, Ask, Unknown
    from labels.reading.reader import Reader
    from labels.reading.sources import camera
    from partsbin.workshop.scanning import exists

    def known(number: LabelNumber) -> bool:
        with database.reading() as session:
            return exists(session, number)

    acceptance = Acceptance(exists=known)
    with Reader() as reader, camera(index) as frames:
        say("hold a label before the camera; Ctrl-C ends")
        for frame in frames:
            decision = acceptance.frame(reader.read(frame))
            if isinstance(decision, Act):
                _ring()
                yield decision.number
            elif isinstance(decision, Ask):
                shown = ", ".join(map(grouped, decision.numbers))
                say(f"more than one label is in view ({shown}); show one alone")
            elif isinstance(decision, Unknown):
                say(f"{grouped(decision.number)} is not in the record")


def _ring() -> None:
    if sys.stderr.isatty():
        click.echo("\a", nl=False, err=True)
