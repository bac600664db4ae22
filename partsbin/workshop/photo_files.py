"""The folder of the photos: each picture is a file that is named by the SHA-256 of its content."""

from __future__ import annotations

import hashlib
import os
import re
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from partsbin.errors import UsageError

if TYPE_CHECKING:
    from partsbin.stock.database import Database

VARIABLE = "PARTSBIN_PHOTOS"
BESIDE = "-photos"
"""What the folder's name has after that of the database's file."""
THUMBNAILS = "thumbnails"
DIGEST = re.compile(r"[0-9a-f]{64}", re.ASCII)


def file_digest(file: Path) -> str:
    """Return the SHA-256 of a file, which may be large."""
    with file.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").hexdigest()


def digest_of(content: bytes) -> str:
    """Return the name of a content: its SHA-256 in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


@dataclass(frozen=True, slots=True)
class PhotoFolder:
    """Where the pictures are kept."""

    path: Path

    def file(self, digest: str) -> Path:
        """Return the file of a picture, in a folder of its first two digits."""
        return self.path / digest[:2] / f"{digest}.jpg"

    def thumbnail(self, digest: str) -> Path:
        """Return the file of a picture's small copy."""
        return self.path / THUMBNAILS / f"{digest}.jpg"

    def keep(self, content: bytes, thumbnail: bytes) -> str:
        """Write a picture, unless it is there already, and return its digest."""
        digest = digest_of(content)
        if self.fault(digest):
            write_durably(self.file(digest), content)
        if not self.thumbnail(digest).exists():
            write_durably(self.thumbnail(digest), thumbnail)
        return digest

    def drop(self, digest: str) -> None:
        """Remove a picture."""
        for file in (self.file(digest), self.thumbnail(digest)):
            file.unlink(missing_ok=True)

    def fault(self, digest: str) -> str:
        """Return what is wrong with a picture's file, empty if nothing is."""
        try:
            content = self.file(digest).read_bytes()
        except FileNotFoundError:
            return f"the photo {self.file(digest)} is missing"
        return "" if digest_of(content) == digest else f"the photo {self.file(digest)} was changed"

    def faults(self, digests: Iterable[str]) -> list[str]:
        """Return what is wrong with these pictures' files."""
        return [told for digest in sorted(set(digests)) if (told := self.fault(digest))]


def folder_of(database: Database, given: Path | None = None) -> PhotoFolder:
    """Return the folder of a database's photos: given, of `PARTSBIN_PHOTOS`, or beside its file.

    Raises `UsageError` for a PostgreSQL database of which neither is said.
    """
    found = named(given)
    if found is not None:
        return found
    if database.file is None:
        raise UsageError(
            f"a PostgreSQL database has no folder for photos beside it; set {VARIABLE} to one "
            "that all benches share, or name it with --photos"
        )
    return beside(database.file)


def named(given: Path | None) -> PhotoFolder | None:
    """Return the folder that was given, or that `PARTSBIN_PHOTOS` names, None without either."""
    name = given or os.environ.get(VARIABLE)
    return PhotoFolder(Path(name).expanduser()) if name else None


def beside(file: Path) -> PhotoFolder:
    """Return the folder of photos beside a database's file."""
    return PhotoFolder(file.with_name(file.name + BESIDE))


def write_durably(file: Path, content: bytes) -> None:
    """Write a file so that it is there whole, or not at all, whatever happens."""
    file.parent.mkdir(parents=True, exist_ok=True)
    handle, unfinished = tempfile.mkstemp(dir=file.parent, prefix=".unfinished-")
    try:
        with os.fdopen(handle, "wb") as written:
            written.write(content)
            written.flush()
            os.fsync(written.fileno())
        Path(unfinished).chmod(0o644)
        Path(unfinished).replace(file)
    finally:
        Path(unfinished).unlink(missing_ok=True)
