"""How VAT stands to a price that was agreed before the trader registered for it."""

from enum import StrEnum


class VatTerms(StrEnum):
    """Asked once, when the job is first invoiced after registering."""

    INSIDE = "inside the agreed price"
    ADDED = "added, as agreed in writing"
