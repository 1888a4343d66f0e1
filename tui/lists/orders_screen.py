"""Orders: what to order at each merchant for the coming jobs, and what is on its way."""

from collections.abc import Mapping, Sequence
from typing import ClassVar

from rich.text import Text
from textual.widget import Widget
from textual.widgets import Static

from domain.days.calendar import show_date
from domain.estimate.ordering import MerchantList
from domain.scope import ListName
from domain.tone import Tone
from domain.trader import Trader
from domain.week import Task
from storage.saved_papers import keep_paper, papers_folder
from tui.frame.safe_text import plain
from tui.frame.screen import BaseScreen
from tui.lists.order_dialogs import Placed, ordered_dialog, part_dialog
from tui.lists.order_pages import Delivery, Page, drawn, page_for, pages_of, settles, title_of, told
from tui.papers.copying import copy_or_save
from tui.widgets.line_list import LineList

_NONE = "Nothing to order for the bookings of the next two weeks, and nothing on its way."
_IN_STOCK = (
    "Nothing to order for it: it is all in stock, or on its way. "
    "Say so on its booking page: materials in hand."
)


class OrdersScreen(BaseScreen):
    """A page a merchant; left and right turn over."""

    place: ClassVar[str] = "orders"
    title_words: ClassVar[str] = "orders"
    undo_of = ListName.STOCK
    CSS = """
    OrdersScreen #told { margin: 0 2 1 2; color: $quiet; height: auto; }
    OrdersScreen LineList { margin: 0 2; }
    """

    def __init__(self, task: Task | None = None) -> None:
        """``task`` is the line of Tonight that it was opened from."""
        super().__init__()
        self._asked_by = task
        self._pages: tuple[Page, ...] = ()
        self._lists: tuple[MerchantList, ...] = ()
        self._trader = Trader()
        self._at: int | None = None
        self._said = ""
        """What was saved, to be said where it leads to."""

    def heading_words(self) -> str:
        """The merchant in front, and which of how many lists it is."""
        page = self._page
        if page is None or self._at is None:
            return ""
        return f"{title_of(page)} · {self._at + 1} of {len(self._pages)} · ← →"

    def body(self) -> list[Widget]:
        """Return what is told of the list, and the list."""
        return [Static("", id="told"), LineList()]

    def on_mount(self) -> None:
        """Put the cursor into the list."""
        self.query_one(LineList).focus()

    async def reload(self) -> None:
        """Read what is to be ordered, and what is on its way."""
        today = self.open_book.today
        orders, self._trader = await self.open_book.ask(
            lambda book: (book.orders(today), book.trader())
        )
        self._lists, self._pages = orders.lists, pages_of(orders)
        if self._at is None:
            self._at = page_for(self._pages, self._asked_by)
            if self._at is None and self._asked_by is not None:
                self.say(_IN_STOCK, Tone.QUIET)
        self._at = max(0, min(self._at or 0, len(self._pages) - 1))
        self._show()

    def action_next_list(self, by: int) -> None:
        """Turn over to the next list or the one before."""
        if self._pages and self._at is not None:
            self._at = (self._at + by) % len(self._pages)
            self._show()

    def action_open(self) -> None:
        """Mark the list in front as ordered, or say what has come."""
        page = self._page
        if isinstance(page, MerchantList):
            self._ask_ordered((page,))
        else:
            self.action_part()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Do as Enter does."""
        event.stop()
        self.action_open()

    def action_all_ordered(self) -> None:
        """Mark the lists of every merchant as ordered."""
        if self._lists:
            self._ask_ordered(self._lists)
        else:
            self.say("Nothing is left to order.", Tone.QUIET)

    def action_here(self) -> None:
        """All of it is here."""
        page = self._page
        if isinstance(page, Delivery):
            came = {line.id or 0: line.to_come for line in page.lines}
            self.save_in_worker(self._all_here(came))
        else:
            self.say("Mark it as ordered first." if page else _NONE, Tone.QUIET)

    def action_part(self) -> None:
        """Some of it is here."""
        page = self._page
        if isinstance(page, Delivery):
            self.app.push_screen(part_dialog(page.lines, self._here), self._answered)
        else:
            self.say("Mark it as ordered first." if page else _NONE, Tone.QUIET)

    def action_copy(self) -> None:
        """Copy the list for the merchant; no price is in it."""
        page = self._to_order()
        if page is not None:
            self.in_worker(self._copied(page))

    def action_paper(self) -> None:
        """Show the merchant's paper, and beneath it one's own with prices."""
        from domain.papers.order_paper import order_paper
        from tui.papers.paper_screen import PaperScreen

        page = self._to_order()
        if page is not None:
            theirs, own = (
                order_paper(page, self._trader, self._place(page), priced=priced)
                for priced in (False, True)
            )
            self.app.push_screen(PaperScreen(theirs, own))

    def action_spreadsheet(self) -> None:
        """Save the list as a CSV file."""
        page = self._to_order()
        if page is not None:
            self.in_worker(self._kept(page))

    @property
    def _page(self) -> Page | None:
        return self._pages[self._at] if self._pages and self._at is not None else None

    def _to_order(self) -> MerchantList | None:
        """The list in front if it is still to be ordered, else say so."""
        page = self._page
        if isinstance(page, MerchantList):
            return page
        self.say("This is ordered already." if page else _NONE, Tone.QUIET)
        return None

    def _place(self, page: MerchantList) -> str:
        """Where it goes unless something else is chosen: to the first job."""
        return page.jobs[0].address or page.jobs[0].place

    def _ask_ordered(self, lists: Sequence[MerchantList]) -> None:
        async def save(placed: Placed) -> None:
            today, day = self.open_book.today, placed.expected_on
            await self.open_book.ask(
                lambda book: book.mark_ordered(lists, today, day, placed.deliver_to)
            )
            self._said = f"Ordered, to come on {show_date(day)}."

        dialog = ordered_dialog(lists, self._trader, self.open_book.today, save)
        self.app.push_screen(dialog, self._answered)

    async def _here(self, came: Mapping[int, int]) -> None:
        today = self.open_book.today
        await self.open_book.ask(lambda book: book.mark_here(came, today))
        self._said = "Here: it is in stock."

    async def _all_here(self, came: Mapping[int, int]) -> None:
        await self._here(came)
        await self._settled()

    def _answered(self, saved: bool | None) -> None:
        if saved:
            self.in_worker(self._settled())

    async def _settled(self) -> None:
        """Go back to Tonight once the line that led here is settled; else show what is left."""
        await self.reload()
        asked = self._asked_by
        if asked is not None and not any(settles(page, asked) for page in self._pages):
            below = self.app.screen_stack[-2]
            self.leave()
            if isinstance(below, BaseScreen):
                below.in_worker(below.say_saved(self._said))
        else:
            await self.say_saved(self._said)

    async def _copied(self, page: MerchantList) -> None:
        from domain.papers.order_paper import order_text

        text = order_text(page, self._trader, self._place(page))
        title = f"Order for {title_of(page)}"
        unsure = await copy_or_save(self.app, self.open_book.path, title, text)
        self.say(unsure or f"Copied: the order for {title_of(page)}.")

    async def _kept(self, page: MerchantList) -> None:
        from domain.papers.order_paper import CSV_TITLES, order_rows
        from storage.export import rows_as_csv

        content = rows_as_csv(CSV_TITLES, order_rows(page))
        folder = papers_folder(self.open_book.path)
        where = keep_paper(folder, f"Order for {title_of(page)}", content, ".csv")
        self.say(f"Saved as {where}")

    def _show(self) -> None:
        page, today = self._page, self.open_book.today
        registered = self._trader.vat_registered
        words = _NONE if page is None else told(page, today, registered=registered)
        self.query_one("#told", Static).update(plain(words))
        self.query_one(LineList).show(0 if page is None else len(page.lines), self._draw)
        self.refresh_heading()

    def _draw(self, row: int, width: int) -> Text:
        page = self._page
        if page is None:
            return Text("")
        registered = self._trader.vat_registered
        return drawn(page, row, width, self.palette, registered=registered)
