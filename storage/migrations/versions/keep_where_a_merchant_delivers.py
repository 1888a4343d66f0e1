"""Keep where a merchant's list goes, so that it is asked once."""

from alembic import op

from storage.migrations.columns import words

revision = "0039"
down_revision = "0038"


def upgrade() -> None:
    """Add the column; of no merchant was it said yet."""
    op.execute(f"ALTER TABLE merchant ADD COLUMN {words('deliver_to')} DEFAULT ''")
