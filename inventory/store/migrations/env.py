"""Runs the numbered changes inside the transaction that the caller began."""

from __future__ import annotations

from alembic import context

context.configure(connection=context.config.attributes["connection"], transactional_ddl=True)
context.run_migrations()
