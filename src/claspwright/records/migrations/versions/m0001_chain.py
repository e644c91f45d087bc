"""Entries in a chain, what follows from them, and persons apart."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

SEQUENCE = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def upgrade() -> None:
    """Make the first tables."""
    op.create_table(
        "entry",
        sa.Column("seq", SEQUENCE, primary_key=True, autoincrement=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("subject", sa.String(200), nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("made_at", sa.String(40), nullable=False),
        sa.Column("made_by", sa.String(200), nullable=False),
        sa.Column("supersedes", SEQUENCE, nullable=True),
        sa.Column("previous", sa.String(64), nullable=False),
        sa.Column("hash", sa.String(64), nullable=False),
    )
    op.create_index("ix_entry_subject", "entry", ["subject"])
    op.create_table(
        "head",
        sa.Column("id", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("seq", SEQUENCE, nullable=False),
        sa.Column("hash", sa.String(64), nullable=False),
    )
    op.create_table(
        "current",
        sa.Column("subject", sa.String(200), primary_key=True),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("seq", SEQUENCE, nullable=False),
        sa.Column("body", sa.Text, nullable=False),
    )
    op.create_index("ix_current_kind", "current", ["kind"])
    op.create_table(
        "link",
        sa.Column("child", sa.String(200), primary_key=True),
        sa.Column("relation", sa.String(40), primary_key=True),
        sa.Column("parent", sa.String(200), primary_key=True),
        sa.Column("mass_g", sa.Float, nullable=True),
    )
    op.create_index("link_both", "link", ["parent", "child"])
    op.create_table(
        "person",
        sa.Column("pseudonym", sa.String(200), primary_key=True),
        sa.Column("body", sa.Text, nullable=False),
    )


def downgrade() -> None:
    """Take the tables away."""
    for name in ("person", "link", "current", "head", "entry"):
        op.drop_table(name)
