"""Keep which final quotes and invoices wait to be sent, and the day on which they were.

Those of before were marked as sent when they were made final: of them there is no row.
"""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import ID, day, of, one_of, whole

revision = "0019"
down_revision = "0018"

COLUMNS = (
    ID,
    of("job"),
    one_of("paper", "quote", "invoice"),
    whole("number", 1, 10**9),
    day("sent_on", known=False),
)

UNSENT = """SELECT {} FROM to_send WHERE job_id = job.id AND paper = '{}' AND sent_on IS NULL"""

MORE = f"""
    quote.number AS quote_number,
    EXISTS ({UNSENT.format("1", "quote")} AND number = quote.number) AS quote_unsent,
    ({UNSENT.format("json_group_array(number)", "invoice")}) AS unsent_invoices,
    job.stage AS stage,
"""


def upgrade() -> None:
    """Make the table, and the view once more with what it tells now."""
    once = "UNIQUE (job_id, paper, number)"
    op.execute(f"CREATE TABLE to_send ({', '.join((*COLUMNS, once))}) STRICT")
    named = text("SELECT sql FROM sqlite_master WHERE name = 'glance'")
    view = op.get_bind().execute(named).scalar_one()
    op.execute("DROP VIEW glance")
    op.get_bind().exec_driver_sql(view.replace("job.stage AS stage,", MORE))
