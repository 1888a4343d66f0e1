"""The least that Textual can do: one word on the screen. What start-up is measured against."""

from textual.app import App, ComposeResult
from textual.widgets import Static

WORD = "Ready"


class BareApp(App[None]):
    """Shows the word."""

    def compose(self) -> ComposeResult:
        """The word."""
        yield Static(WORD)


if __name__ == "__main__":
    BareApp().run()
