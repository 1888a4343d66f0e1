"""Keep which prices are figures to begin with that the trader has not confirmed."""

from alembic import op

from storage.migrations.columns import flag

revision = "0021"
down_revision = "0020"


def upgrade() -> None:
    """Add it: every price in the book was typed by the trader."""
    op.execute(f"ALTER TABLE price ADD COLUMN {flag('starting')} DEFAULT 0")
