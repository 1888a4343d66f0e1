"""Tell shingle nails from felt nails, and keep what the trader nails with.

Nails of one kind held everything: what is in the book of them, in prices, stock, orders and quotes,
is of shingle nails now and keeps its key. Of felt nails each price is begun with a copy, so that
what could be priced before still can; stock holds none of them until some are put in.
"""

from alembic import op
from sqlalchemy import text

from storage.migrations.columns import group

revision = "0022"
down_revision = "0021"

KEPT = "id"
"""Of a price that is copied, what is not."""


def upgrade() -> None:
    """Add the column, and copy the prices."""
    op.execute(f"ALTER TABLE trader ADD COLUMN {group('nailing')} DEFAULT '{{}}'")
    found = op.get_bind().execute(text("SELECT name FROM pragma_table_info('price')")).scalars()
    columns = [f'"{name}"' for name in found if name != KEPT]
    copied = ", ".join("'felt-nails'" if name == '"material"' else name for name in columns)
    op.execute(
        f"INSERT INTO price ({', '.join(columns)}) "  # noqa: S608 -- names of our own columns
        f"SELECT {copied} FROM price WHERE material = 'nails' ORDER BY id"
    )
