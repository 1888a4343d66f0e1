"""Keep write-offs, what of a deduction goes with a part of a payment, and what is taken further.

A contractor's one payment may settle several invoices: what was deducted of it is shared over
them, where until now each of them counted the whole. A credit note on such an invoice makes the
deduction smaller. A job whose customer has money to their credit is under way, and a payment's job
is looked at again when it settles another's.
"""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import ID, day, flag, of, pence, words
from storage.migrations.versions.freeze_what_was_sent import PAID
from storage.migrations.versions.keep_what_a_contractor_deducts import DEDUCTED
from storage.migrations.versions.keep_what_is_under_way import AGAIN
from storage.migrations.versions.put_mistakes_right import OWED, SETTLED_OF
from storage.migrations.versions.settle_what_is_called_off import CREDIT

revision = "0037"
down_revision = "0036"

WRITE_OFF = (
    ID,
    of("job"),
    of("document"),
    day("on"),
    pence("pence", least=1),
    f"{pence('vat')} CHECK (vat <= pence)",
    words("reason"),
    of("write_off", "takes_back", known=False),
    "UNIQUE (takes_back)",
)

WRITTEN_OFF = """
    + coalesce((SELECT sum(CASE WHEN takes_back IS NULL THEN pence ELSE -pence END)
                FROM write_off WHERE document_id = {0}), 0)
"""
ALL_OF = SETTLED_OF + WRITTEN_OFF
"""What is taken off what an invoice asks for: paid, credited, written off."""

ANEW = """cis - coalesce((SELECT sum(cis) FROM document AS note WHERE note.refers_to = {0}), 0)
    - coalesce((SELECT sum(cis) FROM allocation WHERE document_id = {0}), 0)
    + coalesce((SELECT sum(cis) FROM freed WHERE document_id = {0}), 0)
"""
"""What a contractor has yet to deduct of an invoice."""

ENDED_WITH = f"(job.ended IS NOT NULL AND ({CREDIT}) > 0)"
PROMISED = 'json_array(document_id, "on", until, promised, id)'

NOT_DEDUCTED = "No more of a deduction can be put to invoices than the payment says."
NOT_OWED = "No more can be written off an invoice than is owed on it."
NOT_TAKEN_BACK = "A write-off is cancelled whole, and once."
WRITTEN = "A write-off on record never changes."

SHARED = """
    UPDATE allocation SET cis = max(0, min(pence,
        (SELECT cis FROM payment WHERE id = payment_id) - coalesce((SELECT sum(earlier.pence)
            FROM allocation AS earlier WHERE earlier.payment_id = allocation.payment_id
            AND earlier.id < allocation.id), 0)))
    WHERE payment_id IN (SELECT id FROM payment WHERE cis > 0)
"""
FREED_AGAIN = """
    UPDATE freed SET cis = min(pence, (SELECT cis FROM allocation
        WHERE allocation.payment_id = freed.payment_id
        AND allocation.document_id = freed.document_id))
    WHERE payment_id IN (SELECT payment_id FROM counter_entry WHERE kind = 'mistake')
"""


def upgrade() -> None:
    """Make the table and the columns, share out what is on record, and tell guards and views."""
    for table in ("allocation", "freed"):
        op.execute(f"ALTER TABLE {table} ADD COLUMN {pence('cis')} DEFAULT 0 CHECK (cis <= pence)")
    op.execute(f"ALTER TABLE chase ADD COLUMN {flag('further')} DEFAULT 0")
    _write_offs()
    _share_out()
    for trigger, row in (
        ("allocation_insert_too_much", "NEW.document_id"),
        ("document_insert_credited", "NEW.refers_to"),
    ):
        _changed("TRIGGER", trigger, ((SETTLED_OF.format(row), ALL_OF.format(row)),))
    changes = [
        pair
        for row in ("d.id", "document.id")
        for pair in (
            (SETTLED_OF.format(row), ALL_OF.format(row)),
            (f"cis - {DEDUCTED.format(row)}", ANEW.format(row)),
        )
    ]
    _changed("VIEW", "glance", (*changes, (PROMISED, PROMISED.replace("id)", "id, further)"))))
    _changed("VIEW", "to_list", (*changes[2:], (ENDED_WITH, f"({CREDIT}) > 0")))
    op.execute("DELETE FROM listed")
    op.execute("INSERT INTO listed SELECT * FROM to_list")


