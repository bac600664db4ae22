"""Runs the steps of the schema on the connection, and in the transaction, that `schema` opened."""

from alembic import context

from partsbin.stock.models import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
)
context.run_migrations()
