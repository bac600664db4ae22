"""What a database driver reports, as the refusal that a person can act on."""

from __future__ import annotations

import sqlite3

from sqlalchemy.exc import DBAPIError

from partsbin.stock.errors import (
    BusyError,
    DamagedError,
    DatabaseError,
    DiskFullError,
    NoAccessError,
    NotADatabaseError,
    ReadOnlyError,
    UnreachableError,
)

BUSY = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_PROTOCOL)

SQLITE: dict[int, type[DatabaseError]] = {
    # Primary result codes of sqlite.org/rescode.html.
    **dict.fromkeys(BUSY, BusyError),
    sqlite3.SQLITE_READONLY: ReadOnlyError,
    sqlite3.SQLITE_CANTOPEN: NoAccessError,
    sqlite3.SQLITE_PERM: NoAccessError,
    sqlite3.SQLITE_IOERR: NoAccessError,
    sqlite3.SQLITE_FULL: DiskFullError,
    sqlite3.SQLITE_NOTADB: NotADatabaseError,
    sqlite3.SQLITE_CORRUPT: DamagedError,
}

POSTGRESQL: dict[str, type[DatabaseError]] = {
    # SQLSTATE codes of the PostgreSQL manual, appendix A; two letters are a whole class.
    "55P03": BusyError,  # lock_not_available
    "57014": BusyError,  # query_canceled, by a timeout
    "40": BusyError,  # transaction_rollback: deadlock, serialization
    "53100": DiskFullError,  # disk_full
    "25006": ReadOnlyError,  # read_only_sql_transaction
    "42501": NoAccessError,  # insufficient_privilege
    "XX001": DamagedError,  # data_corrupted
    "XX002": DamagedError,  # index_corrupted
    "08": UnreachableError,  # connection_exception
    "57P": UnreachableError,  # the server shuts down
}


def sqlite_code(error: BaseException | None) -> int:
    """Return SQLite's primary result code of a driver's error, 0 if it has none."""
    return int(getattr(error, "sqlite_errorcode", 0)) & 0xFF


def refusal(error: Exception, where: str) -> DatabaseError | None:
    """Return what to tell the user, None for what no driver reports or is the program's own fault.

    A driver's error comes as it is, or in SQLAlchemy's wrapping.
    """
    cause = error.orig if isinstance(error, DBAPIError) else error
    text = str(cause).strip().partition("\n")[0]
    if isinstance(cause, sqlite3.Error):
        kind = SQLITE.get(sqlite_code(cause))
        return kind(where, text) if kind else None
    state: str | None = getattr(cause, "sqlstate", None)
    if state is None:
        # psycopg gives no code where no server answered.
        invalidated = isinstance(error, DBAPIError) and error.connection_invalidated
        lost = invalidated or type(cause).__name__ == "OperationalError"
        return UnreachableError(where, text) if lost else None
    for length in (5, 3, 2):
        if state[:length] in POSTGRESQL:
            return POSTGRESQL[state[:length]](where, text)
    return None
