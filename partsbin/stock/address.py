"""The address of a database: which one is meant, and how it is shown without its password."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from partsbin.stock.errors import AddressError

if TYPE_CHECKING:
    from sqlalchemy import URL

VARIABLE = "PARTSBIN_DB"
FORMS = "give a file name, sqlite:///FILE or postgresql://USER@HOST/NAME"
DRIVERS = {
    "sqlite": "sqlite",
    "sqlite+pysqlite": "sqlite",
    "postgresql": "postgresql+psycopg",
    "postgres": "postgresql+psycopg",
    "postgresql+psycopg": "postgresql+psycopg",
}


def choose(given: str | None) -> URL:
    """Return the address that was given, else of `PARTSBIN_DB`, else of the user's own file.

    Raises `AddressError` for an address that is no file, SQLite or PostgreSQL.
    """
    from sqlalchemy import URL

    asked = given or os.environ.get(VARIABLE)
    if not asked:
        return URL.create("sqlite", database=str(default_file()))
    if "://" not in asked:
        return URL.create("sqlite", database=str(Path(asked).expanduser()))
    return _from_url(asked)


def _from_url(asked: str) -> URL:
    from sqlalchemy.engine import make_url
    from sqlalchemy.exc import ArgumentError

    scheme = asked.partition("://")[0]
    driver = DRIVERS.get(scheme.lower())
    if driver is None:
        raise AddressError(f"a database address cannot begin with {scheme + '://'!r}; {FORMS}")
    try:
        url = make_url(asked).set(drivername=driver)
    except (ArgumentError, ValueError):
        # Not quoted: it may hold a password.
        raise AddressError(f"the database address is not understood; {FORMS}") from None
    if not url.database or (driver == "sqlite" and url.database == ":memory:"):
        raise AddressError(f"the database address names no database; {FORMS}")
    return url


def default_file() -> Path:
    """Return the file that is used when none is named, in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("partsbin", appauthor=False) / "partsbin.db"


def shown(url: URL) -> str:
    """Return the address as a message shows it: a file's name, or a URL without its password."""
    if url.get_backend_name() == "sqlite":
        return str(url.database)
    return url.set(drivername="postgresql").render_as_string(hide_password=True)
