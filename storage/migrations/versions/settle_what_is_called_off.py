"""Settle the money of a job that is called off: when they told us, what is kept, what goes back."""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import day, pence, words
from storage.migrations.versions.keep_what_is_under_way import AGAIN

revision = "0030"
down_revision = "0029"

CREDIT = """
    coalesce((SELECT sum(pence) FROM payment WHERE job_id = job.id), 0)
    - coalesce((SELECT sum(pence) FROM counter_entry WHERE job_id = job.id), 0)
    - coalesce((SELECT sum(allocation.pence) FROM allocation
                JOIN payment ON payment.id = payment_id WHERE payment.job_id = job.id), 0)
    + coalesce((SELECT sum(freed.pence) FROM freed
                JOIN payment ON payment.id = payment_id WHERE payment.job_id = job.id), 0)
"""
"""What of the payments of a job stands to the customer's credit."""

MORE = f"""job.stage AS stage,
    job.told_on AS told_on,
    ({CREDIT}) AS credit,"""
TO_GIVE_BACK = f"OR (job.ended IS NOT NULL AND ({CREDIT}) > 0) AS under_way"


def upgrade() -> None:
    """Add the columns, and tell both views what is to be paid back."""
    op.execute(f"ALTER TABLE job ADD COLUMN {day('told_on', known=False)}")
    op.execute(f"ALTER TABLE job ADD COLUMN {pence('kept')} DEFAULT 0")
    op.execute(f"ALTER TABLE job ADD COLUMN {words('kept_why')} DEFAULT ''")
    _anew("glance", "job.stage AS stage,", MORE)
    _anew("to_list", " AS under_way", f" {TO_GIVE_BACK}")
    op.execute("DELETE FROM listed")
    op.execute("INSERT INTO listed SELECT * FROM to_list")
    op.execute(
        "CREATE TRIGGER counter_entry_insert_listed AFTER INSERT ON counter_entry "
        f"BEGIN {AGAIN.format('NEW.job_id')} END"
    )


def _anew(view: str, before: str, after: str) -> None:
    named = text("SELECT sql FROM sqlite_master WHERE name = :name")
    told = op.get_bind().execute(named, {"name": view}).scalar_one()
    op.execute(f"DROP VIEW {view}")
    op.get_bind().exec_driver_sql(told.replace(before, after))
