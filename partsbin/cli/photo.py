"""`partsbin photo`: photos of parts and bikes."""

from __future__ import annotations

from pathlib import Path

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json

SHORT = 12
"""Characters of a photo's name that lists show."""
FOLDER = click.option(
    "--photos",
    type=click.Path(file_okay=False, path_type=Path),
    help="Their folder (or set PARTSBIN_PHOTOS); else it is beside the database.",
)


@click.group()
def photo_command() -> None:
    """Keep photos of parts and bikes.

    They are written anew: upright, not larger than needed, and without what the camera noted, such
    as the place. They are kept beside the database and backed up with it.

    \b
    Example:
      partsbin photo add Teasel front.jpg left.jpg
    """


@photo_command.command("add")
@click.argument("thing", metavar="PART|BIKE")
@click.argument(
    "files",
    nargs=-1,
    required=True,
    metavar="FILE...",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
)
@click.option("--note", default="", help="What they show.")
@FOLDER
@json_option
def add(
    thing: str, files: tuple[Path, ...], note: str, photos: Path | None, *, as_json: bool
) -> None:
    """Attach pictures to the part of a number, or the bike of a number or name.

    \b
    Example:
      partsbin photo add 20001420 crack.jpg --note "crack at the clamp"
    """
    from partsbin.workshop.photo_files import folder_of
    from partsbin.workshop.photos import attach

    with opened() as database:
        folder = folder_of(database, photos)
        with database.changing("photo add") as session:
            digests = attach(session, folder, thing, files, note)
    if as_json:
        print_json([{"photo": d, "file": str(folder.file(d))} for d in digests])
        return
    for file, digest in zip(files, digests, strict=True):
        click.echo(f"{file.name}: photo {digest[:SHORT]} of {thing}")


@photo_command.command("list")
@click.argument("thing", metavar="[PART|BIKE]", default="")
@FOLDER
@json_option
def list_(thing: str, photos: Path | None, *, as_json: bool) -> None:
    """List the photos of a part or a bike, or all of them, with their files.

    \b
    Example:
      partsbin photo list Teasel
    """
    from labels.number import grouped
    from partsbin.workshop.photo_files import folder_of
    from partsbin.workshop.photos import photos_of

    with opened() as database, database.reading() as session:
        folder = folder_of(database, photos)
        shown = photos_of(session, thing)
    if as_json:
        print_json(
            [
                {
                    "photo": p.digest,
                    "number": p.number,
                    "bike": p.bike,
                    "width": p.width,
                    "height": p.height,
                    "day": p.day,
                    "who": p.who,
                    "note": p.note,
                    "file": str(folder.file(p.digest)),
                    "thumbnail": str(folder.thumbnail(p.digest)),
                }
                for p in shown
            ]
        )
        return
    print_columns(
        ("photo", "of", "size", "day", "file", "note"),
        [
            (
                p.digest[:SHORT],
                p.bike or grouped(p.number),
                f"{p.width} x {p.height}",
                p.day,
                str(folder.file(p.digest)),
                p.note,
            )
            for p in shown
        ],
    )


@photo_command.command("remove")
@click.argument("thing", metavar="PART|BIKE")
@click.argument("names", nargs=-1, required=True, metavar="PHOTO...")
@FOLDER
@json_option
def remove(thing: str, names: tuple[str, ...], photos: Path | None, *, as_json: bool) -> None:
    """Take photos off a part or a bike; PHOTO is how its name in the list begins.

    \b
    Example:
      partsbin photo remove Teasel 3fb2c1
    """
    from partsbin.workshop.photo_files import folder_of
    from partsbin.workshop.photos import detach

    with opened() as database:
        folder = folder_of(database, photos)
        with database.changing("photo remove") as session:
            digests = detach(session, folder, thing, names)
    if as_json:
        print_json(digests)
        return
    for digest in digests:
        click.echo(f"photo {digest[:SHORT]} is off {thing}")
