"""An index of the files in the store, and whose health data they hold."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the table of files."""
    op.create_table(
        "blob",
        sa.Column("hash", sa.String(64), primary_key=True),
        sa.Column("name", sa.String(300), nullable=False),
        sa.Column("size_bytes", sa.BigInteger().with_variant(sa.Integer, "sqlite"), nullable=False),
        sa.Column("personal", sa.String(200), nullable=False, server_default=""),
    )


def downgrade() -> None:
    """Take the table of files away."""
    op.drop_table("blob")
