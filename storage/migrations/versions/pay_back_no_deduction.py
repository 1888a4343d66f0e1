"""Count to what is to be paid back the money that came, and nothing that was deducted of it."""

from alembic import op
from sqlalchemy import text

from storage.migrations.versions.settle_what_is_called_off import CREDIT

revision = "0040"
down_revision = "0039"

_DEDUCTED = """
    coalesce((SELECT sum(cis) FROM payment WHERE job_id = job.id AND id NOT IN
              (SELECT payment_id FROM counter_entry WHERE kind = 'mistake')), 0)
    - coalesce((SELECT sum(allocation.cis) FROM allocation
                JOIN payment ON payment.id = payment_id WHERE payment.job_id = job.id), 0)
    + coalesce((SELECT sum(freed.cis) FROM freed
                JOIN payment ON payment.id = payment_id WHERE payment.job_id = job.id), 0)
"""
"""What was deducted of the payments of a job, and goes with no invoice."""
REFUNDABLE = f"{CREDIT} - ({_DEDUCTED})"
"""What of the payments of a job is money that was paid over."""


def upgrade() -> None:
    """Tell both views."""
    for view in ("glance", "to_list"):
        named = text("SELECT sql FROM sqlite_master WHERE name = :name")
        told = op.get_bind().execute(named, {"name": view}).scalar_one()
        op.execute(f"DROP VIEW {view}")
        op.get_bind().exec_driver_sql(told.replace(CREDIT, REFUNDABLE))
    op.execute("DELETE FROM listed")
    op.execute("INSERT INTO listed SELECT * FROM to_list")
