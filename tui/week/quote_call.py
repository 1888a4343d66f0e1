"""The call about a quote that has run out, or soon will: made and recorded from its line."""

from collections.abc import Awaitable, Callable, Iterable
from datetime import timedelta
from typing import Any, ClassVar

from textual.binding import BindingType
from textual.widget import Widget

from domain.errors import NotNow
from domain.estimate.quoting import basis_of, price_job
from domain.estimate.supplies import PricesAndStock
from domain.job import Acceptance, Closing, Ending, Job
from domain.page_names import PageName
from domain.week import Task, WeekLine
from domain.week.put_off import PutOff
from storage.book import Book
from tui.frame.screen import BaseScreen
from tui.job.quote.quote_dialogs import accept_dialog, agreed
from tui.week.phone_number import PhoneNumber
from tui.week.sending import send_newest
from tui.widgets.form_dialog import FormDialog, dialog_bindings

_CAME_TO_NOTHING = "the quote came to nothing"
_ANSWERS = (
    "They want it: record the yes, or price it again and send that. They do not: record "
    "that it came to nothing. Nobody answered: ring again tomorrow."
)


def ring_about_quote(screen: BaseScreen, task: Task, line: WeekLine) -> None:
    """Show the number, and record what came of the call."""
    job_id, today = line.job_id, screen.open_book.today

    async def no_answer() -> None:
        again = PutOff(task.kind, today + timedelta(days=1))
        await screen.open_book.ask(lambda book: book.ring_again(book.job(job_id), again))
        await screen.say_saved(f"{task.who}: no answer. Back tomorrow.")

    async def came_to_nothing() -> None:
        closing = Closing(Ending.DECLINED, _CAME_TO_NOTHING, today)
        await screen.open_book.ask(lambda book: book.end_job(book.job(job_id), closing))
        await screen.say_saved(f"{task.who}: declined.")

    def renew() -> None:
        screen.in_worker(_renewed(screen, task, job_id))

    def said_yes() -> None:
        screen.in_worker(_accepted(screen, job_id))

    dialog = QuoteCallDialog(
        f"Ring {task.who}: {task.words[0].lower()}{task.words[1:]}",
        line.phone,
        no_answer=no_answer,
        came_to_nothing=came_to_nothing,
        said_yes=said_yes,
        renew=renew,
        quote=lambda: screen.program.open_job(job_id, PageName.QUOTE),
    )
    screen.app.push_screen(dialog, lambda _: dialog.go_on())


async def _accepted(screen: BaseScreen, job_id: int) -> None:
    """Ask who said yes, how and where, and record it. Raises :class:`NotNow` if none was sent."""
    today = screen.open_book.today
    job = await screen.open_book.ask(lambda book: book.job(job_id))
    quote = job.newest_sent
    if quote is None:
        raise NotNow("The quote has not been sent yet.")

    async def save(acceptance: Acceptance) -> None:
        await screen.open_book.ask(lambda book: book.accept_quote(job, acceptance))
        await screen.say_saved(agreed(job, acceptance, today))

    screen.app.push_screen(accept_dialog(job, quote, today, save))


async def _renewed(screen: BaseScreen, task: Task, job_id: int) -> None:
    """Price the quote again as a new version, and ask to make that final."""
    today = screen.open_book.today

    def priced(book: Book) -> Job:
        job = book.job(job_id)
        basis = basis_of(job.quotes[-1])
        if basis is None:
            raise NotNow("Price it on its quote page first: how far it is was never recorded.")
        sources = PricesAndStock(book.prices(), book.free_stock(job.id), today)
        deposit = job.quotes[-1].deposit
        return book.save_quote(job, price_job(job, book.trader(), sources, basis.miles, deposit))

    await screen.open_book.ask(priced)
    await screen.reload()
    await send_newest(screen, task, job_id)


class QuoteCallDialog(FormDialog[None], inherit_bindings=False):
    """Nothing is typed: each answer has its key."""

    place: ClassVar[str] = "quote_call"
    places: ClassVar[tuple[str, ...]] = ("quote_call",)
    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("quote_call")

    def __init__(
        self,
        title: str,
        phone: str,
        *,
        no_answer: Callable[[], Awaitable[Any]],
        came_to_nothing: Callable[[], Awaitable[Any]],
        said_yes: Callable[[], Any],
        renew: Callable[[], Any],
        quote: Callable[[], Any],
    ) -> None:
        """The last three go on once it is closed; the others are recorded before."""
        super().__init__(title, (), lambda _: None, lambda _: self._record(), words=_ANSWERS)
        self._phone = phone
        self._record = self._no_answer = no_answer
        self._came_to_nothing = came_to_nothing
        self._said_yes, self._renew, self._quote = said_yes, renew, quote
        self.go_on: Callable[[], Any] = lambda: None
        """What comes once it is closed."""

    def below(self) -> Iterable[Widget]:
        """The number."""
        return (PhoneNumber(self._phone),)

    def on_mount(self) -> None:
        """Hide the form: nothing is typed here."""
        super().on_mount()
        self._form.display = False

    def action_no_answer(self) -> None:
        """Ring again tomorrow."""
        self._record = self._no_answer
        self.action_save()

    def action_came_to_nothing(self) -> None:
        """Record that they do not want it."""
        self._record = self._came_to_nothing
        self.action_save()

    def action_said_yes(self) -> None:
        """Record that they want it as it was quoted."""
        self.go_on = self._said_yes
        self.dismiss(False)

    def action_renew(self) -> None:
        """Price it again, and make that final."""
        self.go_on = self._renew
        self.dismiss(False)

    def action_quote(self) -> None:
        """Go to the quote page."""
        self.go_on = self._quote
        self.dismiss(False)
