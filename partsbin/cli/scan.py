"""`partsbin scan`: labels read from pictures, videos, a camera or a keyboard scanner."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_json, say
from partsbin.cli.scanned import Orders, Scanned
from partsbin.errors import PartsbinError

if TYPE_CHECKING:
    from labels.number import LabelNumber
    from labels.reading.acceptance import Acceptance
    from labels.reading.look import Reading
    from labels.reading.reader import Reader
    from labels.reading.sources import Frame

VIDEOS = {".mp4", ".m4v", ".mov", ".avi", ".mkv", ".webm", ".mpg", ".mpeg", ".ogv", ".3gp"}
INTERRUPTED = 130
"""Exit code after Ctrl-C, as shells have it: 128 and the number of the signal."""


@click.command()
@click.argument("files", nargs=-1, type=click.Path(), metavar="[PICTURE|VIDEO|FOLDER]...")
@click.option(
    "--camera", metavar="N|FILE", help="Read from camera N; a video or folder can stand in for it."
)
@click.option("--keys", "from_keys", is_flag=True, help="Read lines from a keyboard scanner.")
@click.option("--list", "listing", is_flag=True, help="List the cameras and end.")
@click.option("--onto", default="", metavar="BIKE", help="Mount each part onto this bike.")
@click.option("--into", default="", metavar="BIN", help="Put each part into this bin.")
@click.option("--slot", default="", help="The slot on the bike, where more than one would do.")
@click.option("--anyway", is_flag=True, help="Also mount what clashes.")
@json_option
def scan_command(
    files: tuple[str, ...],
    camera: str | None,
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

    A number acts only if its check digits hold, it is in the record, and two looks agree: in a
    picture both of its symbols or both decoders, before a camera or in a video also two frames.
    There a number acts once until it has left the view, and of two numbers in view you are asked
    which is meant. On a terminal one bell means done and two mean refused; Ctrl-C ends.

    With --json, pictures give one object; a camera, a video and a keyboard scanner give an object a
    line as they go.

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
    live = from_keys or camera is not None or any(map(_is_video, files))
    orders = Orders(onto, into, slot, anyway)
    with _ending(), opened() as database:
        scanned = Scanned(database, orders, live, as_json)
        if from_keys:
            _read_keys(scanned)
        elif camera is not None:
            _read_camera(camera, scanned)
        else:
            _read_files(files, scanned)
        scanned.finish()


@contextmanager
def _ending() -> Iterator[None]:
    """Word what kept labels from being read; after Ctrl-C end with its exit code."""
    from labels.reading.errors import ReadingError

    try:
        yield
    except ReadingError as fault:
        raise PartsbinError(str(fault)) from fault
    except (KeyboardInterrupt, click.Abort):
        # The terminal has shown ^C and left the cursor behind it.
        say("\nstopped" if sys.stderr.isatty() else "stopped")
        raise click.exceptions.Exit(INTERRUPTED) from None


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


def _is_video(file: str) -> bool:
    return Path(file).suffix.lower() in VIDEOS


def _read_keys(scanned: Scanned) -> None:
    from labels.number import NumberError, validate
    from labels.reading.sources import keys

    for line in keys(sys.stdin):
        try:
            number = validate(line)
        except NumberError as fault:
            scanned.refuse(str(fault))
        else:
            scanned.take(number)


def _read_files(files: Sequence[str], scanned: Scanned) -> None:
    """Read pictures and folders of pictures each by itself, and videos frame after frame."""
    from labels.reading.reader import Reader
    from labels.reading.sources import pictures, video

    seen: set[LabelNumber] = set()
    with Reader() as reader:
        for file in files:
            if _is_video(file):
                with video(file) as frames:
                    _watch(frames, reader, scanned)
                continue
            with pictures([file]) as frames:
                for frame in frames:
                    _read_still(frame, reader, scanned, seen)


def _read_still(frame: Frame, reader: Reader, scanned: Scanned, seen: set[LabelNumber]) -> None:
    """Take the numbers in a picture; to act, both symbols or both decoders must agree."""
    from labels.number import grouped
    from partsbin.workshop.scanning import in_reading_order

    readings = reader.read(frame)
    if not readings:
        say(f"{frame.name}: no label was found")
    for reading in in_reading_order(readings):
        if reading.number in seen:
            continue
        if scanned.orders.acts and not _agreed(reading):
            told = f"{grouped(reading.number)} was seen only once in {frame.name}; take it again"
            scanned.refuse(told, reading.number)
            continue
        seen.add(reading.number)
        scanned.take(reading.number)


def _agreed(reading: Reading) -> bool:
    return len(reading.symbols) > 1 or len(reading.decoders) > 1


def _read_camera(named: str, scanned: Scanned) -> None:
    """Read from the camera of an index, or from a video or folder that stands in for it."""
    from labels.reading.reader import Reader
    from labels.reading.sources import camera, pictures, video

    with Reader() as reader:
        if named.isdecimal():
            with camera(int(named)) as frames:
                say("hold a label before the camera; Ctrl-C ends")
                _watch(_measured(frames), reader, scanned)
        elif _is_video(named):
            with video(named) as frames:
                _watch(frames, reader, scanned)
        else:
            with pictures([named]) as frames:
                _watch((replace(frame, live=True) for frame in frames), reader, scanned)


def _measured(frames: Iterator[Frame]) -> Iterator[Frame]:
    """Give the frames, and say it if they are smaller than was asked for."""
    from labels.reading.camera import HEIGHT, WIDTH

    for count, frame in enumerate(frames):
        high, wide = frame.grey.shape
        if count == 0 and (wide < WIDTH or high < HEIGHT):
            say(f"the camera gives only {wide} x {high} pixels; hold labels nearer")
        yield frame


def _watch(frames: Iterator[Frame], reader: Reader, scanned: Scanned) -> None:
    """Take the numbers that come into view, each once until it leaves."""
    from labels.number import grouped
    from labels.reading.acceptance import Acceptance, Act, Ask, Unknown

    acceptance = Acceptance(exists=scanned.exists)
    for frame in frames:
        decision = acceptance.frame(reader.read(frame))
        if isinstance(decision, Act):
            scanned.take(decision.number)
        elif isinstance(decision, Ask):
            _settle(decision.numbers, acceptance, scanned)
        elif isinstance(decision, Unknown):
            number = decision.number
            scanned.refuse(f"{grouped(number)} is not in the record", number)


def _settle(numbers: Sequence[LabelNumber], acceptance: Acceptance, scanned: Scanned) -> None:
    """Take the number in view that is meant: to look up all of them, to act the one that is named.

    Off a terminal nobody can be asked, so nothing is done until one is shown alone.
    """
    from labels.number import grouped

    if not scanned.orders.acts:
        acceptance.choose(numbers[0])
        for number in numbers:
            scanned.take(number)
    elif _on_terminal():
        chosen = scanned.which(numbers)
        acceptance.choose(chosen or numbers[0])
        if chosen is not None:
            scanned.take(chosen)
    else:
        shown = ", ".join(map(grouped, numbers))
        scanned.refuse(f"more than one label is in view ({shown}); show one alone")


def _on_terminal() -> bool:
    return sys.stdin.isatty() and sys.stderr.isatty()
