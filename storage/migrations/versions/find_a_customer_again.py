"""Find a customer again: indexes by name, telephone number, place and postcode.

They hold what is left of a text once what people write now so, now so is taken out, and find who
may be meant; the domain decides. What SQLite cannot put into small letters, or holds more than a
name or a number, stands in an index of its own and is looked at each time: there is little of it.
"""

from alembic import op

from storage.migrations.search_keys import (
    NUMBER_END,
    ODD_CUSTOMER,
    ODD_SITE,
    POSTCODE_END,
    squeezed,
)

revision = "0008"
down_revision = "0007"

INDEXES = (
    f"CREATE INDEX customer_by_name ON customer ({squeezed('name')})",
    f"CREATE INDEX customer_by_phone ON customer ({NUMBER_END})",
    f"CREATE INDEX customer_by_postcode ON customer ({POSTCODE_END})",
    f"CREATE INDEX customer_odd ON customer (id) WHERE {ODD_CUSTOMER}",
    f"CREATE INDEX site_by_place ON site ({squeezed('place')})",
    f"CREATE INDEX site_by_postcode ON site ({POSTCODE_END})",
    f"CREATE INDEX site_odd ON site (customer_id) WHERE {ODD_SITE}",
)


def upgrade() -> None:
    """Make the indexes."""
    for index in INDEXES:
        op.execute(index)
