"""How much is in each bin, as a sum that the movements keep."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"

ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Make the table and add up what the bins hold now."""
    op.create_table(
        "bin_sum",
        sa.Column("place_id", ID, sa.ForeignKey("place.id"), primary_key=True),
        sa.Column("parts", sa.BigInteger(), nullable=False),
        sa.Column("cost", sa.BigInteger(), nullable=False),
        sa.CheckConstraint("parts >= 0", name="parts_not_negative"),
        sa.CheckConstraint("cost >= 0", name="cost_not_negative"),
        sqlite_with_rowid=False,
    )
    op.execute(
        "INSERT INTO bin_sum (place_id, parts, cost) "
        "SELECT place.id, count(holding.part_id), coalesce(sum(holding.cost), 0) "
        "FROM place LEFT JOIN holding ON holding.place_id = place.id "
        "WHERE place.type = 'bin' GROUP BY place.id"
    )


def downgrade() -> None:
    """Drop the table."""
    op.drop_table("bin_sum")
