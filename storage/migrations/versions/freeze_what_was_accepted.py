"""Freeze what was accepted from the moment it is recorded, not only once it is invoiced.

A correction and an undo still change it, and say so in the journal first: the database lets an
acceptance become only what the last action that stands says of it. Who said yes, when and how can
be put right at any time.
"""

from alembic import op

revision = "0012"
down_revision = "0011"

ACCEPTED = "What was accepted stays as it was recorded: undo it, or record another yes."

INVOICED = """
    EXISTS (SELECT 1 FROM quote JOIN document USING (job_id) WHERE quote.id = {0}.quote_id)
"""
"""That one of the job is invoiced already, which has a sentence of its own."""

AS_JOURNALLED = """
    SELECT json_extract(journal.after, '$.option_id')
    FROM action JOIN journal ON journal.action_id = action.id
    WHERE action.job_id = (SELECT job_id FROM quote WHERE id = OLD.quote_id)
    AND action.undone_at IS NULL AND journal.entity = 'acceptance'
    AND json_extract(coalesce(journal.after, journal.before), '$.quote_id') = OLD.quote_id
    ORDER BY journal.id DESC LIMIT 1
"""
"""The option that is accepted of a quote as the journal has it; none if it was taken back."""


def upgrade() -> None:
    """Set the triggers."""
    other = "(OLD.quote_id, OLD.option_id) IS NOT (NEW.quote_id, NEW.option_id)"
    told = f"OLD.quote_id = NEW.quote_id AND NEW.option_id IS ({AS_JOURNALLED})"
    _forbid("UPDATE", f"{other} AND NOT ({told}) AND NOT {INVOICED.format('OLD')}")
    _forbid("DELETE", f"({AS_JOURNALLED}) IS NOT NULL AND NOT {INVOICED.format('OLD')}")
    there = "EXISTS (SELECT 1 FROM acceptance WHERE quote_id = NEW.quote_id)"
    _forbid("INSERT", f"{there} AND NOT {INVOICED.format('NEW')}")


def _forbid(what: str, when: str) -> None:
    """Have the database refuse to insert, update or delete an acceptance."""
    op.execute(
        f"CREATE TRIGGER acceptance_{what.lower()}_recorded BEFORE {what} ON acceptance "
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{ACCEPTED}'); END"
    )
