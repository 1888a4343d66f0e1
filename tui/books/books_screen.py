"""The year's books: a quarter with its totals, what is said early, and every item."""

from typing import ClassVar

from rich.text import Text
from textual.widget import Widget
from textual.widgets import Static

from domain.books.items import Item, items_of
from domain.books.miles import Miles, acceptable
from domain.books.money_back import MoneyBack
from domain.books.paid_price import paid_price
from domain.books.purchase import CameBack, Purchase
from domain.books.quarter import up_to
from domain.books.watched import Watched, watched
from domain.days.calendar import show_day
from domain.estimate.stock import Price
from domain.money import show_money
from domain.scope import ListName
from domain.tax.years import Quarter, TaxYear, quarter_of, tax_year_of
from domain.tone import Tone
from domain.trader import Trader
from storage.books_read import YEARS_BACK, YearsBooks
from tui.books.books_words import Line, draw_line, lines_of, nothing_yet, totals_text
from tui.books.evening_miles import AcceptDialog, told
from tui.books.miles_dialog import miles_dialog
from tui.books.money_back_dialog import money_back_dialog
from tui.books.purchase_dialog import PurchaseDialog, Typed
from tui.frame.message_line import MessageLine
from tui.frame.screen import BaseScreen
from tui.lists.price_dialog import price_dialog
from tui.widgets.line_list import LineList


