"""Triggers that refuse to change or remove the rows of a table that is only appended to."""

from __future__ import annotations

from alembic import op


def refuse_edits(*tables: str) -> None:
    """Make the triggers of some tables, each with a key called `id`.

    On PostgreSQL they call the function `refuse_edit` that the first version made.
    """
    make = _sqlite if op.get_bind().dialect.name == "sqlite" else _postgresql
    for table in tables:
        make(table)


def _sqlite(table: str) -> None:
    """Refuse UPDATE, DELETE, and the INSERT OR REPLACE that would delete without a trigger."""
    refuse = f"BEGIN SELECT RAISE(ABORT, '{table} is appended to, never edited'); END"
    op.execute(f"CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table} {refuse}")
    op.execute(f"CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table} {refuse}")
    known = f"EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id)"  # noqa: S608 - a name from a version
    op.execute(f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} WHEN {known} {refuse}")


def _postgresql(table: str) -> None:
    call = "EXECUTE FUNCTION refuse_edit()"
    op.execute(
        f"CREATE TRIGGER {table}_no_edit BEFORE UPDATE OR DELETE ON {table} FOR EACH ROW {call}"
    )
    op.execute(
        f"CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON {table} FOR EACH STATEMENT {call}"
    )
