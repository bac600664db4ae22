"""Copies of an SQLite database, made while others work on it, and the proof that one is sound."""

from __future__ import annotations

import datetime as dt
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from partsbin.stock import schema
from partsbin.stock.engine import ONE_WAIT_S
from partsbin.stock.errors import (
    DamagedError,
    DatabaseError,
    NewerSchemaError,
    NotADatabaseError,
    OtherDatabaseError,
)
from partsbin.stock.faults import SQLITE, sqlite_code

SIDE_FILES = ("-wal", "-shm")
"""What SQLite keeps beside a file; it belongs to that file and to no other."""


def copy_database(source: Path, target: Path) -> None:
    """Make the target an exact copy of the source, as it is at one moment.

    Whoever else has either open goes on working: the target is changed in one transaction, or not
    at all. Raises a `DatabaseError` if one of them cannot be used.
    """
    with (
        refusing(source),
        closing(sqlite3.connect(_reading(source), uri=True, timeout=ONE_WAIT_S)) as read,
        refusing(target),
        closing(sqlite3.connect(target, timeout=ONE_WAIT_S)) as write,
    ):
        write.execute("PRAGMA synchronous = FULL")
        read.backup(write)


def prove_sound(file: Path, shown: str) -> str:
    """Return the schema's version of a copy whose structure was proven. It is called `shown`.

    Raises `NotADatabaseError`, `OtherDatabaseError`, `DamagedError` or `NewerSchemaError`.
    """
    with (
        refusing(file, shown),
        closing(sqlite3.connect(_reading(file), uri=True, timeout=ONE_WAIT_S)) as read,
    ):
        tables = {name for (name,) in read.execute("SELECT name FROM sqlite_master")}
        if schema.VERSION_TABLE not in tables or "movement" not in tables:
            raise OtherDatabaseError(shown)
        query = f"SELECT version_num FROM {schema.VERSION_TABLE}"  # noqa: S608 - a constant
        versions = [str(version) for (version,) in read.execute(query)]
        if len(versions) != 1:
            raise DamagedError(shown, "it has no version")
        if versions[0] not in schema.VERSIONS:
            raise NewerSchemaError(shown, versions[0])
        told = [str(row[0]) for row in read.execute("PRAGMA integrity_check")]
        if told != ["ok"]:
            raise DamagedError(shown, told[0])
        if read.execute("PRAGMA foreign_key_check").fetchone():
            raise DamagedError(shown, "a row points at one that is not there")
        return versions[0]


def photo_digests(file: Path) -> list[str]:
    """Return the digests of the photos that a copy names, each once."""
    with (
        refusing(file),
        closing(sqlite3.connect(_reading(file), uri=True, timeout=ONE_WAIT_S)) as read,
    ):
        return [str(d) for (d,) in read.execute("SELECT DISTINCT digest FROM photo ORDER BY 1")]


def keep_aside(file: Path, why: str) -> Path:
    """Keep a copy of a database beside it and return its name, which says why and when.

    A file that cannot be copied because it is damaged is itself moved there.
    """
    stamp = dt.datetime.now(dt.UTC).strftime("%Y%m%d-%H%M%S-%f")
    aside = file.with_name(f"{file.name}.{why}-{stamp}")
    try:
        copy_database(file, aside)
    except (DamagedError, NotADatabaseError):
        aside.unlink(missing_ok=True)
        move_aside(file, aside)
    return aside


def move_aside(file: Path, aside: Path) -> None:
    """Give a database's file, and what SQLite keeps beside it, another name."""
    for suffix in ("", *SIDE_FILES):
        part = file.with_name(file.name + suffix)
        if part.exists():
            part.rename(aside.with_name(aside.name + suffix))


def _reading(file: Path) -> str:
    """Return the address under which SQLite opens a file that must be there."""
    return f"{file.absolute().as_uri()}?mode=rw"


@contextmanager
def refusing(file: Path, shown: str = "") -> Iterator[None]:
    """Turn what SQLite reports about a file into the refusal that a person can act on."""
    try:
        yield
    except sqlite3.Error as error:
        kind: type[DatabaseError] = SQLITE.get(sqlite_code(error), DamagedError)
        raise kind(shown or str(file), str(error)) from error
