"""Put mistakes right: credit notes, payments cancelled, money paid back, each with its number.

A document's kind is held to a list by its table, and SQLite changes no such check: the table is
made anew, with all that hangs on it, in the same transaction as the rest.
"""

import re

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import ID, day, group, of, one_of, pence, words
from storage.migrations.versions.freeze_what_was_sent import PAID
from storage.migrations.versions.guard_what_was_agreed import (
    ELSEWHERE,
    OF_ONE_JOB,
    PART_ON_RECORD,
    TOO_MUCH,
)
from storage.migrations.versions.keep_what_is_under_way import AGAIN, SETTLED

revision = "0023"
down_revision = "0022"

KINDS = ("deposit invoice", "invoice", "receipt", "credit note", "mistake", "refund")

DOCUMENT = (
    ID,
    of("job"),
    words("series"),
    "number INTEGER NOT NULL CHECK (number >= 1)",
    one_of("kind", *KINDS),
    day("issued_on"),
    day("tax_point"),
    day("due_on"),
    pence("gross"),
    group("snapshot"),
    of("document", "refers_to", known=False),
    "UNIQUE (series, number)",
    "CHECK (series = CASE kind WHEN 'deposit invoice' THEN 'invoice' ELSE kind END)",
    "CHECK ((kind = 'credit note') = (refers_to IS NOT NULL))",
)

COUNTER_ENTRY = (
    ID,
    of("job"),
    of("payment"),
    one_of("kind", "mistake", "refund"),
    day("on"),
    pence("pence", least=1),
    words("reason"),
    of("document"),
)

FREED = (ID, of("payment"), of("document"), pence("pence", least=1))

SETTLED_OF = """
    coalesce((SELECT sum(pence) FROM allocation WHERE document_id = {0}), 0)
    - coalesce((SELECT sum(pence) FROM freed WHERE document_id = {0}), 0)
    + coalesce((SELECT sum(gross) FROM document AS note WHERE note.refers_to = {0}), 0)
"""
"""What is taken off what an invoice asks for: what stands paid of it, and what is credited."""

ALLOCATED = """
    coalesce((SELECT sum(pence) FROM allocation WHERE payment_id = {0}), 0)
    - coalesce((SELECT sum(pence) FROM freed WHERE payment_id = {0}), 0)
"""
LEFT_OF_PAYMENT = f"""
    (SELECT pence FROM payment WHERE id = {{0}})
    - coalesce((SELECT sum(pence) FROM counter_entry WHERE payment_id = {{0}}), 0)
    - ({ALLOCATED})
"""  # noqa: S608 -- ours
OWED = f"(SELECT gross FROM document WHERE id = {{0}}) - ({SETTLED_OF})"  # noqa: S608 -- ours

NOT_ALLOCATED = "No more can be taken off a document than was paid on it."
NOT_PAID_BACK = "No more can be given back of a payment than is left of it."
CREDITED = "No more can be credited on an invoice than it asks for, once what was paid is freed."

SAME_PAIR = "(payment_id, document_id) = (NEW.payment_id, NEW.document_id)"
NOT_FREE = f"""
    NEW.pence > coalesce((SELECT sum(pence) FROM allocation WHERE {SAME_PAIR}), 0)
              - coalesce((SELECT sum(pence) FROM freed WHERE {SAME_PAIR}), 0)
"""  # noqa: S608 -- ours

STANDING_INVOICE = """
    SELECT 1 FROM document WHERE job_id = job.id AND kind = 'invoice'
    AND (gross = 0 OR gross > coalesce((SELECT sum(gross) FROM document AS note
                                        WHERE note.refers_to = document.id), 0))
"""
BILLS_OF = "WHERE job_id = job.id AND series = 'invoice' ORDER BY number"
STANDING_BILLS = """WHERE job_id = job.id AND series = 'invoice'
    AND (gross = 0 OR gross > coalesce((SELECT sum(gross) FROM document AS note
                                        WHERE note.refers_to = document.id), 0)) ORDER BY number"""
PAYMENTS = "FROM (SELECT * FROM payment"
PAYMENTS_HELD = """FROM (SELECT id, received_on, pence - coalesce(
        (SELECT sum(pence) FROM counter_entry WHERE payment_id = payment.id), 0) AS pence
    FROM payment"""


