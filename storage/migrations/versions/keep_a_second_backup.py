"""Keep a second backup: the folder for it, among the trader's details."""

from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade() -> None:
    """Add the folder; there is none until one is given."""
    op.execute("ALTER TABLE trader ADD COLUMN backup_folder TEXT NOT NULL DEFAULT ''")
