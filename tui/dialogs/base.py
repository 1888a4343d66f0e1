"""A dialog with a form: it reads what was typed, hands it on to be saved, and closes once it is."""

from collections.abc import Awaitable, Callable, Iterable, Mapping
from typing import Any, ClassVar, Generic, TypeVar, cast

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from domain.errors import HeadlapError, Refused
from domain.papers.blocks import Tone
from tui.commands import bindings
from tui.safe_text import plain
from tui.widgets.form import Field, Form
from tui.widgets.key_line import KeyLine
from tui.widgets.voice import Voice

T = TypeVar("T")


class FormDialog(ModalScreen[bool], Generic[T]):
    """Asks for a few things and saves them.

    ``read`` turns what was typed into a value or raises :class:`Refused`; ``save`` is awaited with
    that value. Only when it returns does the dialog close (with True); if it raises, the sentence
    is shown and everything typed stays. Escape asks before typing is thrown away.
    """

    BINDINGS: ClassVar[list[BindingType]] = cast("list[BindingType]", bindings("dialog"))
    SCOPED_CSS = False  # what derives from it has another name
    CSS = """
    FormDialog { align: center middle; background: $ground 60%; }
    FormDialog > Vertical {
        width: 76; max-width: 96%; height: auto; max-height: 100%; background: $ground;
        border-top: tall $brick; padding: 0 0 0 0;
    }
    FormDialog #title { text-style: bold; padding: 0 2; height: auto; }
    FormDialog #words { color: $quiet; padding: 0 2 1 2; height: auto; }
    FormDialog Form { height: auto; padding: 0 2; }
    FormDialog Voice { dock: none; margin: 1 0 0 0; }
    FormDialog KeyLine { dock: none; margin-top: 1; }
    """

    def __init__(
        self,
        title: str,
        fields: Iterable[Field],
        read: Callable[[dict[str, str]], T],
        save: Callable[[T], Awaitable[Any]],
        *,
        words: str = "",
        values: Mapping[str, str] | None = None,
        begin_at: str | None = None,
    ) -> None:
        """``words`` stands under the title, ``values`` in the fields, the cursor at begin_at."""
        super().__init__()
        self._title, self._words = title, words
        self._form = Form(fields)
        self._values = dict(values or {})
        self._read, self._save, self._begin_at = read, save, begin_at
        self._asked_to_leave = False

    def compose(self) -> ComposeResult:
        """Title, words, form, voice, keys."""
        with Vertical():
            yield Static(plain(self._title), id="title")
            if self._words:
                yield Static(plain(self._words), id="words")
            yield self._form
            yield Voice()
            yield KeyLine()

    def on_mount(self) -> None:
        """Fill in and put the cursor where typing begins."""
        self._form.fill(self._values)
        if self._form.fields:
            self._form.focus_first(self._begin_at)

    def on_resize(self) -> None:
        """The form scrolls in the lines that the rest leaves."""
        self.call_after_refresh(self._fit)

    def say(self, sentence: str, tone: Tone) -> None:
        """Say a sentence under the form; the keys stay in sight."""
        self.query_one(Voice).say(sentence, tone)
        self.call_after_refresh(self._fit)

    def on_form_changed(self, event: Form.Changed) -> None:
        """Typing again means not leaving."""
        event.stop()
        self._asked_to_leave = False
        self.query_one(Voice).hush()
        self.worked_out(self._form)

    def worked_out(self, form: Form) -> None:
        """Write what follows from what is typed beside it; subclasses override."""

    def action_save(self) -> None:
        """Read, save, and close when it is saved."""
        self.run_worker(self._saved(), exclusive=True, exit_on_error=False)

    def action_leave(self) -> None:
        """Step back; with something typed, only when asked twice."""
        if self._form.dirty and not self._asked_to_leave:
            self._asked_to_leave = True
            self.say(
                "What you typed is not saved. Escape again throws it away; ctrl+s saves it.",
                Tone.CAUTION,
            )
            return
        self.dismiss(False)

    async def _saved(self) -> None:
        try:
            await self._save(self._read(self._form.values))
        except HeadlapError as error:
            self.say(str(error), Tone.STOP)
            if isinstance(error, Refused):
                self._form.refuse(error)
            return
        except Exception as error:  # nothing is lost: the dialog stays open with all that was typed
            from tui.app import HeadlapApp

            self.say(cast("HeadlapApp", self.app).note_unforeseen(error), Tone.STOP)
            return
        self.dismiss(True)

    def _fit(self) -> None:
        rest = [w for w in self.query_one(Vertical).children if w.display and w is not self._form]
        taken = sum(w.outer_size.height + w.styles.margin.height for w in rest)
        self._form.styles.max_height = max(3, self.size.height - taken - 1)
