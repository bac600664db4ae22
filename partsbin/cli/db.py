"""`partsbin db`: the database itself."""

from __future__ import annotations

from pathlib import Path

import click

from partsbin.cli.main import Settings
from partsbin.cli.opening import opened
from partsbin.cli.photo import FOLDER
from partsbin.cli.printing import json_option, print_json, say
from partsbin.errors import PartsbinError

BACKUP = click.argument("file", type=click.Path(dir_okay=False, path_type=Path))


@click.group()
def db_command() -> None:
    """Check, back up, restore and upgrade the database.

    \b
    Example:
      partsbin db check
      partsbin db backup friday.backup
    """


@db_command.command("check")
@FOLDER
@json_option
def check(*, photos: Path | None, as_json: bool) -> None:
    """Prove that the record adds up: places, quantities, money, numbers, photos.

    \b
    Example:
      partsbin db check
    """
    from partsbin.stock.check import check as prove
    from partsbin.workshop.photo_files import folder_of
    from partsbin.workshop.photos import digests

    with opened() as database, database.reading() as session:
        faults = [f"{fault.check.replace('_', ' ')}: {fault.text}" for fault in prove(session)]
        kept = digests(session)
        if kept:
            faults += [f"photos are there: {t}" for t in folder_of(database, photos).faults(kept)]
        where = database.where
    if as_json:
        print_json({"database": where, "faults": faults})
    elif not faults:
        click.echo(f"{where}: everything adds up")
    if faults:
        raise PartsbinError("\n".join(faults))


@db_command.command("backup")
@BACKUP
@click.option("--force", is_flag=True, help="Replace the file if it is there already.")
@FOLDER
@json_option
def backup(file: Path, *, force: bool, photos: Path | None, as_json: bool) -> None:
    """Write the database and its photos, as they are now, into one FILE. Others may go on working.

    \b
    Example:
      partsbin db backup friday.backup
    """
    from partsbin.workshop.backups import back_up

    with opened() as database:
        done = back_up(database, file, photos=photos, force=force)
    if as_json:
        held = {"file": str(done.file), "bytes": file.stat().st_size, "photos": done.photos}
        print_json({**held, "missing": done.missing})
    else:
        size = file.stat().st_size / 2**20
        click.echo(f"{done.file}: the database and {done.photos} photos, {size:.1f} MB")
    for told in done.missing:
        say(f"not in the backup: {told}")


@db_command.command("restore")
@BACKUP
@click.option("--force", is_flag=True, help="Replace the database that is there; it is kept aside.")
@FOLDER
@json_option
def restore(file: Path, *, force: bool, photos: Path | None, as_json: bool) -> None:
    """Put back the database and the photos of a FILE that `db backup` wrote.

    The backup is proven whole before anything is changed.

    \b
    Example:
      partsbin db restore friday.backup --force
    """
    from partsbin.stock.address import choose
    from partsbin.workshop.backups import restore as put_back
    from partsbin.workshop.backups import sqlite_file
    from partsbin.workshop.photo_files import beside, named

    settings = click.get_current_context().find_object(Settings) or Settings(None, None)
    target = sqlite_file(choose(settings.db))
    folder = named(photos) or beside(target)
    done = put_back(file, target, folder, force=force)
    if as_json:
        aside = None if done.aside is None else str(done.aside)
        held = {"database": str(target), "schema": done.version, "photos": done.photos}
        print_json({**held, "kept": aside})
        return
    click.echo(f"{target}: restored, with {done.photos} photos")
    if done.aside:
        say(f"what was there before is kept in {done.aside}")


@db_command.command("upgrade")
@json_option
def upgrade(*, as_json: bool) -> None:
    """Bring the database to the newest schema; an SQLite file is copied first.

    Every command does so when it meets an older database; this one does nothing else.

    \b
    Example:
      partsbin db upgrade
    """
    from partsbin.stock.schema import VERSIONS

    with opened() as database:
        before, kept, where = database.upgraded_from, database.kept, database.where
    if as_json:
        told = {"schema": VERSIONS[-1], "before": before, "kept": str(kept) if kept else None}
        print_json({"database": where, **told})
    elif before:
        click.echo(f"{where}: brought from schema {before} to {VERSIONS[-1]}")
    else:
        click.echo(f"{where}: schema {VERSIONS[-1]} is the newest")
