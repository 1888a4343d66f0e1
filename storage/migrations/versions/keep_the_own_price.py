"""Keep the price that the trader asks instead of the one worked out."""

from alembic import op

from storage.migrations.columns import pence

revision = "0032"
down_revision = "0031"


def upgrade() -> None:
    """Add the column: no price was the trader's own so far."""
    op.execute(f'ALTER TABLE "option" ADD COLUMN {pence("own_gross", known=False)}')
