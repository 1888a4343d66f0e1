"""Keep which invoices were chased, and until when, and tell it at a glance."""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import ID, day, flag, of

revision = "0018"
down_revision = "0017"

COLUMNS = (ID, of("job"), of("document"), day("on"), day("until"), flag("promised"))

CHASED = """
    SELECT json_group_array(json_array(document_id, "on", until, promised, id))
    FROM (SELECT * FROM chase WHERE job_id = job.id ORDER BY id)
"""

MORE = f"""
    ({CHASED}) AS chased,
    job.stage AS stage,
"""


def upgrade() -> None:
    """Make the table, and the view once more with what it tells now."""
    op.execute(f"CREATE TABLE chase ({', '.join(COLUMNS)}) STRICT")
    op.execute("CREATE INDEX chase_by_job_id ON chase (job_id)")
    named = text("SELECT sql FROM sqlite_master WHERE name = 'glance'")
    view = op.get_bind().execute(named).scalar_one()
    op.execute("DROP VIEW glance")
    op.get_bind().exec_driver_sql(view.replace("job.stage AS stage,", MORE))
