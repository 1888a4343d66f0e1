"""The trader's details: one form in sections."""

import asyncio
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual.widget import Widget

from domain.errors import Refused
from domain.scope import ListName
from domain.signs import Sign
from domain.starting_rates import CHARGES, WORK_RATES, starting_rates, with_confirmed
from domain.tone import Tone
from storage.backups.second import can_be_reached
from storage.pictures import read_picture
from tui.frame.commands import key_of
from tui.frame.screen import NOTHING_CHANGED, BaseScreen
from tui.widgets.form import Form
from tui.widgets.slip_words import not_saved_yet
from tui.your_details.details_fields import FIELDS
from tui.your_details.details_read import trader_from_fields, trader_typed, with_logo

if TYPE_CHECKING:
    from domain.look import Picture
    from domain.trader import Trader


class DetailsScreen(BaseScreen):
    """Saves on ctrl+s and stays, unless it was opened for one field.

    Escape asks before typing is thrown away.
    """

    place: ClassVar[str] = "trader"
    title_words: ClassVar[str] = "your details"
    undo_of = ListName.DETAILS
    CSS = """
    DetailsScreen Form { padding: 0 2; }
    DetailsScreen FieldRow > .unit { width: 1fr; }
    DetailsScreen FieldRow > .note { display: none; width: 12; text-align: right; }
    DetailsScreen FieldRow > .note.-caution { display: block; }
    DetailsScreen.-under-70 FieldRow > .label { width: 20; }
    DetailsScreen.-under-70 FieldRow > Input.-short { width: 14; }
    DetailsScreen.-under-70 FieldRow > .note { width: 3; }
    """

    def __init__(self, put_back: Mapping[str, str] | None = None, field: str = "") -> None:
        """``put_back`` is what was typed once before and kept: it is typed again.

        With a ``field`` the cursor goes there, and once it is saved the screen closes.
        """
        super().__init__()
        self._trader: Trader | None = None
        self._asked_to_leave = False
        self._put_back, self._field = dict(put_back or {}), field

    def body(self) -> list[Widget]:
        """The form, not seen before it is filled."""
        form = Form(FIELDS)
        form.visible = False
        return [form]

    @property
    def typed(self) -> dict[str, str]:
        """What was typed and is not saved, raw, by field."""
        return self.query_one(Form).typed

    @property
    def labels(self) -> dict[str, str]:
        """What each field is called."""
        return self.query_one(Form).labels

    async def reload(self) -> None:
        """Show what is recorded, unless something is being typed."""
        form = self.query_one(Form)
        if not form.dirty:
            before = form.values
            self._trader = await self.open_book.ask(lambda book: book.trader())
            typed = {key: text for key, text in form.values.items() if text != before[key]}
            self._fill(form)
            for key, text in typed.items():  # while it was read
                form.put(key, text)
            if not form.visible:
                form.visible = True
                form.focus_first(self._field or None)
                form.put_back(self._put_back)

    def heading_words(self) -> str:
        """Return what a starting figure wants, while there is one."""
        if self._trader is None or not starting_rates(self._trader.rates):
            return ""
        keys = key_of("trader", "confirm")
        return f"{Sign.CAUTION} starting figures: change them, or {keys} keeps them"

    def _fill(self, form: Form) -> None:
        """Show what is recorded, and beside each rate whether it is a starting figure."""
        if self._trader is None:
            return
        form.fill(trader_typed(self._trader))
        starting = starting_rates(self._trader.rates)
        for name in (*CHARGES, *WORK_RATES):
            said, none = (f"{Sign.CAUTION} starting", Tone.CAUTION), ("", Tone.PLAIN)
            form.note(name, *(said if name in starting else none))
        self.refresh_heading()

    def on_form_changed(self, event: Form.Changed) -> None:
        """Forget that Escape was pressed once: something was typed again."""
        event.stop()
        self._asked_to_leave = False

    def action_save(self) -> None:
        """Save what was typed."""
        self.save_in_worker(self._saved())

    def action_confirm(self) -> None:
        """Save what was typed, and take the starting figures as the trader's own."""
        if self._trader is not None and not starting_rates(self._trader.rates):
            self.say("There is no starting figure left.", Tone.QUIET)
        else:
            self.save_in_worker(self._saved((*CHARGES, *WORK_RATES)))

    def action_backups(self) -> None:
        """See the backups."""
        self.program.action_go("backups")

    def action_section(self, by: int) -> None:
        """To the next part of the form or the one before."""
        self.query_one(Form).to_section(by)

    def may_leave(self) -> bool:
        """Whether nothing would be lost; with something typed, only when asked twice."""
        if not self.query_one(Form).dirty or self._asked_to_leave:
            return True
        self._asked_to_leave = True
        self.say(
            f"Not saved. Leave again to lose it, or {key_of('trader', 'save')} to save.",
            Tone.CAUTION,
        )
        return False

    def action_back(self) -> None:
        """Go back to the screen below."""
        if self.may_leave():
            super().action_back()

    async def _saved(self, confirmed: tuple[str, ...] = ()) -> None:
        form = self.query_one(Form)
        if self._trader is None:
            return
        try:
            details = trader_from_fields(form.values, self._trader, self.open_book.today)
            details = replace(details, rates=with_confirmed(details.rates, confirmed))
            if question := form.asks_about(form.far_last_days(self.open_book.today)):
                self.say(not_saved_yet(question), Tone.CAUTION)
                return
            logo = await asyncio.to_thread(self._new_logo, form.values["logo"], details)
            if logo is not None or not form.values["logo"].strip():
                details = with_logo(details, logo)
            before = self._trader.version
            self._trader = await self.open_book.ask(lambda book: book.save_trader(details, logo))
        except Refused as error:
            self.say(form.refuse(error), Tone.STOP)
            return
        self._fill(form)
        folder = self._trader.backup_folder
        if self._trader.version == before:
            self.say(NOTHING_CHANGED, Tone.QUIET)
        elif folder and not can_be_reached(folder, self.open_book.path):
            words = f"Saved. {folder} is not there now: backups go there when it is."
            await self._say_saved(words, Tone.CAUTION)
        else:
            await self._say_saved("Saved. Quotes and invoices already sent stay as they were.")

    async def _say_saved(self, sentence: str, tone: Tone = Tone.GOOD) -> None:
        """Say so here, or below if it was opened for one field."""
        stack = self.app.screen_stack if self._field else []
        below = stack[stack.index(self) - 1] if self in stack else None
        if not isinstance(below, BaseScreen):
            await self.say_saved(sentence, tone)
            return
        below.undo_of = self.undo_of
        below.in_worker(below.say_saved(sentence, tone))
        self.leave()

    def _new_logo(self, typed: str, trader: "Trader") -> "Picture | None":
        """Return the picture of a file that was named; None for none, or for the one there is."""
        if not typed.strip() or typed == trader.look.logo_name:
            return None
        from tui.papers.as_pdf import demand_drawn

        picture = read_picture("logo", typed)
        demand_drawn("logo", typed, picture.content)
        return picture
