"""Builds the invented workshop of this folder in a database of its own."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from partsbin.workshop.importing import Imported

FOLDER = Path(__file__).parent
"""Where the CSV files are."""


def build(database: Path | str) -> Imported:
    """Take the invented workshop into a new database and return how much it is."""
    from partsbin.stock.database import open_database
    from partsbin.workshop.importing import import_folder

    with open_database(str(database), "demo") as opened, opened.changing("import") as session:
        return import_folder(session, FOLDER)
