"""Connections as the record needs them: durable, with foreign keys, and patient with others."""

from __future__ import annotations

import random
import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import create_engine, event
from sqlalchemy.exc import DBAPIError

from partsbin.stock.errors import DriverMissingError, NoAccessError
from partsbin.stock.faults import BUSY, sqlite_code

if TYPE_CHECKING:
    from sqlalchemy import URL, Connection, Engine

PATIENCE_S = 60
"""How long a change waits for others before it gives up. A change takes milliseconds."""
ONE_WAIT_S = 30
"""How long SQLite itself waits for a lock, asking ever more seldom."""
SHORT_WAIT_MS = 5
"""How long it waits for the right to write; we ask again soon, so that every bench has its turn."""


def make_engine(url: URL, where: str) -> Engine:
    """Return the engine of an address; a missing folder is made.

    Raises `NoAccessError` if the folder cannot be made, `DriverMissingError` without psycopg.
    """
    if url.get_backend_name() == "sqlite":
        return _sqlite(url, where)
    try:
        return create_engine(url, connect_args={"connect_timeout": 10})
    except ModuleNotFoundError:
        raise DriverMissingError(where) from None


def _sqlite(url: URL, where: str) -> Engine:
    try:
        Path(str(url.database)).parent.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise NoAccessError(where, fault.strerror or str(fault)) from None
    engine = create_engine(url, connect_args={"timeout": ONE_WAIT_S})
    event.listen(engine, "connect", _settle_sqlite)
    return engine


def _settle_sqlite(connection: sqlite3.Connection, record: object) -> None:  # noqa: ARG001 - the event's signature
    # The driver would begin transactions late and commit before a CREATE; we begin them.
    connection.isolation_level = None
    patiently(lambda: _use_log(connection))
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")


def _use_log(connection: sqlite3.Connection) -> None:
    """Let readers and the writer not wait for each other; the file remembers it."""
    (mode,) = connection.execute("PRAGMA journal_mode").fetchone()
    if mode != "wal":
        connection.execute("PRAGMA journal_mode = WAL").fetchone()


# Transactions are begun here, not by listening to the engine: an engine that is listened to is
# slower at every statement.


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """Give a connection that sees one moment; what it should write by mistake is not kept."""
    with engine.connect() as connection:
        connection.begin()
        if engine.dialect.name == "sqlite":
            _driver(connection).execute("BEGIN")
        else:
            connection.exec_driver_sql("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        yield connection


@contextmanager
def changing(engine: Engine) -> Iterator[Connection]:
    """Give a connection in a transaction that is kept, or after an exception taken back."""
    with engine.begin() as connection:
        if engine.dialect.name == "sqlite":
            _begin_immediately(_driver(connection))
        else:
            connection.exec_driver_sql(f"SET LOCAL lock_timeout = '{PATIENCE_S}s'")
        yield connection


def _driver(connection: Connection) -> sqlite3.Connection:
    driver = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)
    return driver


def _begin_immediately(driver: sqlite3.Connection) -> None:
    driver.execute(f"PRAGMA busy_timeout = {SHORT_WAIT_MS}")
    try:
        patiently(lambda: driver.execute("BEGIN IMMEDIATE"))
    finally:
        driver.execute(f"PRAGMA busy_timeout = {ONE_WAIT_S * 1000}")


def patiently(attempt: Callable[[], Any]) -> None:
    """Try again while another program keeps the SQLite file, for as long as the patience lasts."""
    until = time.monotonic() + PATIENCE_S
    while True:
        try:
            attempt()
        except (DBAPIError, sqlite3.Error) as error:
            cause = error.orig if isinstance(error, DBAPIError) else error
            if sqlite_code(cause) not in BUSY or time.monotonic() > until:
                raise
            time.sleep(random.uniform(0.0005, 0.005))  # noqa: S311 - only spreads the attempts
        else:
            return
