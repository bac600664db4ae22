"""Parts that are sold by themselves."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from partsbin.stock.migrations.append_only import refuse_edits

revision = "0008"
down_revision = "0007"

ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Make the table and its triggers."""
    op.create_table(
        "part_sale",
        sa.Column("id", ID, primary_key=True),
        sa.Column("act_id", ID, sa.ForeignKey("act.id"), nullable=False),
        sa.Column("part_id", ID, sa.ForeignKey("part.id"), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("fee", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("quantity > 0", name="something_sold"),
        sa.CheckConstraint("amount >= 0", name="amount_not_negative"),
        sa.CheckConstraint("fee >= 0", name="fee_not_negative"),
    )
    for column in ("act_id", "part_id"):
        op.create_index(f"ix_part_sale_{column}", "part_sale", [column])
    refuse_edits("part_sale")


def downgrade() -> None:
    """Drop the table; its triggers go with it."""
    op.drop_table("part_sale")
