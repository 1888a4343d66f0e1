"""What the law fixes, as dated tables: VAT, miles, tax years and their quarters, thresholds.

A figure that changes is a new row with its source; the old one stays. What is worked out with them
of a person's own records is in :mod:`domain.accounts` and :mod:`domain.books`.
"""

from domain.tax.vat import (
    VAT_RATES,
    VatBand,
    VatRate,
    VatSum,
    VatTotals,
    added_up,
    less,
    part_of,
    rate_on,
    read_rate,
    totals_of,
    vat_by_rate,
    vat_in,
)

__all__ = [
    "VAT_RATES",
    "VatBand",
    "VatRate",
    "VatSum",
    "VatTotals",
    "added_up",
    "less",
    "part_of",
    "rate_on",
    "read_rate",
    "totals_of",
    "vat_by_rate",
    "vat_in",
]
