"""A new enquiry, taken down while the customer is on the telephone."""

import asyncio
from collections.abc import Awaitable, Callable
from datetime import date
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual.binding import BindingType
from textual.widgets import Input

from domain.errors import HeadlapError
from domain.estimate.supplies import Unpriced
from domain.job import EnquiryRecord
from domain.signs import Sign
from domain.tone import Tone
from storage.errors import Changed
from tui.frame.commands import bindings, key_of
from tui.frame.held_keys import KEYS_WAIT
from tui.job.enquiry.enquiry_fields import (
    NOMINAL,
    ON_THE_PHONE,
    VISIT_AT,
    enquiry_typed,
    new_enquiry,
    read_enquiry,
    rough_words,
    visit_time_words,
)
from tui.job.enquiry.known_caller import Caller, asking
from tui.widgets.choice import ChoiceField
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog, dialog_bindings

if TYPE_CHECKING:
    from storage.book import Book
    from tui.frame.open_book import OpenBook
    from tui.frame.program import Program

_PAUSE_S = 0.15
"""Seconds without a key before anything is worked out."""


class EnquiryDialog(FormDialog[EnquiryRecord]):
    """The dialog, with the rough price beside the nominal size as it is typed.

    Under what is typed it says who it may be that asks, if it is a customer already; their details
    are taken over by a key and never unasked.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        *dialog_bindings("dialog"),
        *bindings("enquiry"),
    ]
    places = ("enquiry", "dialog")
    """Where its commands are declared."""
    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    EnquiryDialog #title { padding-bottom: 1; }
    EnquiryDialog FieldRow > Input { width: 26; }
    EnquiryDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def __init__(
        self,
        save: Callable[[EnquiryRecord], Awaitable[Any]],
        today: date,
        customer_id: int | None = None,
    ) -> None:
        """``save`` is awaited with what was typed, on top of what is recorded of who asks.

        It begins with the details of the customer with ``customer_id``, if there is one.
        """
        self.caller, self._begins_with = Caller(), customer_id

        def read(values: dict[str, str]) -> EnquiryRecord:
            return read_enquiry(values, self.caller.record(values, today), today)

        values = enquiry_typed(new_enquiry(today))
        super().__init__("New enquiry", ON_THE_PHONE, read, save, values=values)

    def on_mount(self) -> None:
        """Take over whose page it was asked for on, once the form is filled."""
        super().on_mount()
        if self._begins_with is not None:
            taken = self._take(self._begins_with)
            self.run_worker(taken, group=KEYS_WAIT, exit_on_error=False)

    def worked_out(self, form: Form) -> None:
        """Return the rough price of what is typed so far."""
        note_visit(form)
        self.run_worker(self._priced(form), exit_on_error=False)
        if self.caller.lets_go(form.values) or self.caller.taken is not None:
            self._tell()
        self.run_worker(self._looked(form), exit_on_error=False)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's own names
        """There are only details to take over where somebody is known."""
        return action != "take_over" or bool(self.caller.may_be) or self._is_behind

    def action_take_over(self) -> None:
        """Take over the details of who may be asking; again, of the next; then of none."""
        self.run_worker(self._taken_over(), group=KEYS_WAIT, exit_on_error=False)

    @property
    def _is_behind(self) -> bool:
        """Whether something was typed since it was last looked who it may be."""
        return self.caller.taken is None and self.caller.looked_for != asking(self._form.values)

    async def _taken_over(self) -> None:
        try:
            if self._is_behind:
                await self._look()
        except HeadlapError as error:
            self.say(str(error), Tone.CAUTION)
        if not self.caller.may_be:
            self.say("Nobody in the book has this name, number or place.", Tone.QUIET)
            return
        form = self._form
        became = self.caller.next(form.values, "kind" in form.typed)
        with form.prevent(Input.Changed, ChoiceField.Changed):  # it is not typed: keep what is said
            for field_id in ("name", "place", "phone", "email", "kind"):
                form.put(field_id, became[field_id])
        self._tell()
        again = key_of("enquiry", "take_over")
        taken = self.caller.taken
        if taken is None:
            self.say("As you typed it: the enquiry of a new customer.", Tone.QUIET)
        else:
            is_last = taken == self.caller.may_be[-1]
            back = "for what you typed" if is_last else "for the next who may be meant"
            self.say(f"For {taken.customer.called}. {again} again {back}.", Tone.QUIET)
            # What is typed next is of the new job: in a name it would rename the customer.
            form.focus_first(next(f.id for f in form.fields if not form.values[f.id]))

    async def _take(self, customer_id: int) -> None:
        """Begin with the details of a customer: it was asked for on their own page."""
        open_book = cast("Program", self.app).open_book
        known = await open_book.ask(lambda book: book.known_customer(customer_id))
        if known is not None:
            self.caller.looked_for = asking(self._form.values)
            self.caller.may_be = (known,)
            await self._taken_over()

    async def _looked(self, form: Form) -> None:
        """Look who may be asking, once typing pauses."""
        typed = asking(form.values)
        await asyncio.sleep(_PAUSE_S)
        if not form.is_attached or asking(form.values) != typed or not self._is_behind:
            return
        program = cast("Program", self.app)
        try:
            await self._look()
        except HeadlapError:  # said when it is saved; it can be typed without
            return
        except Exception as error:
            self.say(program.note_unforeseen(error), Tone.CAUTION)

    async def _look(self) -> None:
        typed = asking(self._form.values)
        open_book = cast("Program", self.app).open_book
        found = await open_book.ask(lambda book: book.customers_like(typed))
        if asking(self._form.values) == typed and self.caller.taken is None:
            self.caller.looked_for, self.caller.may_be = typed, found
            self._tell()

    def _tell(self) -> None:
        """Say who it may be, or who it is by now, under one field."""
        form = self._form
        focused = self.focused.id if self.focused is not None else None
        typed_in = (focused or "").removeprefix("field-")
        under, words = self.caller.told(form.values, typed_in)
        renamed = self.caller.taken is not None and self.caller.renames(form.values)
        tone, keys = Tone.CAUTION if renamed else Tone.GOOD, ""
        if self.caller.taken is None:
            take = key_of("enquiry", "take_over")
            tone, keys = Tone.PLAIN, f"{take}: it is them. Enter: go on, as somebody new."
        for field_id in ("name", "phone", "place"):
            form.tell(field_id, words if field_id == under else "", tone, keys)
        self.refresh_bindings()
        self.on_resize()

    async def _priced(self, form: Form) -> None:
        program = cast("Program", self.app)
        try:
            await note_rough(form, program.open_book, "Save the enquiry first, then go to Prices")
            self.on_resize()
        except HeadlapError as error:
            self.say(str(error), Tone.CAUTION)
        except Exception as error:  # the enquiry can be taken down without a price
            self.say(program.note_unforeseen(error), Tone.CAUTION)


def enquiry_dialog(
    open_book: "OpenBook", opened: Callable[[int], None], customer_id: int | None = None
) -> FormDialog[EnquiryRecord]:
    """Ask for a new enquiry; ``opened`` is called with the id of the new job once it is saved.

    ``customer_id`` is whose page it is asked for on.
    """

    async def save(asked: EnquiryRecord) -> None:
        try:
            job = await open_book.ask(lambda book: book.take_enquiry(asked))
        except Changed:
            await _read_again(asked.customer.id)
            raise
        if job.id is not None:
            # The dialog closes as soon as this returns; only then may a screen come on top.
            dialog.app.call_later(opened, job.id)

    async def _read_again(customer_id: int | None) -> None:
        """Another window changed the customer: what is typed is saved on top of that."""
        if customer_id is not None:
            known = await open_book.ask(lambda book: book.known_customer(customer_id))
            dialog.caller.taken = known

    dialog = EnquiryDialog(save, open_book.today, customer_id)
    return dialog


def note_visit(form: Form) -> None:
    """Write the time of the visit in words beside it: half 2 is in the afternoon."""
    form.note(VISIT_AT.id, visit_time_words(form.values[VISIT_AT.id]), Tone.QUIET)


async def note_rough(form: Form, open_book: "OpenBook", remedy: str) -> None:
    """Write the rough price beside the nominal size, once typing pauses.

    Which prices are missing is said under it, or that starting figures are in it, where that hides
    no refusal; ``remedy`` leads to them.
    Raises :class:`HeadlapError` if the book cannot be read.
    """
    typed = form.values[NOMINAL.id]
    await asyncio.sleep(_PAUSE_S)
    if not form.is_attached or form.values[NOMINAL.id] != typed:
        return
    today = open_book.today

    def words(book: "Book") -> tuple[str, Tone, bool]:
        return rough_words(typed, book.trader(), book.sources(None, today))

    prices = key_of("anywhere", "go('prices')")
    try:
        said, tone, starting = await open_book.ask(words)
        lacking = (
            f"{Sign.CAUTION} From starting figures: make them yours in Prices ({prices})."
            if starting
            else ""
        )
    except Unpriced as error:
        said, tone = "prices missing", Tone.CAUTION
        lacking = f"{Sign.CAUTION} {error.lacking}. {remedy} ({prices})."
    if form.is_attached and form.values[NOMINAL.id] == typed:
        form.note(NOMINAL.id, said, tone)
        form.tell(NOMINAL.id, lacking, Tone.CAUTION)
