"""Note what an action is of: its job or its list, the window that made it, what it came after."""

from alembic import op

from storage.migrations.versions.freeze_what_was_sent import WRITTEN

revision = "0005"
down_revision = "0004"

NEW = (
    "job_id INTEGER",  # that of a job that was undone stays, so it refers to no table
    "list_name TEXT CHECK (list_name IN ('prices', 'stock', 'your details', 'forecasts'))",
    "made_in TEXT NOT NULL DEFAULT ''",
    "follows INTEGER",
)

IMAGE = "coalesce(after, before)"

OF_JOB = f"""
    UPDATE action SET job_id = coalesce(
        (SELECT json_extract({IMAGE}, '$.id') FROM journal
         WHERE action_id = action.id AND entity = 'job'),
        (SELECT max(json_extract({IMAGE}, '$.job_id')) FROM journal WHERE action_id = action.id))
"""  # noqa: S608 -- no one's words

LISTS = {
    "price": "prices",
    "stock_move": "stock",
    "trader": "your details",
    "outlook": "forecasts",
}
"""What list a row is of, where the action is of no job."""

OF_LIST = """
    UPDATE action SET list_name = '{1}' WHERE job_id IS NULL
    AND EXISTS (SELECT 1 FROM journal WHERE action_id = action.id AND entity = '{0}')
"""

CHAIN = """
    UPDATE action SET follows = chain.before FROM (
        SELECT id, coalesce(lag(id) OVER (PARTITION BY job_id, list_name ORDER BY id), 0) AS before
        FROM action WHERE undone_at IS NULL
    ) AS chain WHERE chain.id = action.id
"""
"""What stands follows what stood before it; what an older program undid follows nothing."""

KEPT = "id, at, words, job_id, list_name, made_in, follows"


def upgrade() -> None:
    """Add the columns, fill them in by the journal, and guard all but the mark of an undo."""
    for column in NEW:
        op.execute(f"ALTER TABLE action ADD COLUMN {column}")
    op.execute("DROP TRIGGER action_update")
    op.execute(OF_JOB)
    for table, name in LISTS.items():
        op.execute(OF_LIST.format(table, name))
    op.execute(CHAIN)
    op.execute("CREATE INDEX action_by_job_id ON action (job_id)")
    op.execute("CREATE INDEX action_by_list_name ON action (list_name)")
    kept = KEPT.split(", ")
    old, new = (", ".join(f"{row}.{name}" for name in kept) for row in ("OLD", "NEW"))
    is_mark = "(OLD.undone_at IS NULL) <> (NEW.undone_at IS NULL)"
    op.execute(
        'CREATE TRIGGER action_update BEFORE UPDATE ON "action" '
        f"WHEN NOT ({is_mark} AND ({old}) IS ({new})) "
        f"BEGIN SELECT RAISE(ABORT, '{WRITTEN}'); END"
    )
