"""An input in which nothing can stand that a terminal obeys, typed, pasted or put in."""

from textual.widgets import Input

from storage.texts import without_control


class SafeInput(Input):
    """One line of text without control characters, by the rule for all text of the book."""

    def validate_value(self, value: str) -> str:
        """Leave out of what is to stand in it what is no text, and make one line of it."""
        return _on_one_line(value)

    def replace(self, text: str, start: int, end: int) -> None:
        """As the framework's own, by which all typing and pasting goes; the cursor ends behind."""
        super().replace(_on_one_line(text), start, end)


def _on_one_line(text: str) -> str:
    return without_control(text).replace("\n", " ")
