"""The palette: every command by its name, with its key beside it."""

from textual.command import CommandPalette, SearchIcon


class CommandFinder(CommandPalette):
    """The framework's palette in words of our own; a plain sign stands where one types."""

    CSS = "CommandFinder > Vertical { background: $panel; }"

    def __init__(self) -> None:
        super().__init__(placeholder="Type what you want to do")

    def on_mount(self) -> None:
        """A sign that every terminal draws one cell wide."""
        self.query_one(SearchIcon).icon = "›"
