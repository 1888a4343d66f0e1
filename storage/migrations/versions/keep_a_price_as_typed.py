"""Keep of a price typed with VAT what was typed; those before it were kept without, and stay."""

from alembic import op

from storage.migrations.columns import pence

revision = "0042"
down_revision = "0041"


def upgrade() -> None:
    """Add the column: empty where a price was typed before VAT, or before there was the column."""
    op.execute(f"ALTER TABLE price ADD COLUMN {pence('with_vat', known=False)}")
