"""The journal: what was done, and every row that it touched as it was before and after."""

from storage.rows.base import Json, TableRow, belongs_to, key


class ActionRow(TableRow, table=True):
    """One action of the person: of a job, or of a list; ``follows`` is what stood before it."""

    id: int | None = key()
    at: str
    words: str
    undone_at: str | None = None
    job_id: int | None = None
    made_in: str = ""
    follows: int | None = None
    list_name: str | None = None


class JournalRow(TableRow, table=True):
    """One row that an action wrote; ``before`` is None for a new row, ``after`` for one gone."""

    id: int | None = key()
    action_id: int = belongs_to("action")
    entity: str
    before: Json | None
    after: Json | None