def _write_offs() -> None:
    op.execute(f"CREATE TABLE write_off ({', '.join(WRITE_OFF)}) STRICT")
    for column in ("job_id", "document_id"):
        op.execute(f"CREATE INDEX write_off_by_{column} ON write_off ({column})")
    for what in ("UPDATE", "DELETE"):
        _forbid("write_off", what, WRITTEN)
    _forbid("write_off", "INSERT", WRITTEN, "EXISTS (SELECT 1 FROM write_off WHERE id = NEW.id)")
    owed = f"{OWED.format('NEW.document_id')} - (0 {WRITTEN_OFF.format('NEW.document_id')})"
    too_much = f"NEW.takes_back IS NULL AND NEW.pence > {owed}"
    _forbid("write_off", "INSERT", NOT_OWED, too_much, "_too_much")
    named = """NEW.takes_back IS NOT NULL AND NOT EXISTS (SELECT 1 FROM write_off
        WHERE id = NEW.takes_back AND takes_back IS NULL
        AND (document_id, pence, vat) = (NEW.document_id, NEW.pence, NEW.vat))"""
    _forbid("write_off", "INSERT", NOT_TAKEN_BACK, named, "_taken_back")
    op.execute(
        "CREATE TRIGGER write_off_insert_listed AFTER INSERT ON write_off "
        f"BEGIN {AGAIN.format('NEW.job_id')} END"
    )


def _share_out() -> None:
    """Share what was deducted; what changed a row before may not, so that guard is set again."""
    for table, change in (("allocation", SHARED), ("freed", FREED_AGAIN)):
        op.execute(f"DROP TRIGGER {table}_update")
        op.execute(change)
        _forbid(table, "UPDATE", PAID)
        op.execute(f"DROP TRIGGER {table}_insert_listed")
        both = (
            "SELECT job_id FROM document WHERE id = NEW.document_id "
            "UNION SELECT job_id FROM payment WHERE id = NEW.payment_id"
        )
        op.execute(
            f"CREATE TRIGGER {table}_insert_listed AFTER INSERT ON {table} "
            f"BEGIN {AGAIN.format(both)} END"
        )
    left = """NEW.cis > (SELECT cis FROM payment WHERE id = NEW.payment_id)
        - coalesce((SELECT sum(cis) FROM allocation WHERE payment_id = NEW.payment_id), 0)
        + coalesce((SELECT sum(cis) FROM freed WHERE payment_id = NEW.payment_id), 0)"""
    _forbid("allocation", "INSERT", NOT_DEDUCTED, left, "_deducted")


def _changed(what: str, name: str, changes: tuple[tuple[str, str], ...]) -> None:
    """Make a view or a trigger anew with words of it changed."""
    named = text("SELECT sql FROM sqlite_master WHERE name = :name")
    told = op.get_bind().execute(named, {"name": name}).scalar_one()
    for before, after in changes:
        if before not in told:
            raise LookupError(before)
        told = told.replace(before, after)
    op.execute(f"DROP {what} {name}")
    op.get_bind().exec_driver_sql(told)


def _forbid(table: str, what: str, sentence: str, when: str = "TRUE", name: str = "") -> None:
    """Have the database refuse to insert, update or delete rows, with a sentence."""
    op.execute(
        f"CREATE TRIGGER {table}_{what.lower()}{name} BEFORE {what} ON {table} "
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{sentence}'); END"
    )
