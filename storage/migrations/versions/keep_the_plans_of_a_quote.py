"""Keep with each covering of a quote how its roof is cut and laid; older quotes kept nothing."""

from alembic import op

revision = "0026"
down_revision = "0025"


def upgrade() -> None:
    """Add the column."""
    op.execute("ALTER TABLE option ADD COLUMN plans TEXT NOT NULL DEFAULT ''")
