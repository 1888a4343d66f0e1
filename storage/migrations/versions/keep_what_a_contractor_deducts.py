"""Keep contractors, how the trader stands to CIS, and what is deducted from their payments.

A customer's kind is held to a list by its table, and SQLite changes no such check: the table is
made anew, with all that hangs on it, in the same transaction as the rest.
"""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import ID, day, flag, one_of, pence, words
from storage.migrations.versions.lay_out_the_book import VERSION
from storage.migrations.versions.put_mistakes_right import PAYMENTS_HELD, SETTLED_OF

revision = "0029"
down_revision = "0028"

CUSTOMER = (
    ID,
    words("name"),
    one_of("kind", "householder", "business", "contractor"),
    *map(words, ("address", "phone", "email")),
    VERSION,
    f"{flag('kind_asked')} DEFAULT 1",
    f"{words('tax_reference')} DEFAULT ''",
    f"{words('vat_number')} DEFAULT ''",
    f"{flag('in_cis')} DEFAULT 1",
    day("end_user_on", known=False),
)

DEDUCTED = """
    coalesce((SELECT sum(cis) FROM payment WHERE id IN
        (SELECT payment_id FROM allocation WHERE document_id = {0})
        AND NOT EXISTS (SELECT 1 FROM counter_entry
                        WHERE payment_id = payment.id AND kind = 'mistake')), 0)
"""
"""What a contractor deducted of the payments that stand allocated to a document."""

MONEY_ALONE = (
    "pence - coalesce(\n        (SELECT sum(pence) FROM counter_entry "
    "WHERE payment_id = payment.id), 0)",
    "max(0, pence - cis - coalesce(\n        (SELECT sum(pence) FROM counter_entry "
    "WHERE payment_id = payment.id), 0))",
)
"""What came in of a payment: the rest was deducted."""


def upgrade() -> None:
    """Make the table of customers anew, add the other columns, and tell the views of them."""
    _customers_anew()
    standing = one_of("cis_standing", "gross", "registered", "not matched")
    op.execute(f"ALTER TABLE trader ADD COLUMN {standing} DEFAULT 'not matched'")
    op.execute(f"ALTER TABLE job ADD COLUMN {flag('on_foundation')} DEFAULT 1")
    for table, whole in (("document", "gross"), ("payment", "pence")):
        within = f"{pence('cis')} DEFAULT 0 CHECK (cis <= {whole})"
        op.execute(f"ALTER TABLE {table} ADD COLUMN {within}")
    _views_anew()


def _customers_anew() -> None:
    """Move the rows over; what names them is looked at again when the transaction ends."""
    of_customers = text(
        "SELECT sql FROM sqlite_master WHERE tbl_name = 'customer' AND type <> 'table' "
        "AND sql IS NOT NULL ORDER BY type, name"
    )
    hanging = list(op.get_bind().execute(of_customers).scalars())
    columns = "id, name, kind, address, phone, email, version, kind_asked"
    op.execute("PRAGMA defer_foreign_keys = ON")
    op.execute("CREATE TABLE customer_before AS SELECT * FROM customer")
    op.execute("DROP TABLE customer")
    op.execute(f"CREATE TABLE customer ({', '.join(CUSTOMER)}) STRICT")
    op.execute(f"INSERT INTO customer ({columns}) SELECT {columns} FROM customer_before")  # noqa: S608 -- ours
    op.execute("DROP TABLE customer_before")
    for statement in hanging:
        op.get_bind().exec_driver_sql(statement)


def _views_anew() -> None:
    """What is owed is money: what a contractor has yet to deduct will not come."""
    for name in ("glance", "to_list"):
        named = text("SELECT sql FROM sqlite_master WHERE name = :name")
        view = op.get_bind().execute(named, {"name": name}).scalar_one()
        for row in ("d", "document"):
            debt = f"gross - ({SETTLED_OF.format(f'{row}.id')})"
            to_deduct = f"max(0, cis - {DEDUCTED.format(f'{row}.id')})"
            view = view.replace(debt, f"max(0, {debt} - {to_deduct})")
        view = view.replace(PAYMENTS_HELD, PAYMENTS_HELD.replace(*MONEY_ALONE))
        op.execute(f"DROP VIEW {name}")
        op.get_bind().exec_driver_sql(view)
