"""What is ordered at a merchant, and for which jobs."""

from storage.rows.base import Day, Number, TableRow, Yes, belongs_to, key


class OrderedRow(TableRow, table=True):
    """So many packs of one item."""

    id: int | None = key()
    merchant: str
    material: str
    colour: str
    packs: int
    per_pack: Number
    ordered_on: Day
    expected_on: Day
    deliver_to: str
    came: int
    came_on: Day | None


class MerchantRow(TableRow, table=True):
    """A merchant, once more than the name is known."""

    __tablename__ = "merchant"

    id: int | None = key()
    name: str
    phone: str
    deliver_to: str


class OrderedForRow(TableRow, table=True):
    """A job that waits for it; settled if nothing was left to order for the job."""

    __tablename__ = "ordered_for"

    id: int | None = key()
    ordered_id: int = belongs_to("ordered")
    job_id: int = belongs_to("job")
    settled: Yes
