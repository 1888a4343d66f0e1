"""Keep how VAT stands to a price agreed before the trader registered: once invoiced, for good."""

from alembic import op

from storage.migrations.columns import day, one_of

revision = "0036"
down_revision = "0035"

SETTLED = "An invoice says how VAT stands to the price."


def upgrade() -> None:
    """Nobody was asked yet."""
    terms = one_of(
        "vat_terms", "inside the agreed price", "added, as agreed in writing", known=False
    )
    op.execute(f"ALTER TABLE job ADD COLUMN {terms}")
    op.execute(f"ALTER TABLE job ADD COLUMN {day('vat_agreed_on', known=False)}")
    op.execute(
        "CREATE TRIGGER job_vat_terms_frozen BEFORE UPDATE OF vat_terms, vat_agreed_on ON job "  # noqa: S608 -- ours
        "WHEN OLD.vat_terms IS NOT NULL "
        "AND (OLD.vat_terms, OLD.vat_agreed_on) IS NOT (NEW.vat_terms, NEW.vat_agreed_on) "
        "AND EXISTS (SELECT 1 FROM document WHERE job_id = OLD.id AND series = 'invoice' "
        "AND json_extract(snapshot, '$.vat_words') <> '') "
        f"BEGIN SELECT RAISE(ABORT, '{SETTLED}'); END"
    )
