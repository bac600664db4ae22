"""Runs the steps of the schema on the connection, and in the transaction, that `schema` opened."""

from __future__ import annotations

from alembic import context

from partsbin.stock.models import Base


def run() -> None:
    """Run the steps between the database's version and the one that is asked for."""
    context.configure(
        connection=context.config.attributes["connection"],
        target_metadata=Base.metadata,
        render_as_batch=True,
    )
    context.run_migrations()


# Alembic gives the module a configuration; whoever only imports it wants no database changed.
if getattr(context, "config", None) is not None:
    run()
