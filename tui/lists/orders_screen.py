"""Orders: what to order at each merchant for the coming jobs, and what is on its way."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import ClassVar

from rich.text import Text
from textual.widget import Widget
from textual.widgets import Static

from domain.days.calendar import show_date
from domain.estimate.ordered import Merchant
from domain.estimate.ordering import MerchantList
from domain.scope import ListName
from domain.tone import Tone
from domain.week import Task
from storage.saved_papers import keep_paper, papers_folder
from tui.frame.commands import key_of
from tui.frame.safe_text import plain
from tui.frame.screen import BaseScreen
from tui.lists.order_dialogs import (
    Placed,
    ordered_dialog,
    other_day_dialog,
    part_dialog,
    place_dialog,
    telephone_dialog,
)
from tui.lists.order_pages import (
    IN_STOCK,
    NOTHING,
    Delivery,
    Page,
    drawn,
    page_for,
    put_in_hand,
    settles,
    title_of,
)
from tui.lists.orders_shown import OrdersShown, for_whom
from tui.papers.copying import copy_or_save
from tui.widgets.line_list import LineList


class OrdersScreen(BaseScreen):
    """A page a merchant; left and right turn over."""

    place: ClassVar[str] = "orders"
    title_words: ClassVar[str] = "orders"
    undo_of = ListName.STOCK
    CSS = """
    OrdersScreen #told { margin: 0 2 1 2; color: $quiet; height: auto; }
    OrdersScreen LineList { margin: 0 2; }
    OrdersScreen #for { margin: 0 2; color: $quiet; height: auto; max-height: 2; }
    """

    def __init__(self, task: Task | None = None) -> None:
        """``task`` is the line of Tonight that it was opened from."""
        super().__init__()
        self._asked_by = task
        self._shown = OrdersShown()
        self._at: int | None = None
        self._said = ""  # what was saved, to be said where it leads to

    def heading_words(self) -> str:
        """The merchant in front, and which of how many lists it is."""
        page = self._page
        if page is None or self._at is None:
            return ""
        return f"{title_of(page)} · {self._at + 1} of {len(self._shown.pages)} · ← →"

    def body(self) -> list[Widget]:
        """Return what is told of the list, and the list."""
        return [Static("", id="told"), LineList(), Static("", id="for")]

    def on_mount(self) -> None:
        """Put the cursor into the list."""
        self.query_one(LineList).focus()

    @property
    def keys_left_out(self) -> frozenset[str]:
        """What does nothing for the page in front: a list is ordered, what is ordered comes."""
        if isinstance(self._page, Delivery):
            return frozenset({"open", "where"})
        here = frozenset({"here", "part"})
        return here if self._page is not None else here | {"open", "copy", "where"}

    async def reload(self) -> None:
        """Read what is to be ordered, and what is on its way."""
        today = self.open_book.today
        self._shown = await self.open_book.ask(
            lambda book: OrdersShown.of(book.orders(today), book.trader())
        )
        pages = self._shown.pages
        if self._at is None:
            self._at = page_for(pages, self._asked_by)
            if self._at is None and self._asked_by is not None:
                self.say(IN_STOCK.format(key=key_of("orders", "in_hand")), Tone.QUIET)
        self._at = max(0, min(self._at or 0, len(pages) - 1))
        self._show()

    def action_next_list(self, by: int) -> None:
        """Turn over to the next list or the one before."""
        pages = self._shown.pages
        if pages and self._at is not None:
            self._at = (self._at + by) % len(pages)
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

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Name every job that waits for what is in front."""
        event.stop()
        self._say_for_whom()

    def action_all_ordered(self) -> None:
        """Mark the lists of every merchant as ordered."""
        if self._shown.lists:
            self._ask_ordered(self._shown.lists)
        else:
            self.say("Nothing is left to order.", Tone.QUIET)

    def action_here(self) -> None:
        """All of it is here."""
        page = self._on_its_way()
        if page is not None:
            came = {line.id or 0: line.to_come for line in page.lines}
            self.save_in_worker(self._all_here(came))

    def action_part(self) -> None:
        """Some of it is here."""
        page = self._on_its_way()
        if page is not None:
            self.app.push_screen(part_dialog(page.lines, self._here), self._answered)

    def action_copy(self) -> None:
        """Copy the list or order for the merchant; no price is in it."""
        page = self._in_front()
        if page is not None:
            self._once_placed(page, lambda: self.in_worker(self._copied(page)))

    def action_paper(self) -> None:
        """Show the merchant's paper, and beneath a list to order one's own with prices."""
        from tui.lists.order_papers import papers_of
        from tui.papers.paper_screen import PaperScreen

        def show(page: Page) -> None:
            papers = papers_of(page, self._shown.trader, self._shown.place(page))
            self.app.push_screen(PaperScreen(*papers))

        page = self._in_front()
        if page is not None:
            self._once_placed(page, lambda: show(page))

    def action_where(self) -> None:
        """Say where the list in front goes."""
        page = self._to_order()
        if page is not None and self._is_named(page):
            self._ask_where(page, lambda: self.in_worker(self.say_saved(self._said)))

    def action_other_day(self) -> None:
        """The order in front comes on another day."""
        page = self._on_its_way()
        if page is None:
            return

        async def save(day: date) -> None:
            ids = [line.id or 0 for line in page.lines]
            await self.open_book.ask(lambda book: book.move_orders(ids, day))
            self._said = f"Comes on {show_date(day)}."

        dialog = other_day_dialog(page.lines, self.open_book.today, save)
        self.app.push_screen(dialog, self._answered)

    def action_cancel(self) -> None:
        """Cancel the order in front; undo takes it back."""
        page = self._on_its_way()
        if page is not None:
            self.save_in_worker(self._cancelled(page))

    def action_telephone(self) -> None:
        """Keep the telephone number of the merchant in front."""
        page = self._in_front()
        if page is None or not self._is_named(page):
            return

        async def save(merchant: Merchant) -> None:
            await self.open_book.ask(lambda book: book.save_merchant(merchant))
            self._said = f"Saved: telephone of {title_of(page)}."

        dialog = telephone_dialog(self._shown.merchant(page), save)
        self.app.push_screen(dialog, self._answered)

    def action_in_hand(self) -> None:
        """All that the job of Tonight's line takes is in stock."""
        if self._asked_by is None or page_for(self._shown.pages, self._asked_by) is not None:
            self.say("Only for a job of Tonight that needs nothing ordered.", Tone.QUIET)
        else:
            self.save_in_worker(self._in_hand(self._asked_by.job_id))

    def action_spreadsheet(self) -> None:
        """Save the list as a CSV file."""
        page = self._to_order()
        if page is not None:
            self.in_worker(self._kept(page))

    @property
    def _page(self) -> Page | None:
        pages = self._shown.pages
        return pages[self._at] if pages and self._at is not None else None

    def _in_front(self) -> Page | None:
        """The page in front; else say that there is none."""
        if self._page is None:
            self.say(NOTHING, Tone.QUIET)
        return self._page

    def _on_its_way(self) -> Delivery | None:
        """The order in front if it is on its way, else say so."""
        page = self._in_front()
        if isinstance(page, MerchantList):
            self.say("This is not ordered yet.", Tone.QUIET)
        return page if isinstance(page, Delivery) else None

    def _to_order(self) -> MerchantList | None:
        """The list in front if it is still to be ordered, else say so."""
        page = self._in_front()
        if isinstance(page, Delivery):
            self.say("This is ordered already.", Tone.QUIET)
        return page if isinstance(page, MerchantList) else None

    def _ask_ordered(self, lists: Sequence[MerchantList]) -> None:
        async def save(placed: Placed) -> None:
            today, day = self.open_book.today, placed.expected_on
            await self.open_book.ask(
                lambda book: book.mark_ordered(lists, today, day, placed.deliver_to)
            )
            self._said = f"Ordered, to come on {show_date(day)}."

        merchant = self._shown.merchant(lists[0])
        dialog = ordered_dialog(lists, self._shown.trader, merchant, self.open_book.today, save)
        self.app.push_screen(dialog, self._answered)

    def _is_named(self, page: Page) -> bool:
        """Whether something can be kept of the merchant of a page; else say what comes first."""
        if not page.merchant.strip():
            self.say("Name the merchant in Prices first.", Tone.QUIET)
        return bool(page.merchant.strip())

    def _once_placed(self, page: Page, then: Callable[[], object]) -> None:
        """Do what says where a page goes: of a list for several jobs that is asked first."""
        asked = self._shown.asks_where(page)
        if asked is None:
            then()
        else:
            self._ask_where(asked, then)

    def _ask_where(self, page: MerchantList, then: Callable[[], object]) -> None:
        async def save(place: str) -> None:
            await self.open_book.ask(lambda book: book.keep_place(page.merchant, place))
            self._said = f"Saved: where the list of {title_of(page)} goes."

        async def go_on() -> None:
            await self.reload()
            then()

        def answered(saved: bool | None) -> None:
            if saved:
                self.in_worker(go_on())

        dialog = place_dialog(page, self._shown.trader, self._shown.merchant(page), save)
        self.app.push_screen(dialog, answered)

    async def _here(self, came: Mapping[int, int]) -> None:
        today = self.open_book.today
        await self.open_book.ask(lambda book: book.mark_here(came, today))
        self._said = "Here: it is in stock."

    async def _all_here(self, came: Mapping[int, int]) -> None:
        await self._here(came)
        await self._settled()

    async def _cancelled(self, page: Delivery) -> None:
        ids = [line.id or 0 for line in page.lines]
        await self.open_book.ask(lambda book: book.cancel_orders(ids))
        self._said = "Cancelled: what is not here is to be ordered again."
        await self._settled()

    async def _in_hand(self, job_id: int | None) -> None:
        await self.open_book.ask(lambda book: put_in_hand(book, job_id or 0))
        self._said = "Saved: materials in hand."
        await self._settled()

    def _answered(self, saved: bool | None) -> None:
        if saved:
            self.in_worker(self._settled())

    async def _settled(self) -> None:
        """Go back to Tonight once the line that led here is settled; else show what is left."""
        await self.reload()
        asked = self._asked_by
        if asked is not None and not any(settles(page, asked) for page in self._shown.pages):
            below = self.app.screen_stack[-2]
            self.leave()
            if isinstance(below, BaseScreen):
                below.in_worker(below.say_saved(self._said))
        else:
            await self.say_saved(self._said)

    async def _copied(self, page: Page) -> None:
        from tui.lists.order_papers import text_of

        text = text_of(page, self._shown.trader, self._shown.place(page))
        title = f"Order for {title_of(page)}"
        unsure = await copy_or_save(self.app, self.open_book.path, title, text)
        self.say(unsure or f"Copied: the order for {title_of(page)}.")

    async def _kept(self, page: MerchantList) -> None:
        from tui.lists.order_papers import csv_of

        folder, name = papers_folder(self.open_book.path), f"Order for {title_of(page)}"
        where = keep_paper(folder, name, csv_of(page), ".csv")
        self.say(f"Saved as {where}")

    def _show(self) -> None:
        page = self._page
        self.query_one("#told", Static).update(plain(self._shown.words(page, self.open_book.today)))
        self.query_one(LineList).show(0 if page is None else len(page.lines), self._draw)
        self._say_for_whom()
        self.refresh_heading()
        self.refresh_bindings()

    def _say_for_whom(self) -> None:
        words = for_whom(self._page, self.query_one(LineList).cursor)
        self.query_one("#for", Static).update(plain(words))

    def _draw(self, row: int, width: int) -> Text:
        page, registered = self._page, self._shown.trader.vat_registered
        if page is None:
            return Text("")
        return drawn(page, row, width, self.palette, registered=registered)
