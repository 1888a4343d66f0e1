"""Keep what was bought and driven, and let an action be of any list."""

from alembic import op

from storage.migrations.columns import ID, day, decimal, flag, pence, words
from storage.migrations.versions.freeze_what_was_sent import WRITTEN
from storage.migrations.versions.note_what_an_action_is_of import KEPT

revision = "0028"
down_revision = "0027"

OF_JOB = "job_id INTEGER"
"""It refers to no table: an enquiry that is deleted leaves its miles in the books."""
VERSION = "version INTEGER NOT NULL DEFAULT 0"

PURCHASE = (
    ID,
    day("on"),
    *(words(name) for name in ("merchant", "what")),
    pence("pence", least=1),
    *(words(name) for name in ("cost", "heading")),
    decimal("vat_rate", known=False),
    OF_JOB,
    flag("for_stock"),
    '"material" TEXT',
    decimal("packs"),
    VERSION,
    "CHECK (job_id IS NULL OR NOT for_stock)",
)

MILES = (ID, day("on"), decimal("miles"), words("words"), OF_JOB, VERSION)


def upgrade() -> None:
    """Make both tables; nothing is known to be bought or driven yet."""
    for name, columns in (("purchase", PURCHASE), ("miles", MILES)):
        op.execute(f"CREATE TABLE {name} ({', '.join(columns)}) STRICT")
        op.execute(f'CREATE INDEX {name}_by_on ON {name} ("on")')
        op.execute(f"CREATE INDEX {name}_by_job_id ON {name} (job_id) WHERE job_id IS NOT NULL")
    op.execute(f"ALTER TABLE trader ADD COLUMN {flag('expense_headings')} DEFAULT 0")
    _any_list()


def _any_list() -> None:
    """Give actions a column for their list that is held to no names: SQLite changes no check."""
    op.execute("DROP TRIGGER action_update")
    op.execute("DROP INDEX action_by_list_name")
    op.execute("ALTER TABLE action ADD COLUMN of_list TEXT CHECK (of_list <> '')")
    op.execute("UPDATE action SET of_list = list_name WHERE list_name IS NOT NULL")
    op.execute("ALTER TABLE action DROP COLUMN list_name")
    op.execute("ALTER TABLE action RENAME COLUMN of_list TO list_name")
    op.execute("CREATE INDEX action_by_list_name ON action (list_name)")
    kept = KEPT.split(", ")
    old, new = (", ".join(f"{row}.{name}" for name in kept) for row in ("OLD", "NEW"))
    is_mark = "(OLD.undone_at IS NULL) <> (NEW.undone_at IS NULL)"
    op.execute(
        'CREATE TRIGGER action_update BEFORE UPDATE ON "action" '
        f"WHEN NOT ({is_mark} AND ({old}) IS ({new})) "
        f"BEGIN SELECT RAISE(ABORT, '{WRITTEN}'); END"
    )
