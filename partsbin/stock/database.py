"""The door to the database: open it, ask it, change it.

A change is one transaction that begins by taking the right to write, on SQLite by BEGIN IMMEDIATE
and on PostgreSQL by a lock on the table of acts that readers do not notice. So a change reads only
what is still true when it writes, two benches that reach for the last part are served one after
the other, and no two changes can each wait for the other.
"""

from __future__ import annotations

import getpass
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Self

from sqlalchemy import Engine
from sqlalchemy.orm import Session

from partsbin.errors import UsageError
from partsbin.stock import address, schema
from partsbin.stock.copies import keep_aside
from partsbin.stock.edits import watch
from partsbin.stock.engine import changing, make_engine, reading
from partsbin.stock.faults import refusal
from partsbin.stock.ledger import begin_act, prove_cleared

USER_VARIABLE = "PARTSBIN_USER"


class ChangingSession(Session):
    """The session of an act, whose edits are kept."""


watch(ChangingSession)


class Database:
    """An open database and who works with it; close it, or use it in a `with` statement."""

    def __init__(self, engine: Engine, where: str, who: str) -> None:
        self.where = where
        """The address for messages, without a password."""
        self.who = who
        self.upgraded_from: str | None = None
        """The version of the schema that it had before it was opened, if that was older."""
        self.kept: Path | None = None
        """Where a copy of it is kept from before that."""
        self._engine = engine

    def under(self, who: str) -> Database:
        """Return the same open database for another person's name in the history."""
        return Database(self._engine, self.where, who)

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """Give a session that sees one moment of the record and changes nothing."""
        with (
            self._refusing(),
            reading(self._engine) as connection,
            Session(connection) as session,
        ):
            yield session

    @contextmanager
    def changing(self, what: str, reason: str = "") -> Iterator[Session]:
        """Give a session for one act: all of it is kept, or after an exception none of it.

        `what` says what is done and `reason` why, for the history. When the block ends without an
        exception the act is on the disk.
        """
        with (
            self._refusing(),
            changing(self._engine) as connection,
            ChangingSession(connection) as session,
        ):
            begin_act(session, self.who, what, reason)
            yield session
            session.flush()
            prove_cleared(session)

    @contextmanager
    def _refusing(self) -> Iterator[None]:
        try:
            yield
        except Exception as error:
            told = refusal(error, self.where)
            if told is None:
                raise
            raise told from error

    @property
    def file(self) -> Path | None:
        """The file of an SQLite database, None on PostgreSQL."""
        name = self._engine.url.database if self._engine.dialect.name == "sqlite" else None
        return Path(name) if name else None

    def upgrade(self) -> None:
        """Make the schema, or bring it to the newest version, if it is not there yet.

        An SQLite file with an older schema is copied first; the copy is kept beside it.
        """
        with self._refusing():
            with reading(self._engine) as connection:
                version = schema.version_of(connection, self.where)
            if version == schema.VERSIONS[-1]:
                return
            kept = self._keep(version)
            try:
                with changing(self._engine) as connection:
                    schema.upgrade(connection, self.where)
            except BaseException:
                if kept:
                    kept.unlink()
                raise
            self.upgraded_from, self.kept = version, kept

    def _keep(self, version: str | None) -> Path | None:
        """Keep a copy of a file with an older schema and return its name."""
        if version is None or self.file is None:
            return None
        return keep_aside(self.file, f"before-{schema.VERSIONS[-1]}")

    def close(self) -> None:
        """Give back all connections."""
        self._engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()


def open_database(url: str | None = None, who: str | None = None) -> Database:
    """Return the database of an address, made or upgraded if that is needed.

    `url` is a file name, `sqlite:///FILE` or `postgresql://...`; without it `PARTSBIN_DB` names
    the database, and without that it is a file in the user's data folder. `who` is the name that
    the history shows; without it `PARTSBIN_USER`, and without that the login name.

    Raises one of the errors of `stock.errors` if the database cannot be used.
    """
    asked = address.choose(url)
    where = address.shown(asked)
    database = Database(make_engine(asked, where), where, worker(who))
    try:
        database.upgrade()
    except BaseException:
        database.close()
        raise
    return database


def worker(who: str | None) -> str:
    """Return the name of who works: given, `PARTSBIN_USER`, or the login name."""
    for name in (who, os.environ.get(USER_VARIABLE)):
        if name and name.strip():
            return " ".join(name.split())
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        raise UsageError(
            f"nobody is logged in; say who works with --who or {USER_VARIABLE}"
        ) from None
