"""Keep purchases and miles: nothing of the books goes, or says other than its history tells.

What is in the books has to be there until five years after the 31 January that follows the tax
year, and six from a VAT record's own day. A correction and an undo still change a row, and say so
in the journal first: the database lets a row become only what the last action that stands says.
"""

from alembic import op

revision = "0038"
down_revision = "0037"

IN_THE_BOOKS = "What is in the books stays: put it right there, and its history tells what it was."

COLUMNS = {
    "purchase": (
        *("on", "merchant", "what", "pence", "cost", "heading", "vat_rate", "job_id"),
        *("for_stock", "material", "packs"),
    ),
    "miles": ("on", "miles", "words", "job_id"),
}
AS_JOURNALLED = """
    FROM action JOIN journal ON journal.action_id = action.id
    WHERE action.list_name = 'books' AND action.undone_at IS NULL AND journal.entity = '{0}'
    AND json_extract(coalesce(journal.after, journal.before), '$.id') = OLD.id
    ORDER BY journal.id DESC LIMIT 1
"""
"""Where the journal has what a row says now; none if what made it was undone."""


def upgrade() -> None:
    """Set the triggers."""
    for table, columns in COLUMNS.items():
        there = AS_JOURNALLED.format(table)
        told = ", ".join(f"json_extract(journal.after, '$.{name}')" for name in columns)
        new = ", ".join(f'NEW."{name}"' for name in columns)
        old = ", ".join(f'OLD."{name}"' for name in columns)
        differs = f"({old}) IS NOT ({new}) AND ({new}) IS NOT (SELECT {told} {there})"
        _forbid(table, "UPDATE", f"OLD.id IS NOT NEW.id OR ({differs})")
        _forbid(table, "DELETE", f"(SELECT journal.after {there}) IS NOT NULL")
        _forbid(table, "INSERT", f"EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id)")  # noqa: S608 -- ours


def _forbid(table: str, what: str, when: str) -> None:
    """Have the database refuse to insert, update or delete a row."""
    op.execute(
        f"CREATE TRIGGER {table}_{what.lower()}_kept BEFORE {what} ON {table} "
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{IN_THE_BOOKS}'); END"
    )
