"""A dialog with a form: it reads what was typed, hands it on to be saved, and closes once it is."""

from collections.abc import Awaitable, Callable, Iterable, Mapping
from dataclasses import replace
from typing import Any, ClassVar, Generic, TypeVar, cast

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Static

from domain.errors import HeadlapError, Refused
from domain.tone import Tone
from domain.typing_slips import Slip
from storage.errors import Changed
from tui.frame.commands import bindings, key_of
from tui.frame.held_keys import KEYS_WAIT
from tui.frame.key_line import KeyLine
from tui.frame.message_line import MessageLine, Says
from tui.frame.program import Program
from tui.frame.safe_text import plain
from tui.frame.screen import BaseScreen
from tui.widgets.field_row import Field
from tui.widgets.form import Form
from tui.widgets.slip_words import not_saved_yet

T = TypeVar("T")

_KEPT = (
    f"Not saved yet. Your typing is kept: press {key_of('dialog', 'save')} to save "
    "over the other change."
)
_WORK_IN_A_DIALOG = ("help", "switch_colours", "quit")


def dialog_bindings(place: str) -> list[BindingType]:
    """The commands of a kind of dialog, and those of anywhere that lead nowhere else.

    A dialog keeps the bindings of the app from being asked, so it holds them itself.
    """
    kept = [b for b in bindings("anywhere") if b.action in _WORK_IN_A_DIALOG]
    return [*bindings(place), *(replace(b, action=f"app.{b.action}", id=None) for b in kept)]


