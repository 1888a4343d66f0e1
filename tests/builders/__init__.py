"""Whole jobs at every stage, with sensible defaults that a test changes where it matters.

``ready_for(stage)`` stands one previous stage with everything recorded that the stage asks for;
``job_at(stage)`` is that job, moved. Days run from the enquiry on Monday 1 June 2026 to the
invoice's due date; `TODAY_AT` gives a day on which each stage is fresh.
"""

from tests.builders.jobs import (
    TODAY_AT,
    job_at,
    ready_for,
    situation,
)
from tests.builders.parts import (
    AGREED,
    DUE,
    LAY_DAY,
    RECEIVED,
    SENT,
    SIGNED,
    VALID_UNTIL,
    VISIT,
    acceptance,
    basis,
    booked_day,
    customer,
    draft,
    enquiry,
    invoice,
    laying,
    lines,
    measures,
    mm,
    option,
    payment,
    sent,
    site,
    stripping,
    survey,
    trader,
    usages,
)
from tests.builders.week import (
    forecast,
    week_line,
)

__all__ = [
    "AGREED",
    "DUE",
    "LAY_DAY",
    "RECEIVED",
    "SENT",
    "SIGNED",
    "TODAY_AT",
    "VALID_UNTIL",
    "VISIT",
    "acceptance",
    "basis",
    "booked_day",
    "customer",
    "draft",
    "enquiry",
    "forecast",
    "invoice",
    "job_at",
    "laying",
    "lines",
    "measures",
    "mm",
    "option",
    "payment",
    "ready_for",
    "sent",
    "site",
    "situation",
    "stripping",
    "survey",
    "trader",
    "usages",
    "week_line",
]
