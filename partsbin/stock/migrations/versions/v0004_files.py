"""Photos and the user's own list of names."""

from __future__ import annotations

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Make the tables."""


def downgrade() -> None:
    """Drop them."""
