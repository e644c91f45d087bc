"""Runs the migrations on the connection that the register hands over."""

from __future__ import annotations

from alembic import context

from claspwright.records.tables import Base

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=Base.metadata,
    render_as_batch=True,
    transaction_per_migration=False,
)
with context.begin_transaction():
    context.run_migrations()
