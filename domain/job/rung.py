"""That the customer was rung about the weather of a booked day, and wants it to stay."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Rung:
    """A booked day that stays: nothing more is asked until its forecast is another one."""

    day: date
    on: date
    """When the customer was rung."""
    forecast: str
    """What was forecast by then, as :func:`domain.days.forecast_line.show_token` has it."""
    id: int | None = None
