"""Keep how the customer asked for an early start, when the materials came, and urgent repairs."""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import day, one_of, words

revision = "0031"
down_revision = "0030"

ASKED = "acceptance.early_request_on AS early_request_on"
IN_WRITING = """CASE WHEN acceptance.request_means IS NOT NULL
        THEN acceptance.early_request_on END AS early_request_on,
    acceptance.materials_on AS materials_on"""
DISTANT = "acceptance.made_at <> 'at the trader''s own premises'"
NOT_URGENT = f"{DISTANT} AND acceptance.urgent_why = ''"


def upgrade() -> None:
    """Add the columns, and let the week know only of what was asked for in writing."""
    means = one_of("request_means", "signed", "e-mail", "text", known=False)
    for column in (
        means,
        day("materials_on", known=False),
        f"{words('urgent_why')} DEFAULT ''",
    ):
        op.execute(f"ALTER TABLE acceptance ADD COLUMN {column}")
    named = text("SELECT sql FROM sqlite_master WHERE name = 'glance'")
    view = op.get_bind().execute(named).scalar_one()
    op.execute("DROP VIEW glance")
    op.get_bind().exec_driver_sql(view.replace(ASKED, IN_WRITING).replace(DISTANT, NOT_URGENT))
