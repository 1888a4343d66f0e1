"""Keep with every document what kind of customer it was for: the kind may be put right later.

Those that were issued before have the kind that their customer has now.
"""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import one_of

revision = "0043"
down_revision = "0042"

KIND_OF = """
    SELECT customer.kind FROM job JOIN site ON site.id = job.site_id
    JOIN customer ON customer.id = site.customer_id WHERE job.id = document.job_id
"""


def upgrade() -> None:
    """Add the column and fill it, the guard on what was issued taken off meanwhile."""
    kind = one_of("customer_kind", "householder", "business", "contractor")
    op.execute(f"ALTER TABLE document ADD COLUMN {kind} DEFAULT 'householder'")
    named = text("SELECT sql FROM sqlite_master WHERE name = 'document_update'")
    guard = op.get_bind().execute(named).scalar_one()
    op.execute("DROP TRIGGER document_update")
    op.execute(f"UPDATE document SET customer_kind = ({KIND_OF})")  # noqa: S608 -- ours
    op.get_bind().exec_driver_sql(guard)
