"""The plans of a roof that are kept with each covering of a quote, as JSON text.

What is cut, laid and nailed stays as it was sold, whatever becomes of stock and packs.
"""

from datetime import date

from domain.cutting.plans import Plans
from domain.job import Job
from domain.snapshot import from_json, to_json
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import TakeOff


def plans_to_keep(takeoff: TakeOff, on: date) -> str:
    """Both plans of a take-off that is worked out; empty for one that has none."""
    if isinstance(takeoff, FeltTakeOff) or takeoff.working is None:
        return ""
    return to_json(Plans(on, takeoff.fewest, takeoff.working))


def plans_of(job: Job, covering: str) -> Plans | None:
    """The plans kept with the quote of a job in a covering; None if there are none.

    Older quotes kept none, and what cannot be read is worked out anew.
    """
    options = job.quote.options if job.quote else ()
    kept = next((option.plans for option in options if option.covering == covering), "")
    try:
        return from_json(Plans, kept) if kept else None
    except (KeyError, TypeError, ValueError):
        return None
