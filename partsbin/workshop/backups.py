"""A backup: one archive file with the database and its photos, as they are at one moment.

It is a ZIP file with a list of what it holds and the SHA-256 of each. A plain copy of the
database, as an upgrade leaves one, is restored just as well.
"""

from __future__ import annotations

import json
import os
import tempfile
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from partsbin.errors import PartsbinError
from partsbin.stock.copies import (
    copy_database,
    keep_aside,
    move_aside,
    photo_digests,
    prove_sound,
)
from partsbin.stock.errors import UNCHANGED, RefusedError
from partsbin.workshop.photo_files import (
    DIGEST,
    PhotoFolder,
    digest_of,
    file_digest,
    folder_of,
    write_durably,
)
from partsbin.workshop.pictures import thumbnail_of

if TYPE_CHECKING:
    from sqlalchemy import URL

    from partsbin.stock.database import Database

FORMAT = 1
LIST = "backup.json"
DATABASE = "workshop.db"
PHOTOS = "photos/"
PLAIN = b"SQLite format 3\0"
AT_ONCE = 2**20


class NoBackupError(PartsbinError):
    """A file that cannot be restored."""


@dataclass(frozen=True, slots=True)
class BackedUp:
    """What a backup holds."""

    file: Path
    photos: int
    missing: list[str]
    """What is wrong with photos that could not be put in."""


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restore did."""

    version: str
    """The schema of the database; the next command brings it up to date."""
    photos: int
    aside: Path | None
    """Where the database is kept that was there before."""


def back_up(
    database: Database, file: Path, *, photos: Path | None = None, force: bool = False
) -> BackedUp:
    """Write the backup of a database that others may be using, and return what it holds.

    Raises `RefusedError` if there is such a file, unless `force`, and for PostgreSQL, which has
    its own tool; `DamagedError` if the database is.
    """
    if database.file is None:
        raise RefusedError(
            "a PostgreSQL database is backed up by its server: use pg_dump, and copy the folder of "
            "photos; or write CSV files with partsbin export"
        )
    if file.exists() and not file.is_file():
        raise RefusedError(f"{file} is no file that can be replaced; name another one")
    if file.exists() and not force:
        raise RefusedError(f"{file} is there already; name another file, or replace with --force")
    with _folder_beside(file) as folder:
        copy = folder / DATABASE
        copy_database(database.file, copy)
        version = prove_sound(copy, database.where)
        folder_of_photos = folder_of(database, photos)
        wanted = photo_digests(copy)
        faults = folder_of_photos.faults(wanted)
        sound = [digest for digest in wanted if not folder_of_photos.fault(digest)]
        archive = folder / "archive"
        listed = {
            "format": FORMAT,
            "schema": version,
            "database": file_digest(copy),
            "photos": sound,
            "missing": sorted(set(wanted) - set(sound)),
        }
        with zipfile.ZipFile(archive, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as written:
            written.writestr(LIST, json.dumps(listed, indent=1))
            written.write(copy, DATABASE)
            for digest in sound:
                written.write(
                    folder_of_photos.file(digest), f"{PHOTOS}{digest}", zipfile.ZIP_STORED
                )
        with archive.open("rb+") as finished:
            os.fsync(finished.fileno())
        archive.replace(file)
    return BackedUp(file, len(sound), faults)


def sqlite_file(url: URL) -> Path:
    """Return the file of a database's address. Raises `RefusedError` for PostgreSQL."""
    if url.get_backend_name() != "sqlite":
        raise RefusedError(
            "a PostgreSQL database is restored by its server: use pg_restore or psql; or take CSV "
            "files into an empty one with partsbin import"
        )
    return Path(str(url.database))


def restore(file: Path, target: Path, photos: PhotoFolder, *, force: bool) -> Restored:
    """Put the database and the photos of a backup where they belong, and return what was done.

    All of the backup is proven before anything is changed. What is there already is kept aside.
    Raises `NoBackupError` for a file that is none or is damaged, `NewerSchemaError` for one of a
    newer program, and `RefusedError` if there is a database already, unless `force`.
    """
    if not file.is_file():
        raise NoBackupError(f"there is no file {file}")
    with _folder_beside(target) as folder:
        pictures = _unpack(file, folder)
        copy = folder / DATABASE
        version = prove_sound(copy, str(file))
        present = target.exists()
        if present and not force:
            raise RefusedError(
                f"{target} is there already; --force keeps it aside and replaces it, {UNCHANGED}"
            )
        for digest in pictures:
            content = (folder / digest).read_bytes()
            if photos.fault(digest):
                write_durably(photos.file(digest), content)
            if not photos.thumbnail(digest).exists():
                write_durably(photos.thumbnail(digest), thumbnail_of(content))
        aside = keep_aside(target, "before-restore") if present else None
        if not target.exists():
            # What SQLite left beside a file that is gone must not meet the new one.
            move_aside(target, target.with_name(f"{target.name}.left-over"))
        copy_database(copy, target)
    return Restored(version, len(pictures), aside)


def _unpack(file: Path, folder: Path) -> list[str]:
    """Unpack a backup into a folder and return the photos in it; raises if it is not as it was."""
    with file.open("rb") as opened:
        plain = opened.read(len(PLAIN)) == PLAIN
    if plain:
        copy_database(file, folder / DATABASE)
        return []
    try:
        with zipfile.ZipFile(file) as archive:
            listed = _listed(archive, file)
            with archive.open(DATABASE) as packed, (folder / DATABASE).open("wb") as unpacked:
                while some := packed.read(AT_ONCE):
                    unpacked.write(some)
            for digest in listed["photos"]:
                (folder / digest).write_bytes(archive.read(f"{PHOTOS}{digest}"))
    except NoBackupError:
        raise
    except Exception as fault:  # noqa: BLE001 - each way in which a ZIP file is broken has its own
        raise NoBackupError(f"{file} is damaged ({fault}); restore another backup") from None
    right = file_digest(folder / DATABASE) == listed["database"] and all(
        digest_of((folder / digest).read_bytes()) == digest for digest in listed["photos"]
    )
    if not right:
        raise NoBackupError(
            f"{file} is damaged (what it holds was changed); restore another backup"
        )
    return list(listed["photos"])


def _listed(archive: zipfile.ZipFile, file: Path) -> dict[str, Any]:
    """Return the list of what an archive holds. Raises `NoBackupError` if it is none of ours."""
    if LIST not in archive.namelist():
        raise NoBackupError(f"{file} is no backup of partsbin; name one that db backup wrote")
    listed = json.loads(archive.read(LIST))
    if listed["format"] != FORMAT:
        raise NoBackupError(
            f"{file} was made by a newer partsbin (backup format {listed['format']}); "
            "update partsbin to restore it"
        )
    if not all(DIGEST.fullmatch(digest) for digest in listed["photos"]):
        raise NoBackupError(f"{file} is damaged (a photo has no name); restore another backup")
    return dict(listed)


@contextmanager
def _folder_beside(file: Path) -> Iterator[Path]:
    """Give a folder for unfinished files on the disk of a file, and remove it."""
    file.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=file.parent, prefix=f".{file.name}-") as name:
        yield Path(name)
