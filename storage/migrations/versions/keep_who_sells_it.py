"""Keep the telephone numbers of merchants."""

from alembic import op

from storage.migrations.columns import ID, words

revision = "0024"
down_revision = "0023"


def upgrade() -> None:
    """Make the table; no number is known yet."""
    op.execute(f"CREATE TABLE merchant ({ID}, {words('name')} UNIQUE, {words('phone')}) STRICT")
