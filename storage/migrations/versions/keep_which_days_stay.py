"""Keep which booked days stay whatever the forecast, and tell it at a glance.

Where a job can be moved to hangs on the days that the customer ruled out: they are told too.
"""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import ID, day, of, words

revision = "0016"
down_revision = "0015"

COLUMNS = (
    ID,
    of("job"),
    day("day"),
    day("on"),
    words("forecast"),
)

STAY = """
    SELECT json_group_array(json_array(day, "on", forecast, id))
    FROM (SELECT * FROM rung WHERE job_id = job.id ORDER BY id)
"""

MORE = f"""
    site.ruled_out AS ruled_out,
    ({STAY}) AS rung,
    job.stage AS stage,
"""


def upgrade() -> None:
    """Make the table, and the view once more with what it tells now."""
    op.execute(f'CREATE TABLE "rung" ({", ".join(COLUMNS)}) STRICT')
    op.execute('CREATE INDEX "rung_by_job_id" ON "rung" (job_id)')
    named = text("SELECT sql FROM sqlite_master WHERE name = 'glance'")
    view = op.get_bind().execute(named).scalar_one()
    op.execute("DROP VIEW glance")
    op.get_bind().exec_driver_sql(view.replace("job.stage AS stage,", MORE))
