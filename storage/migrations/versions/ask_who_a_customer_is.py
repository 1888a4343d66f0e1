"""Keep whether a customer was asked if they are a householder or a business."""

from alembic import op

from storage.migrations.columns import flag

revision = "0017"
down_revision = "0016"


def upgrade() -> None:
    """Add it: of those in the book it was chosen, or left as it stood in the form."""
    op.execute(f"ALTER TABLE customer ADD COLUMN {flag('kind_asked')} DEFAULT 1")
