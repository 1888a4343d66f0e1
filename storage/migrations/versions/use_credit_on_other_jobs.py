"""Let what stands to a customer's credit settle the invoice of another job of theirs.

Until now a payment settled invoices of its own job alone. What is taken off an invoice again needs
no such guard: it can only be what the same payment was put to.
"""

from alembic import op

revision = "0033"
down_revision = "0032"

OF_ONE_CUSTOMER = "A payment settles invoices of its own customer."

CUSTOMER_OF = """
    SELECT customer_id FROM {0} JOIN job ON job.id = job_id JOIN site ON site.id = job.site_id
    WHERE {0}.id = NEW.{0}_id
"""
ANOTHERS = f"""
    ({CUSTOMER_OF.format("payment")}) IS NOT ({CUSTOMER_OF.format("document")})
    OR 'invoice' IS NOT (SELECT series FROM document WHERE id = NEW.document_id)
"""  # noqa: S608 -- ours


def upgrade() -> None:
    """Set the one guard in place of the two."""
    for table in ("allocation", "freed"):
        op.execute(f"DROP TRIGGER {table}_insert_elsewhere")
    op.execute(
        "CREATE TRIGGER allocation_insert_elsewhere BEFORE INSERT ON allocation "
        f"WHEN {ANOTHERS} BEGIN SELECT RAISE(ABORT, '{OF_ONE_CUSTOMER}'); END"
    )
