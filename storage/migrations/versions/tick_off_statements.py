"""Tick off the statements of what contractors deducted, and tell which are awaited."""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import day, of, only_one_per
from storage.migrations.versions.keep_what_is_under_way import AGAIN, OF_JOB

revision = "0034"
down_revision = "0033"

AWAITED = """
    FROM payment WHERE job_id = job.id AND cis > 0
    AND NOT EXISTS (SELECT 1 FROM statement WHERE payment_id = payment.id)
    AND NOT EXISTS (SELECT 1 FROM counter_entry
                    WHERE payment_id = payment.id AND kind = 'mistake')
"""
OPEN_SNAG = "SELECT 1 FROM snag WHERE job_id = job.id AND done_on IS NULL"
BILL = "kind = 'deposit invoice'))"
CUSTOMER_PAID = "AS paid\n"


def upgrade() -> None:
    """Make the table, and tell both views: a job waits for its statements under way."""
    columns = (only_one_per("payment"), of("job"), day("on"))
    op.execute(f"CREATE TABLE statement ({', '.join(columns)}) STRICT")
    op.execute("CREATE INDEX statement_by_job_id ON statement (job_id)")
    op.execute("CREATE INDEX payment_deducted ON payment (job_id) WHERE cis > 0")
    awaited = f"SELECT json_group_array(json_array(received_on, cis)) {AWAITED}"
    _change(
        "glance",
        (BILL, "kind = 'deposit invoice', cis))"),
        (CUSTOMER_PAID, f"AS paid,\n    ({awaited}) AS statements\n"),
    )
    waits = f"EXISTS ({OPEN_SNAG}) OR EXISTS (SELECT 1 {AWAITED})"
    _change("to_list", (f"EXISTS ({OPEN_SNAG})", waits))
    for change, row in (("INSERT", "NEW"), ("DELETE", "OLD")):
        op.execute(
            f"CREATE TRIGGER statement_{change.lower()}_listed AFTER {change} ON statement "
            f"BEGIN {AGAIN.format(OF_JOB.format(row))} END"
        )


def _change(name: str, *changes: tuple[str, str]) -> None:
    """Make a view anew with words of it changed."""
    named = text("SELECT sql FROM sqlite_master WHERE name = :name")
    view = op.get_bind().execute(named, {"name": name}).scalar_one()
    for before, after in changes:
        if before not in view:
            raise LookupError(before)
        view = view.replace(before, after)
    op.execute(f"DROP VIEW {name}")
    op.get_bind().exec_driver_sql(view)