class BooksScreen(BaseScreen):
    """A page a quarter; left and right turn over."""

    place: ClassVar[str] = "books"
    title_words: ClassVar[str] = "books"
    undo_of = ListName.BOOKS
    CSS = """
    BooksScreen #totals { margin: 0 2; height: auto; }
    BooksScreen #none { margin: 0 2; color: $quiet; display: none; }
    BooksScreen LineList { margin: 0 2; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._years: YearsBooks | None = None
        self._trader = Trader()
        self._quarter: Quarter | None = None
        self._items: tuple[Item, ...] = ()
        self._lines: tuple[Line, ...] = ()
        self._prices: tuple[Price, ...] = ()
        self._paid: Price | None = None

    def heading_words(self) -> str:
        """Which quarter is in front."""
        if self._quarter is None:
            return ""
        first, last = show_day(self._quarter.first), show_day(self._quarter.last)
        return f"← quarter {self._quarter.number} of {self._quarter.year} → {first} to {last}"

    def body(self) -> list[Widget]:
        """Return the totals, and the list of items."""
        return [Static("", id="totals"), Static(nothing_yet(), id="none"), LineList()]

    def on_mount(self) -> None:
        """Put the cursor into the list."""
        self.query_one(LineList).focus()

    async def reload(self) -> None:
        """Read the books, and show the quarter in front; at first that of today."""
        today = self.open_book.today
        self._years, self._trader, self._prices = await self.open_book.ask(
            lambda book: (book.years_books(today), book.trader(), book.prices())
        )
        self._quarter = self._quarter or quarter_of(today)
        self._show()

    def action_turn(self, by: int) -> None:
        """Turn over to the next quarter or the one before."""
        if self._quarter is None:
            return
        today = tax_year_of(self.open_book.today)
        years = range(today.begins - YEARS_BACK, today.begins + 1)
        quarters = [quarter for begins in years for quarter in TaxYear(begins).quarters]
        at = quarters.index(self._quarter) + by
        if 0 <= at < len(quarters):
            self._quarter = quarters[at]
            self.query_one(LineList).cursor = 0
            self.query_one(MessageLine).hush()
            self._show()

    def action_purchase(self) -> None:
        """Record something bought."""
        self._ask_purchase(None)

    def action_miles(self) -> None:
        """Record miles."""
        self._ask_miles(None)

    def action_money_back(self) -> None:
        """Record what the merchant gave back of the purchase under the cursor."""
        of = self._in_front()
        if isinstance(of, CameBack):
            of = of.bought
        if not isinstance(of, Purchase):
            self.say("Highlight the purchase that it came back of.", Tone.QUIET)
        elif not of.left:
            self.say(f"All of the {show_money(of.pence)} came back already.", Tone.QUIET)
        else:
            self._ask_money_back(of, None)

    def action_open(self) -> None:
        """Put the line under the cursor right."""
        self.query_one(LineList).action_choose()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Ask for what is right of a purchase or of miles; money is put right on its job."""
        event.stop()
        of = self._in_front()
        if isinstance(of, Purchase):
            self._ask_purchase(of)
        elif isinstance(of, CameBack):
            self._ask_money_back(of.bought, of.back)
        elif isinstance(of, Miles):
            self._ask_miles(of)
        else:
            self.say("Money received is put right on the money page of its job.", Tone.QUIET)

    def action_accept(self) -> None:
        """Accept the miles proposed in the quarter in front, where they are known."""
        proposed = self._years.proposed if self._years else ()
        quarter = self._quarter
        of_quarter = [
            trip for trip in proposed if quarter and quarter.first <= trip.on <= quarter.last
        ]
        found = acceptable(of_quarter)
        if len(found) > 1:  # a slip of the finger beside other keys would save them all
            self.app.push_screen(AcceptDialog(found, lambda: self._accepted(found)))
        elif found:
            self.save_in_worker(self._accepted(found))
        elif of_quarter:
            self.say("How far is not known yet: Enter on each asks for its miles.", Tone.QUIET)
        else:
            self.say("No miles are proposed in this quarter.", Tone.QUIET)

    def action_headings(self) -> None:
        """Keep expenses by heading, or as one sum."""
        self.save_in_worker(self._switched(on=not self._trader.expense_headings))

    def action_paper(self) -> None:
        """Show the quarter as a paper."""
        from domain.papers.quarter_paper import quarter_paper
        from tui.papers.paper_screen import PaperScreen

        if self._years is not None and self._quarter is not None:
            books = self._years.books
            paper = quarter_paper(books, self._items, self._quarter, self._trader)
            self.app.push_screen(PaperScreen(paper))

    def action_spreadsheet(self) -> None:
        """Save the tax year up to the quarter in front as a CSV file."""
        self.in_worker(self._kept())

    def _ask_purchase(self, bought: Purchase | None) -> None:
        years = self._years
        if years is None:
            return
        job = years.jobs.get(bought.job_id or 0, "") if bought else ""
        known, today = years.books.purchases, self.open_book.today
        dialog = PurchaseDialog(bought, job, known, self._trader, today, self._save_purchase)
        self.app.push_screen(dialog, self._propose)

    def _in_front(self) -> object:
        """What the line under the cursor tells; None of an empty list."""
        row = self.query_one(LineList).cursor
        of = self._lines[row].of if row < len(self._lines) else None
        return of.of if isinstance(of, Item) else of

    def _ask_money_back(self, bought: Purchase, back: MoneyBack | None) -> None:
        today = self.open_book.today
        self.app.push_screen(money_back_dialog(bought, back, today, self._save_money_back))

    def _ask_miles(self, trip: Miles | None) -> None:
        if self._years is not None:
            known, today = self._years.books.miles, self.open_book.today
            self.app.push_screen(miles_dialog(trip, known, today, self._save_miles))

    async def _save_purchase(self, typed: Typed) -> None:
        today = self.open_book.today
        saved = await self.open_book.ask(
            lambda book: book.save_purchase(typed.purchase, typed.ref, today)
        )
        self._quarter = quarter_of(saved.on)
        await self.say_saved(f"Saved: {show_money(saved.pence)} at {saved.merchant}.")
        self._paid = paid_price(saved, self._prices, today)

    async def _save_money_back(self, back: MoneyBack) -> None:
        today = self.open_book.today
        bought = await self.open_book.ask(lambda book: book.save_money_back(back, today))
        self._quarter = quarter_of(back.on)
        await self.say_saved(f"Saved: {show_money(back.pence)} back from {bought.merchant}.")

    def _propose(self, _saved: bool | None) -> None:
        """Offer what was paid as the new price of the material."""
        price, self._paid = self._paid, None
        if price is None:
            return

        async def save(new: Price) -> None:
            await self.open_book.ask(lambda book: book.set_price(new))
            self.say(f"Saved: new price of {new.material.words}.")

        today, material = self.open_book.today, price.material
        registered = self._trader.vat_registered
        self.app.push_screen(
            price_dialog(price, material, self._prices, today, save, registered=registered)
        )

    async def _save_miles(self, trip: Miles) -> None:
        today = self.open_book.today
        await self.open_book.ask(lambda book: book.save_miles([trip], today))
        self._quarter = quarter_of(trip.on)
        await self.say_saved(f"Saved: {told((trip,))}.")

    async def _accepted(self, found: tuple[Miles, ...]) -> None:
        today = self.open_book.today
        await self.open_book.ask(lambda book: book.save_miles(found, today))
        await self.reload()
        await self.say_saved(f"Saved: {told(found)}.")

    async def _switched(self, *, on: bool) -> None:
        await self.open_book.ask(lambda book: book.switch_headings(on=on))
        await self.reload()
        await self.say_saved("Expenses by heading." if on else "Expenses as one sum.")

    async def _kept(self) -> None:
        from domain.books.quarter_rows import TITLES, quarter_rows, so_far_name
        from storage.export import rows_as_csv
        from storage.saved_papers import keep_paper, papers_folder

        if self._years is None or self._quarter is None:
            return
        quarter, jobs = self._quarter, self._years.jobs
        books = self._years.books
        with_vat = self._trader.vat_registered
        if with_vat:
            books = await self.open_book.ask(lambda book: book.books_with_vat(quarter.year))
        items, totals = items_of(books, jobs, quarter.year, quarter.last), up_to(books, quarter)
        by_heading = self._trader.expense_headings
        rows = quarter_rows(quarter, items, totals, by_heading=by_heading, with_vat=with_vat)
        name = f"Books {so_far_name(quarter)}"
        folder = papers_folder(self.open_book.path)
        where = keep_paper(folder, name, rows_as_csv(TITLES, rows), ".csv")
        self.say(f"Saved as {where}")

    def _said(self, years: YearsBooks) -> tuple[Watched, ...]:
        """What is near, on the quarter of today alone."""
        today = self.open_book.today
        if self._quarter != quarter_of(today):
            return ()
        registered = self._trader.vat_registered
        return watched(years.books, years.supplied, today, registered=registered)

    def _show(self) -> None:
        years, quarter = self._years, self._quarter
        if years is None or quarter is None:
            return
        self._items = items_of(years.books, years.jobs, quarter.year, quarter.last)
        first, last = quarter.first, quarter.last
        aside = [each for each in years.books.purchases if not each.counts]
        aside_back = [came for each in aside for came in each.came_back()]
        self._lines = lines_of(
            (each for each in self._items if each.on >= first),
            (each for each in years.proposed if first <= each.on <= last),
            [
                *(each for each in aside if first <= each.on <= last),
                *(each for each in aside_back if first <= each.back.on <= last),
            ],
        )
        said = self._said(years)
        text = totals_text(years.books, quarter, said, self.palette, self._trader)
        self.query_one("#totals", Static).update(text)
        self.query_one("#none").display = not self._lines
        self.query_one(LineList).show(len(self._lines), self._draw)
        self.refresh_heading()

    def _draw(self, row: int, width: int) -> Text:
        by_heading = self._trader.expense_headings
        return draw_line(self._lines[row], width, self.palette, by_heading=by_heading)
