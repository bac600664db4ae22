"""Photos and the user's own list of names."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"

ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def _refers(name: str, column: str, *, null: bool = False) -> sa.Column[int]:
    return sa.Column(name, ID, sa.ForeignKey(column), nullable=null)


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=False)


def _photos() -> None:
    op.create_table(
        "photo",
        sa.Column("id", ID, primary_key=True),
        sa.Column("digest", sa.String(64), nullable=False),
        _refers("part_id", "part.id", null=True),
        _refers("bike_id", "bike.id", null=True),
        _refers("act_id", "act.id"),
        sa.Column("width", sa.BigInteger(), nullable=False),
        sa.Column("height", sa.BigInteger(), nullable=False),
        _text("note"),
        sa.CheckConstraint("(part_id IS NULL) <> (bike_id IS NULL)", name="of_part_or_bike"),
        sa.UniqueConstraint("part_id", "digest"),
        sa.UniqueConstraint("bike_id", "digest"),
    )
    op.create_index("ix_photo_digest", "photo", ["digest"])
    op.create_index("ix_photo_act_id", "photo", ["act_id"])


def _names() -> None:
    op.create_table(
        "printed_name",
        sa.Column("id", ID, primary_key=True),
        _text("spec"),
        _text("kind"),
        _text("printed"),
        _text("key"),
        _text("note"),
        sa.UniqueConstraint("key", "kind"),
    )


def upgrade() -> None:
    """Make the tables."""
    _photos()
    _names()


def downgrade() -> None:
    """Drop them."""
    op.drop_table("printed_name")
    op.drop_table("photo")
