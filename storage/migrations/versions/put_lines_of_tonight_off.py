"""Put lines of Tonight off: one kind of task of a job until a day."""

from alembic import op

from storage.migrations.columns import ID, day, of, words

revision = "0013"
down_revision = "0012"


def upgrade() -> None:
    """Make the table; there is none that waits yet."""
    columns = ", ".join((ID, of("job"), words("kind"), day("until")))
    op.execute(f"CREATE TABLE put_off ({columns}, UNIQUE (job_id, kind)) STRICT")
    op.execute("CREATE INDEX put_off_by_until ON put_off (until)")
