"""Keep the price of an extra as the customer was told it: with VAT inside, or before it."""

from alembic import op

from storage.migrations.columns import flag

revision = "0025"
down_revision = "0024"


def upgrade() -> None:
    """Add the column: what was recorded so far is net."""
    op.execute(f"ALTER TABLE extra ADD COLUMN {flag('with_vat')} DEFAULT 0")
