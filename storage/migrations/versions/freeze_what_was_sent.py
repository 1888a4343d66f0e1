"""Freeze what was sent: the database itself refuses to change papers that others hold."""

from alembic import op

revision = "0002"
down_revision = "0001"

QUOTE_SENT = "A quote that was sent never changes: make a new version of it."
ISSUED = "A document that was issued never changes."
PAID = "A payment on record never changes."
WRITTEN = "The journal is only ever added to."
NUMBERED = "Documents are numbered one after the other."

OF_OPTION = "(SELECT quote_id FROM option WHERE id = {0}.option_id)"


def upgrade() -> None:
    """Set the triggers."""
    _forbid("quote", "UPDATE", QUOTE_SENT, "OLD.sent_on IS NOT NULL")
    _forbid("quote", "DELETE", QUOTE_SENT, "OLD.sent_on IS NOT NULL")
    for table, quote in (("option", "{0}.quote_id"), ("line", OF_OPTION)):
        _forbid(table, "INSERT", QUOTE_SENT, _sent(quote.format("NEW")))
        _forbid(table, "DELETE", QUOTE_SENT, _sent(quote.format("OLD")))
        either = f"{_sent(quote.format('OLD'))} OR {_sent(quote.format('NEW'))}"
        _forbid(table, "UPDATE", QUOTE_SENT, either)
    for table, sentence in (
        ("document", ISSUED),
        ("payment", PAID),
        ("allocation", PAID),
        ("journal", WRITTEN),
    ):
        _forbid(table, "UPDATE", sentence)
        _forbid(table, "DELETE", sentence)
    _forbid("action", "DELETE", WRITTEN)
    only_the_mark = "OLD.undone_at IS NULL AND NEW.undone_at IS NOT NULL"
    the_rest = "(OLD.id, OLD.at, OLD.words) IS (NEW.id, NEW.at, NEW.words)"
    _forbid("action", "UPDATE", WRITTEN, f"NOT ({only_the_mark} AND {the_rest})")
    last = "(SELECT max(number) FROM document WHERE series = NEW.series)"
    _forbid("document", "INSERT", NUMBERED, f"NEW.number <> coalesce({last}, 0) + 1")


def _sent(quote: str) -> str:
    """The condition that a quote was sent."""
    return f"(SELECT sent_on FROM quote WHERE id = {quote}) IS NOT NULL"  # noqa: S608 -- ours


def _forbid(table: str, what: str, sentence: str, when: str = "TRUE") -> None:
    """Have the database refuse to insert, update or delete rows, with a sentence."""
    op.execute(
        f'CREATE TRIGGER {table}_{what.lower()} BEFORE {what} ON "{table}" '
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{sentence}'); END"
    )
