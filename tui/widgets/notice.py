"""Why a form that was asked for does not come: it takes the keys meant for the form, until left."""

from typing import ClassVar

from textual.binding import BindingType

from tui.widgets.form_dialog import FormDialog, dialog_bindings


class Notice(FormDialog[None], inherit_bindings=False):
    """Says what comes first. Typed ahead, an amount or a name would else be commands below."""

    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("notice")
    places = ("notice",)
    """Where its commands are declared."""

    def __init__(self, title: str, words: str) -> None:
        """``words`` say why, and what would do."""
        super().__init__(title, (), lambda _: None, _saves_nothing, words=words)


async def _saves_nothing(_: None) -> None:
    """There is nothing to save."""
