"""A question in which nothing is typed: y does it, Enter and Escape leave all as it is."""

from collections.abc import Awaitable, Callable
from typing import Any, ClassVar

from tui.widgets.form_dialog import FormDialog, dialog_bindings


class Question(FormDialog[None], inherit_bindings=False):
    """Subclasses give the ``place`` of its two commands: :func:`question` of the commands."""

    place: ClassVar[str]
    places: ClassVar[tuple[str, ...]]
    """The places whose commands the palette and the help page show."""

    def __init_subclass__(cls, **kwargs: Any) -> None:
        """Bind the two answers."""
        cls.BINDINGS = dialog_bindings(cls.place)
        cls.places = (cls.place,)
        super().__init_subclass__(**kwargs)

    def __init__(self, title: str, save: Callable[[], Awaitable[Any]], words: str) -> None:
        """``save`` does what is asked; ``words`` say what that would mean."""
        super().__init__(title, (), lambda _: None, lambda _: save(), words=words)
