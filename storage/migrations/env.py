"""Run by Alembic: brings the book on the connection it is given up to date."""

from typing import Any

from alembic import context
from alembic.runtime.migration import MigrationInfo
from sqlalchemy import text

connection = context.config.attributes["connection"]


def number_the_file(
    ctx: Any,  # noqa: ARG001 -- the names are Alembic's
    step: MigrationInfo,
    heads: Any,  # noqa: ARG001
    run_args: Any,  # noqa: ARG001
) -> None:
    """Write the step's number where it can be read without Alembic, in the same transaction."""
    connection.execute(text(f"PRAGMA user_version = {int(step.up_revision_id or 0)}"))


# The caller has begun the transaction: every step and its record are kept together or not at all.
context.configure(connection=connection, on_version_apply=number_the_file)
context.run_migrations()