class FormDialog(ModalScreen[bool], Generic[T]):
    """Asks for a few things and saves them.

    ``read`` turns what was typed into a value or raises :class:`Refused`; ``save`` is awaited with
    that value. Only when it returns does the dialog close (with True); if it raises, the sentence
    is shown and everything typed stays. Escape asks before typing is thrown away.
    """

    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("dialog")
    SCOPED_CSS = False  # what derives from it has another name
    CSS = """
    FormDialog { align: center middle; background: $ground 60%; }
    FormDialog > Vertical {
        width: 76; max-width: 96%; height: auto; max-height: 100%; background: $ground;
        border-top: tall $verdigris; padding: 0 0 0 0;
    }
    FormDialog #title { text-style: bold; padding: 0 2; height: auto; }
    FormDialog #words { color: $quiet; padding: 0 2 1 2; height: auto; }
    FormDialog Form { height: auto; padding: 0 2; }
    FormDialog.-under-70 FieldRow > .label { width: 20; }
    FormDialog.-long-labels FieldRow > .label { width: 28; }
    FormDialog.-under-70.-long-labels FieldRow > .label { width: 28; }
    FormDialog.-under-70 FieldRow > Input.-short { width: 14; }
    FormDialog MessageLine { dock: none; margin: 1 0 0 0; }
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
        slips: Callable[[T], Iterable[Slip]] = lambda _: (),
    ) -> None:
        """``words`` stands under the title, ``values`` in the fields, the cursor at begin_at.

        What ``slips`` finds in the value read is said before the first save, which stops there.
        """
        super().__init__()
        self._title, self._words = title, words
        self._form = Form(fields)
        self._values = dict(values or {})
        self._read, self._save, self._begin_at, self._slips = read, save, begin_at, slips
        self._asked_to_leave = self._saving = self._is_saved = False
        self.put_back: Mapping[str, str] = {}
        """What was typed once before and kept: it is typed again when the dialog opens."""

    @property
    def called(self) -> str:
        """The title: what is asked."""
        return self._title

    @property
    def typed(self) -> dict[str, str]:
        """What was typed and is not saved, raw, by field."""
        return {} if self._is_saved else self._form.typed

    @property
    def labels(self) -> dict[str, str]:
        """What each field is called."""
        return self._form.labels

    def compose(self) -> ComposeResult:
        """Yield the parts of the dialog: title, words, form, message line, line of keys."""
        with Vertical():
            yield Static(plain(self._title), id="title")
            if self._words:
                yield Static(plain(self._words), id="words")
            yield self._form
            yield from self.below()
            yield MessageLine()
            yield KeyLine()

    def below(self) -> Iterable[Widget]:
        """What stands under the form; subclasses override."""
        return ()

    def on_mount(self) -> None:
        """Fill in and put the cursor where typing begins."""
        self._form.fill(self._values)
        self.worked_out(self._form)
        if self._form.fields:
            self._form.focus_first(self._begin_at)
        self._form.put_back(self.put_back)

    def on_resize(self) -> None:
        """The form scrolls in the lines that the rest leaves."""
        self.call_after_refresh(self._fit)

    def say(self, sentence: str, tone: Tone) -> None:
        """Say a sentence under the form; the keys stay in sight."""
        self.query_one(MessageLine).say(sentence, tone)
        self.call_after_refresh(self._fit)

    def on_says(self, event: Says) -> None:
        """Say what the form has to say."""
        event.stop()
        self.say(event.sentence, event.tone)

    def on_form_changed(self, event: Form.Changed) -> None:
        """Forget that Escape was pressed once: something was typed again."""
        event.stop()
        self._asked_to_leave = False
        self.query_one(MessageLine).hush()
        self.worked_out(self._form)

    def worked_out(self, form: Form) -> None:
        """Write what follows from what is typed beside it; subclasses override."""

    def action_save(self) -> None:
        """Read, save, and close when it is saved; a key held down saves once."""
        if not self._saving:
            self._saving = True
            self.run_worker(self._saved(), group=KEYS_WAIT, exit_on_error=False)

    def may_leave(self) -> bool:
        """Whether nothing would be lost; with something typed, only when asked twice."""
        if self._saving:
            return False
        if not self._form.dirty or self._asked_to_leave:
            return True
        self._asked_to_leave = True
        self.say(
            f"Not saved. Press Escape again to lose it, or {key_of('dialog', 'save')} to save.",
            Tone.CAUTION,
        )
        return False

    def action_leave(self) -> None:
        """Go back to the screen below."""
        if self.may_leave():
            self.dismiss(False)

    def on_screen_resume(self) -> None:
        """Close if it was saved while another screen lay above."""
        if self._is_saved:
            self.dismiss(True)

    async def _saved(self) -> None:
        if lacking := self._form.lacking():
            self._refuse(lacking)
            return
        try:
            value = self._read(self._form.values)
            today = cast("Program", self.app).open_book.today
            slips = (*self._form.far_dates(today), *self._slips(value))
            if question := self._form.asks_about(slips):
                self._refuse(not_saved_yet(question), Tone.CAUTION)
                return
            await self._save(value)
        except Changed as error:
            words = await self._look_again()
            kept = f"Meanwhile in another window: {words}. {_KEPT}"
            self._refuse(kept if self._form.fields else str(error))
        except Refused as error:
            self._refuse(self._form.refuse(error))
        except HeadlapError as error:
            self._refuse(str(error))
        except Exception as error:  # nothing is lost: the dialog stays open with all that was typed
            self._refuse(cast("Program", self.app).note_unforeseen(error))
        else:
            self._is_saved = True
            if self.is_current:
                self.dismiss(True)

    async def _look_again(self) -> str:
        """Have the screen below read the record again, and return what was done to it last.

        What is typed is then saved on top of that.
        """
        stack = self.app.screen_stack
        below = stack[stack.index(self) - 1]
        if isinstance(below, BaseScreen):
            await below.reload()
        (last,) = await cast("Program", self.app).open_book.ask(lambda book: book.recent(1))
        return last.words

    def _refuse(self, sentence: str, tone: Tone = Tone.STOP) -> None:
        """Say why it was not saved; it can be tried again."""
        self._saving = False
        self.say(sentence, tone)

    def _fit(self) -> None:
        if not self._form.is_attached:  # what was found beside the typing came as it closed
            return
        rest = [w for w in self.query_one(Vertical).children if w.display and w is not self._form]
        taken = sum(w.outer_size.height + w.styles.margin.height for w in rest)
        self._form.styles.max_height = max(3, self.size.height - taken - 1)