def upgrade() -> None:
    """Make the table of documents anew, the two others, the guards of all three, and the views."""
    _documents_anew()
    for name, columns in (("counter_entry", COUNTER_ENTRY), ("freed", FREED)):
        op.execute(f"CREATE TABLE {name} ({', '.join(columns)}) STRICT")
        op.execute(f"CREATE INDEX {name}_by_payment_id ON {name} (payment_id)")
        for what in ("UPDATE", "DELETE"):
            _forbid(name, what, PAID)
        _forbid(name, "INSERT", PAID, f"EXISTS (SELECT 1 FROM {name} WHERE id = NEW.id)")  # noqa: S608 -- ours
    op.execute("CREATE INDEX counter_entry_by_job_id ON counter_entry (job_id)")
    op.execute("CREATE INDEX freed_by_document_id ON freed (document_id)")
    op.execute(
        "CREATE INDEX document_by_refers_to ON document (refers_to) WHERE refers_to IS NOT NULL"
    )
    _guard_sums()
    _views_anew()
    op.execute(
        "CREATE TRIGGER freed_insert_listed AFTER INSERT ON freed "
        f"BEGIN {AGAIN.format(SETTLED.format('NEW'))} END"
    )


def _documents_anew() -> None:
    """Move the rows over; what names them is looked at again when the transaction ends."""
    of_documents = text(
        "SELECT sql FROM sqlite_master WHERE tbl_name = 'document' AND type <> 'table' "
        "AND sql IS NOT NULL ORDER BY type, name"
    )
    hanging = list(op.get_bind().execute(of_documents).scalars())
    op.execute("PRAGMA defer_foreign_keys = ON")
    op.execute("CREATE TABLE document_before AS SELECT * FROM document")
    op.execute("DROP TABLE document")
    op.execute(f"CREATE TABLE document ({', '.join(DOCUMENT)}) STRICT")
    op.execute("INSERT INTO document SELECT *, NULL FROM document_before")
    op.execute("DROP TABLE document_before")
    for statement in hanging:
        op.get_bind().exec_driver_sql(statement)


def _guard_sums() -> None:
    """Let no sum be more than what it is taken from."""
    op.execute("DROP TRIGGER allocation_insert_too_much")
    left = LEFT_OF_PAYMENT.format("NEW.payment_id")
    too_much = f"NEW.pence > {OWED.format('NEW.document_id')} OR NEW.pence > {left}"
    _forbid("allocation", "INSERT", TOO_MUCH, f"NOT {PART_ON_RECORD} AND ({too_much})", "_too_much")
    _forbid("freed", "INSERT", NOT_ALLOCATED, NOT_FREE, "_too_much")
    _forbid("counter_entry", "INSERT", NOT_PAID_BACK, f"NEW.pence > {left}", "_too_much")
    credited = f"NEW.refers_to IS NOT NULL AND NEW.gross > {OWED.format('NEW.refers_to')}"
    _forbid("document", "INSERT", CREDITED, credited, "_credited")
    elsewhere = "NEW.job_id <> (SELECT job_id FROM payment WHERE id = NEW.payment_id)"
    _forbid("counter_entry", "INSERT", OF_ONE_JOB, elsewhere, "_elsewhere")
    _forbid("freed", "INSERT", OF_ONE_JOB, ELSEWHERE, "_elsewhere")


def _views_anew() -> None:
    """Tell both views what counter-entries and credit notes change."""
    paid = re.compile(
        r"coalesce\(\(SELECT sum\(pence\) FROM allocation\s+WHERE document_id = (\S+)\), 0\)"
    )
    invoiced = "SELECT 1 FROM document WHERE job_id = job.id AND kind = 'invoice'"
    for name in ("glance", "to_list"):
        named = text("SELECT sql FROM sqlite_master WHERE name = :name")
        view = op.get_bind().execute(named, {"name": name}).scalar_one()
        view = paid.sub(lambda found: f"({SETTLED_OF.format(found[1])})", view)
        view = view.replace(invoiced, STANDING_INVOICE)
        view = view.replace(BILLS_OF, STANDING_BILLS).replace(PAYMENTS, PAYMENTS_HELD)
        op.execute(f"DROP VIEW {name}")
        op.get_bind().exec_driver_sql(view)


def _forbid(table: str, what: str, sentence: str, when: str = "TRUE", name: str = "") -> None:
    """Have the database refuse to insert, update or delete rows, with a sentence."""
    op.execute(
        f"CREATE TRIGGER {table}_{what.lower()}{name} BEFORE {what} ON {table} "
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{sentence}'); END"
    )
