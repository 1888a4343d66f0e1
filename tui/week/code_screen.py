"""A text message shown as a square code, to be sent from the telephone that reads it."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from domain.week.ring_text import Message
from tui.frame.key_line import KeyLine
from tui.frame.safe_text import plain
from tui.widgets.form_dialog import dialog_bindings
from tui.widgets.square_code import CodeView, message_code

_BESIDE = 24
"""Cells that the words beside the code need."""


class CodeScreen(ModalScreen[None]):
    """The code as large as the window lets it be; words beside it."""

    place: ClassVar[str] = "code"
    places: ClassVar[tuple[str, ...]] = ("code",)
    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("code")
    CSS = """
    CodeScreen { background: $ground; }
    CodeScreen Horizontal { height: 1fr; }
    CodeScreen #beside { width: 1fr; padding: 1 1 0 2; }
    CodeScreen #beside > Static { margin-bottom: 1; }
    CodeScreen #to { text-style: bold; }
    CodeScreen #shortened { color: $caution; }
    CodeScreen #how { color: $quiet; }
    """

    def __init__(self, who: str, number: str, message: Message) -> None:
        """``number`` is in international form."""
        super().__init__()
        self._who, self._number, self._message = who, number, message

    def compose(self) -> ComposeResult:
        """The code at the left, what it says at the right."""
        size = self.app.size
        side = min(2 * (size.height - 1), size.width - _BESIDE)
        code = message_code(self._number, self._message.full, self._message.brief, side)
        with Horizontal():
            if code is not None:
                yield CodeView(code)
            with Vertical(id="beside"):
                yield Static(plain(f"To {self._who}, {self._number}"), id="to")
                if code is None:
                    yield Static("The window is too small to show the code.", id="shortened")
                else:
                    yield Static(plain(code.text), id="text")
                    if code.is_shortened:
                        yield Static("Shortened to fit this window.", id="shortened")
                    yield Static("The camera of a telephone opens it as a message.", id="how")
        yield KeyLine()

    def action_leave(self) -> None:
        """Go back to the call."""
        self.dismiss()
