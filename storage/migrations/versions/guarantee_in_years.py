"""Keep for how many years the trader guarantees the work."""

from alembic import op

from storage.migrations.columns import whole

revision = "0035"
down_revision = "0034"


def upgrade() -> None:
    """None is given until the trader says so."""
    op.execute(f"ALTER TABLE trader ADD COLUMN {whole('guarantee_years', 0, 50)} DEFAULT 0")
