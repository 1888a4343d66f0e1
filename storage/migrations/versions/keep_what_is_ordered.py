"""Keep what is ordered at a merchant, for which jobs, and what of it has come."""

from alembic import op

from storage.migrations.columns import ID, day, decimal, flag, of, whole, words

revision = "0020"
down_revision = "0019"

_MOST = 100_000

ORDERED = (
    ID,
    *(words(name) for name in ("merchant", "material", "colour")),
    whole("packs", 1, _MOST),
    decimal("per_pack"),
    day("ordered_on"),
    day("expected_on"),
    words("deliver_to"),
    whole("came", 0, _MOST),
    day("came_on", known=False),
    "CHECK (came <= packs)",
)


def upgrade() -> None:
    """Make both tables; nothing is known to be ordered yet."""
    op.execute(f"CREATE TABLE ordered ({', '.join(ORDERED)}) STRICT")
    op.execute("CREATE INDEX ordered_to_come ON ordered (expected_on) WHERE came < packs")
    columns = ", ".join((ID, of("ordered"), of("job"), flag("settled")))
    op.execute(f"CREATE TABLE ordered_for ({columns}, UNIQUE (ordered_id, job_id)) STRICT")
    op.execute("CREATE INDEX ordered_for_by_job_id ON ordered_for (job_id)")
