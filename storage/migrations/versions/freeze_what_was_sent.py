"""Freeze what was sent: the database itself refuses to change papers that others hold."""

from alembic import op

revision = "0002"
down_revision = "0001"

QUOTE_SENT = "A quote that was sent never changes: make a new version of it."
ISSUED = "A document that was issued never changes."
PAID = "A payment on record never changes."
WRITTEN = "The journal is only ever added to."
NUMBERED = "Documents are numbered one after the other."

QUOTE_OF = {
    "option": ("{0}.quote_id", "(SELECT quote_id FROM option WHERE id = NEW.id)"),
    "line": (
        "(SELECT quote_id FROM option WHERE id = {0}.option_id)",
        "(SELECT quote_id FROM option JOIN line ON option_id = option.id WHERE line.id = NEW.id)",
    ),
}
"""The quote a row belongs to, and that of the row whose number a new one takes."""

FINAL = {
    "payment": (PAID, "id = NEW.id"),
    "allocation": (
        PAID,
        "id = NEW.id OR (payment_id, document_id) = (NEW.payment_id, NEW.document_id)",
    ),
    "journal": (WRITTEN, "id = NEW.id"),
}
"""Tables that are only added to, and the rows that a new one would take the place of."""


def upgrade() -> None:
    """Set the triggers.

    REPLACE, and OR REPLACE in general, takes the rows in its way out without asking the triggers
    on DELETE: what would be displaced is looked at before it comes to that.
    """
    _freeze_quotes()
    for table, (sentence, displaced) in FINAL.items():
        _forbid(table, "UPDATE", sentence)
        _forbid(table, "DELETE", sentence)
        _forbid(table, "INSERT", sentence, _there(table, displaced))
    _number_documents()
    _forbid("action", "DELETE", WRITTEN)
    _forbid("action", "INSERT", WRITTEN, _there("action", "id = NEW.id"))
    only_the_mark = "OLD.undone_at IS NULL AND NEW.undone_at IS NOT NULL"
    the_rest = "(OLD.id, OLD.at, OLD.words) IS (NEW.id, NEW.at, NEW.words)"
    _forbid("action", "UPDATE", WRITTEN, f"NOT ({only_the_mark} AND {the_rest})")


def _freeze_quotes() -> None:
    """Freeze a quote with its options and lines from the day it was sent."""
    same = "id = NEW.id OR (job_id, number) = (NEW.job_id, NEW.number)"
    displaced = _there("quote", f"sent_on IS NOT NULL AND ({same})")
    _forbid("quote", "INSERT", QUOTE_SENT, displaced)
    _forbid("quote", "UPDATE", QUOTE_SENT, f"OLD.sent_on IS NOT NULL OR {displaced}")
    _forbid("quote", "DELETE", QUOTE_SENT, "OLD.sent_on IS NOT NULL")
    for table, (quote, of_displaced) in QUOTE_OF.items():
        old = _sent(quote.format("OLD"))
        new = f"{_sent(quote.format('NEW'))} OR {_sent(of_displaced)}"
        _forbid(table, "INSERT", QUOTE_SENT, new)
        _forbid(table, "UPDATE", QUOTE_SENT, f"{old} OR {new}")
        _forbid(table, "DELETE", QUOTE_SENT, old)


def _number_documents() -> None:
    """Keep documents as they were issued, their series without gaps."""
    _forbid("document", "UPDATE", ISSUED)
    _forbid("document", "DELETE", ISSUED)
    last = "(SELECT max(number) FROM document WHERE series = NEW.series)"
    out_of_turn = f"NEW.number <> coalesce({last}, 0) + 1"
    displaced = _there("document", "id = NEW.id")
    _forbid("document", "INSERT", NUMBERED, f"{out_of_turn} OR {displaced}")


def _there(table: str, which: str) -> str:
    """The condition that there are such rows."""
    return f"EXISTS (SELECT 1 FROM {table} WHERE {which})"  # noqa: S608 -- ours


def _sent(quote: str) -> str:
    """The condition that a quote was sent."""
    return f"(SELECT sent_on FROM quote WHERE id = {quote}) IS NOT NULL"  # noqa: S608 -- ours


def _forbid(table: str, what: str, sentence: str, when: str = "TRUE") -> None:
    """Have the database refuse to insert, update or delete rows, with a sentence."""
    op.execute(
        f'CREATE TRIGGER {table}_{what.lower()} BEFORE {what} ON "{table}" '
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{sentence}'); END"
    )
