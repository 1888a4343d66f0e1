"""Make papers the trader's own: a colour and a logo, and what a sent quote says."""

from alembic import op

revision = "0011"
down_revision = "0010"

KEPT = "A picture on papers that went out never changes."


def upgrade() -> None:
    """Add the look of papers, the pictures, and what a quote said when it was sent.

    Quotes sent before keep nothing: the database refuses to change them. A picture is only ever
    added: papers that were sent and issued name it.
    """
    op.execute(
        "ALTER TABLE trader ADD COLUMN look TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(look))"
    )
    op.execute("ALTER TABLE quote ADD COLUMN sent_as TEXT NOT NULL DEFAULT ''")
    op.execute(
        "CREATE TABLE picture ("
        "key TEXT NOT NULL PRIMARY KEY CHECK (length(key) = 64), "
        "name TEXT NOT NULL, "
        "content TEXT NOT NULL"
        ") STRICT"
    )
    there = "EXISTS (SELECT 1 FROM picture WHERE key = NEW.key)"
    for what, when in (("INSERT", there), ("UPDATE", "TRUE"), ("DELETE", "TRUE")):
        op.execute(
            f"CREATE TRIGGER picture_{what.lower()} BEFORE {what} ON picture "
            f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{KEPT}'); END"
        )
