"""The number that is rung, large enough to be read from the table."""

from collections.abc import Iterable

from textual.containers import Vertical
from textual.widget import Widget
from textual.widgets import Digits, Static

from tui.frame.safe_text import one_line, plain

_LARGE = 20
"""Signs of a number that is drawn large: three cells each."""


class PhoneNumber(Vertical):
    """One number; drawn small if it is not one, and said so if there is none."""

    DEFAULT_CSS = """
    PhoneNumber { height: auto; padding: 0 2; }
    PhoneNumber Digits { height: 3; color: $ink; }
    """

    def __init__(self, phone: str) -> None:
        super().__init__()
        self._phone = one_line(phone).strip()

    def compose(self) -> Iterable[Widget]:
        """Yield the number."""
        phone = self._phone
        if phone and len(phone) <= _LARGE and set(phone) <= set("0123456789+() -"):
            yield Digits(phone)
        else:
            yield Static(plain(phone or "No telephone number is recorded."))
