"""The question before a quote that was sent or accepted is priced again."""

from collections.abc import Callable
from typing import ClassVar

from textual.binding import BindingType

from domain.job import Quote
from tui.widgets.form_dialog import FormDialog, dialog_bindings


class RepriceDialog(FormDialog[None], inherit_bindings=False):
    """Asks whether a quote that was sent or accepted is to be priced again; nothing is typed.

    It is priced once the dialog has closed, so that what is refused is said on the page.
    """

    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("reprice")

    def __init__(self, counting: Quote, number: int, price: Callable[[], None]) -> None:
        """``number`` is that of the version to come, ``price`` what begins it."""

        async def close(_: None) -> None:
            self.app.call_later(price)

        if counting.acceptance:
            stands = "is accepted"
            still = f"Version {counting.number} stands until the customer accepts version {number}."
        else:
            stands = "has gone out"
            still = f"Version {counting.number} can be accepted until version {number} goes out."
        super().__init__(
            f"Version {counting.number} {stands}. Re-price as a new version?",
            (),
            lambda _: None,
            close,
            words=f"Version {number} starts as a draft at today's prices. {still}",
        )
