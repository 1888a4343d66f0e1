"""The question before a quote that was sent or accepted is priced again."""

from collections.abc import Callable

from domain.job import Quote
from tui.widgets.question import Question


class RepriceDialog(Question):
    """Asks whether a quote that was sent or accepted is to be priced again.

    It is priced once the dialog has closed, so that what is refused is said on the page.
    """

    place = "reprice"

    def __init__(self, counting: Quote, number: int, price: Callable[[], None]) -> None:
        """``number`` is that of the version to come, ``price`` what begins it."""

        async def close() -> None:
            self.app.call_later(price)

        if counting.acceptance:
            stands = "is accepted"
            still = f"Version {counting.number} stands until the customer accepts version {number}."
        else:
            stands = "has gone out"
            still = f"Version {counting.number} can be accepted until version {number} goes out."
        super().__init__(
            f"Version {counting.number} {stands}. Re-price as a new version?",
            close,
            f"Version {number} starts as a draft at today's prices. {still}",
        )
