"""Keep what is noted of a job, and what putting a snag right took."""

from alembic import op

from storage.migrations.columns import ID, day, decimal, of, pence, words

revision = "0015"
down_revision = "0014"

CALLBACK = (
    f"{decimal('hours')} DEFAULT '0'",
    f"{words('materials')} DEFAULT ''",
    f"{pence('cost')} DEFAULT 0",
)


def upgrade() -> None:
    """Make the table of notes; what snags took before is not known."""
    columns = ", ".join((ID, of("job"), words("words"), day("on")))
    op.execute(f"CREATE TABLE note ({columns}) STRICT")
    op.execute("CREATE INDEX note_by_job_id ON note (job_id)")
    for column in CALLBACK:
        op.execute(f"ALTER TABLE snag ADD COLUMN {column}")
