"""The year's books: what was bought, what came back of it, and what was driven."""

from storage.rows.base import Day, Number, Pence, TableRow, Yes, belongs_to, key


class PurchaseRow(TableRow, table=True):
    """One slip, with the sum that stands on it."""

    id: int | None = key()
    on: Day
    merchant: str
    what: str
    pence: Pence
    cost: str
    heading: str
    vat_rate: Number | None
    job_id: int | None
    for_stock: Yes
    material: str | None
    packs: Number
    version: int = 0


class MoneyBackRow(TableRow, table=True):
    """Money that came back of a purchase."""

    id: int | None = key()
    purchase_id: int = belongs_to("purchase")
    on: Day
    pence: Pence
    reason: str
    version: int = 0


class MilesRow(TableRow, table=True):
    """What was driven on one day for one job, or for something else."""

    id: int | None = key()
    on: Day
    miles: Number
    words: str
    job_id: int | None
    version: int = 0
