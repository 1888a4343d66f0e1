"""Guard what was agreed: an acceptance that is invoiced, and the money set against a document."""

from alembic import op

revision = "0004"
down_revision = "0003"

AGREED = "What was accepted is invoiced: it stays the covering agreed."
TOO_MUCH = "No more can be paid on a document than it asks for, nor out of a payment than came in."
OF_ONE_JOB = "A payment settles invoices of its own job."
NAMED = "The reference of a job never changes."

INVOICED = """
    EXISTS (SELECT 1 FROM quote JOIN document USING (job_id) WHERE quote.id = {0}.quote_id)
"""

ROOM = """
    NEW.pence + coalesce((SELECT sum(pence) FROM allocation WHERE {0} = NEW.{0}), 0)
        > (SELECT {1} FROM {2} WHERE id = NEW.{0})
"""
"""Whether the new part is more than is left of the document or of the payment."""

PART_ON_RECORD = """
    EXISTS (SELECT 1 FROM allocation WHERE id = NEW.id
            OR (payment_id, document_id) = (NEW.payment_id, NEW.document_id))
"""
"""Whether it would take the place of a part that never changes: that has a sentence of its own."""

ELSEWHERE = """
    NOT EXISTS (SELECT 1 FROM payment JOIN document USING (job_id)
                WHERE payment.id = NEW.payment_id AND document.id = NEW.document_id
                AND document.series = 'invoice')
"""


def upgrade() -> None:
    """Set the triggers. Who said yes, when and how can still be put right once it is invoiced."""
    other_option = "(OLD.quote_id, OLD.option_id) IS NOT (NEW.quote_id, NEW.option_id)"
    _forbid("acceptance", "UPDATE", AGREED, f"{INVOICED.format('OLD')} AND {other_option}")
    _forbid("acceptance", "DELETE", AGREED, INVOICED.format("OLD"))
    there = "EXISTS (SELECT 1 FROM acceptance WHERE quote_id = NEW.quote_id)"
    _forbid("acceptance", "INSERT", AGREED, f"{there} AND {INVOICED.format('NEW')}")
    of_document = ROOM.format("document_id", "gross", "document")
    of_payment = ROOM.format("payment_id", "pence", "payment")
    too_much = f"NOT {PART_ON_RECORD} AND ({of_document} OR {of_payment})"
    _forbid("allocation", "INSERT", TOO_MUCH, too_much, "_too_much")
    _forbid("allocation", "INSERT", OF_ONE_JOB, ELSEWHERE, "_elsewhere")
    _forbid("job", "UPDATE", NAMED, "OLD.ref <> NEW.ref")


def _forbid(table: str, what: str, sentence: str, when: str, name: str = "") -> None:
    """Have the database refuse to insert, update or delete rows, with a sentence."""
    op.execute(
        f"CREATE TRIGGER {table}_{what.lower()}{name} BEFORE {what} ON {table} "
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{sentence}'); END"
    )
