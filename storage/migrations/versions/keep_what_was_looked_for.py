"""Keep what was looked for before stripping, what lay underneath, and a helper's insurance."""

from alembic import op

from storage.migrations.columns import day, flag, group, words

revision = "0027"
down_revision = "0026"


def upgrade() -> None:
    """Add them; nothing was asked of the jobs in the book."""
    op.execute(f"ALTER TABLE survey ADD COLUMN {group('around')} DEFAULT '{{}}'")
    op.execute(f"ALTER TABLE strip ADD COLUMN {flag('suspect', known=False)}")
    op.execute(f"ALTER TABLE trader ADD COLUMN {words('employers_policy')} DEFAULT ''")
    op.execute(f"ALTER TABLE trader ADD COLUMN {day('employers_expires', known=False)}")
