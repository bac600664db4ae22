"""Opens the database that the options before the command name."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import click

from partsbin.cli.main import Settings
from partsbin.cli.printing import say

if TYPE_CHECKING:
    from partsbin.stock.database import Database


@contextmanager
def opened() -> Iterator[Database]:
    """Give the database of the command that is running, made or upgraded if that is needed."""
    from partsbin.stock.database import open_database

    settings = click.get_current_context().find_object(Settings) or Settings(None, None)
    with open_database(settings.db, settings.who) as database:
        if database.kept:
            say(
                f"the database was brought from schema {database.upgraded_from} to the newest; "
                f"a copy from before is {database.kept}"
            )
        yield database
