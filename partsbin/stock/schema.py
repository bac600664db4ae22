"""The schema of a database: is it ours, is it up to date, and the steps that bring it there."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import inspect, text

from partsbin.stock.errors import NewerSchemaError, OtherDatabaseError

if TYPE_CHECKING:
    from sqlalchemy import Connection

VERSIONS = ("0001", "0002", "0003", "0004", "0005", "0006", "0007", "0008")
"""The revisions of `migrations/versions`, oldest first, so that Alembic is read only to upgrade."""
VERSION_TABLE = "alembic_version"
UPGRADE_LOCK = 0x7061727473
"""Key of PostgreSQL's advisory lock that lets one program at a time change the schema."""


def version_of(connection: Connection, where: str) -> str | None:
    """Return the schema's version, None of an empty database.

    Raises `OtherDatabaseError` for a database that has tables, but none of ours, and
    `NewerSchemaError` for a version that this program does not know.
    """
    inspector = inspect(connection)
    if not inspector.has_table(VERSION_TABLE):
        if inspector.get_table_names():
            raise OtherDatabaseError(where)
        return None
    version = connection.scalar(text(f"SELECT version_num FROM {VERSION_TABLE}"))  # noqa: S608 - a constant
    if version not in VERSIONS:
        raise NewerSchemaError(where, str(version))
    return str(version)


def is_current(connection: Connection, where: str) -> bool:
    """Return whether the schema is the newest; raises as `version_of` does."""
    return version_of(connection, where) == VERSIONS[-1]


def upgrade(connection: Connection, where: str) -> None:
    """Bring the schema to the newest version, inside the caller's transaction.

    Another program may have done it while this one waited for the lock; then nothing is left to do.
    """
    if connection.dialect.name == "postgresql":
        connection.execute(text(f"SELECT pg_advisory_xact_lock({UPGRADE_LOCK})"))
    if is_current(connection, where):
        return
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
