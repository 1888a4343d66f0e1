"""That a customer was reminded of an invoice, or said when they would pay it."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Chase:
    """An invoice that is not chased again before a day."""

    document_id: int
    on: date
    """When it was chased."""
    until: date
    """The day on which it is back in Tonight, if it is still owed."""
    promised: bool
    """Whether it is the customer who named that day."""
    id: int | None = None
    further: bool = False
    """Whether it was taken further: to whoever gets it paid for the trader."""

    @property
    def is_reminder(self) -> bool:
        """Whether the trader asked for the money."""
        return not self.promised and not self.further
