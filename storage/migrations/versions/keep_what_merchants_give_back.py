"""Keep money that came back of a purchase: never more than was paid, and nothing of it goes."""

from alembic import op

from storage.migrations.columns import ID, day, of, pence, words
from storage.migrations.versions.keep_what_is_in_the_books import AS_JOURNALLED, IN_THE_BOOKS

revision = "0041"
down_revision = "0040"

MONEY_BACK = (
    ID,
    of("purchase"),
    day("on"),
    pence("pence"),
    words("reason"),
    "version INTEGER NOT NULL DEFAULT 0",
)
TOO_MUCH_BACK = "No more can come back of a purchase than was paid for it."

_COLUMNS = ("purchase_id", "on", "pence", "reason")
_CAME = "SELECT coalesce(sum(pence), 0) FROM money_back WHERE purchase_id"


def upgrade() -> None:
    """Make the table, with what it is held to; nothing came back yet."""
    op.execute(f"CREATE TABLE money_back ({', '.join(MONEY_BACK)}) STRICT")
    op.execute("CREATE INDEX money_back_by_purchase_id ON money_back (purchase_id)")
    op.execute('CREATE INDEX money_back_by_on ON money_back ("on")')
    there = AS_JOURNALLED.format("money_back")
    told = ", ".join(f"json_extract(journal.after, '$.{name}')" for name in _COLUMNS)
    old, new = (", ".join(f'{row}."{name}"' for name in _COLUMNS) for row in ("OLD", "NEW"))
    differs = f"({old}) IS NOT ({new}) AND ({new}) IS NOT (SELECT {told} {there})"
    _forbid("money_back", "UPDATE", f"OLD.id IS NOT NEW.id OR ({differs})")
    _forbid("money_back", "DELETE", f"(SELECT journal.after {there}) IS NOT NULL")
    _forbid("money_back", "INSERT", "EXISTS (SELECT 1 FROM money_back WHERE id = NEW.id)")
    paid = "(SELECT pence FROM purchase WHERE id = NEW.purchase_id)"
    for what in ("INSERT", "UPDATE"):
        _demand("money_back", what, f"({_CAME} = NEW.purchase_id) > {paid}")
    _demand("purchase", "UPDATE", f"({_CAME} = NEW.id) > NEW.pence")


def _forbid(table: str, what: str, when: str) -> None:
    op.execute(
        f"CREATE TRIGGER {table}_{what.lower()}_kept BEFORE {what} ON {table} "
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{IN_THE_BOOKS}'); END"
    )


def _demand(table: str, what: str, when: str) -> None:
    """Refuse what leaves more money back than was paid."""
    op.execute(
        f"CREATE TRIGGER {table}_{what.lower()}_came_back AFTER {what} ON {table} "
        f"WHEN {when} BEGIN SELECT RAISE(ABORT, '{TOO_MUCH_BACK}'); END"
    )
