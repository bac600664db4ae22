"""Books, checks before a sale, and undone acts."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from partsbin.stock.migrations.append_only import refuse_edits

revision = "0003"
down_revision = "0002"

ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
APPENDED = ("edit", "undone_act", "bike_check", "bike_estimate")
"""The tables whose rows are never changed and never removed."""


def _id() -> sa.Column[int]:
    return sa.Column("id", ID, primary_key=True)


def _refers(
    name: str, column: str, *, null: bool = False, unique: bool | None = None
) -> sa.Column[int]:
    return sa.Column(name, ID, sa.ForeignKey(column), nullable=null, unique=unique)


def _text(name: str, *, null: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=null)


def _edits() -> None:
    op.create_table(
        "edit",
        _id(),
        _refers("act_id", "act.id"),
        _refers("part_id", "part.id", null=True),
        _refers("bike_id", "bike.id", null=True),
        _text("field"),
        _text("before", null=True),
        _text("after", null=True),
        sa.CheckConstraint("(part_id IS NULL) <> (bike_id IS NULL)", name="part_or_bike"),
    )
    for column in ("act_id", "part_id", "bike_id"):
        op.create_index(f"ix_edit_{column}", "edit", [column])
    op.create_table(
        "undone_act",
        _id(),
        _refers("act_id", "act.id", unique=True),
        _refers("by_act_id", "act.id", unique=True),
    )


def _checks() -> None:
    op.create_table(
        "bike_check",
        _id(),
        _refers("act_id", "act.id"),
        _refers("bike_id", "bike.id"),
        _text("item"),
        sa.Column("ok", sa.Boolean(create_constraint=True, name="ok_yes_or_no"), nullable=False),
        _text("checked_by"),
        _text("note"),
    )
    op.create_table(
        "bike_estimate",
        _id(),
        _refers("act_id", "act.id"),
        _refers("bike_id", "bike.id"),
        sa.Column("price", sa.BigInteger(), nullable=False),
        sa.Column("to_complete", sa.BigInteger(), nullable=False),
        sa.CheckConstraint("price >= 0", name="price_not_negative"),
        sa.CheckConstraint("to_complete >= 0", name="to_complete_not_negative"),
    )
    for table in ("bike_check", "bike_estimate"):
        for column in ("act_id", "bike_id"):
            op.create_index(f"ix_{table}_{column}", table, [column])


def upgrade() -> None:
    """Make the tables and their triggers."""
    _edits()
    _checks()
    refuse_edits(*APPENDED)


def downgrade() -> None:
    """Drop the tables; their triggers go with them."""
    for table in reversed(APPENDED):
        op.drop_table(table)
