"""Jobs through whole lives at two windows of one book, with everything checked at each step."""

import shutil
import sqlite3
from collections.abc import Callable
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, ClassVar

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule

from domain.errors import NotNow
from domain.scope import ListName
from storage.book import Book
from storage.errors import Changed
from tests.storage.books import open_book
from tests.storage.lives.agreement import amounts_of, see_job, see_lists, see_money
from tests.storage.lives.deed import Deed, Doing
from tests.storage.lives.deeds import DEEDS, IN_TURN, LISTED
from tests.storage.lives.pictures import PEOPLE, Rows, issued, rows_of
from tests.storage.lives.reckoner import Event, Reckoner

MOST_JOBS = 4
SETTLED = (ListName.PRICES, ListName.DETAILS)
"""What the book begins with; to undo that would leave nothing to work with."""

some = st.integers(0, 999)
which_window = st.integers(0, 1)


class Lives(RuleBasedStateMachine):
    """Evenings at one book."""

    begun: ClassVar[Path]
    """A book with the trader's details and the prices."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory()
        self.path = Path(self.folder.name) / "book.headlap"
        shutil.copy(self.begun, self.path)
        self.plain = sqlite3.connect(self.path, isolation_level=None)
        ((actions,),) = self.plain.execute("SELECT count(*) FROM action")
        self.reckoner = Reckoner(actions)
        self.opened = 0
        self.names, self.since = ["", ""], [0, 0]
        self.books: list[Book] = []
        self._unlike = count(10_000)
        for window in (0, 1):
            self.books.append(self._open(window))
        self.rows = rows_of(self.plain)

    def teardown(self) -> None:
        for book in self.books:
            book.close()
        self.plain.close()
        self.folder.cleanup()

    def _open(self, window: int) -> Book:
        self.opened += 1
        self.names[window] = f"window {self.opened}"
        self.since[window] = self.reckoner.actions
        return open_book(self.path, self.names[window])

    @initialize(n=some, data=st.data())
    def begins(self, n: int, data: st.DataObject) -> None:
        """Two ask, sometimes one customer for two roofs, and there is something in stock."""
        self._do(None, "asked", 0, n)
        self._do(None, "asked", 1, n + 1)
        for left in (31, 32):
            self.lists("stock", 0, left)
        self.unravels(data, 0)

    @rule(which=some, window=which_window, n=some, steps=st.integers(1, 14))
    def goes_on(self, which: int, window: int, n: int, steps: int) -> None:
        """A job goes so many steps on, as it should."""
        job = self._one_of(which)
        for step in range(steps if job else 0):
            life, bills = self.reckoner.life(job), self.reckoner.bills(job)
            name = next((name for name, due in IN_TURN if due(life, bills)), "snag")
            self._do(job, name, window, n + step)

    @rule(which=some, window=which_window, name=st.sampled_from(sorted(DEEDS)), n=some)
    def does(self, which: int, window: int, name: str, n: int) -> None:
        """Anything, whether it is time for it or not."""
        job = self._one_of(which)
        if name == "asked":
            if len(self.reckoner.standing) < MOST_JOBS:
                self._do(None, name, window, n)
        elif job:
            self._do(job, name, window, n)

    @rule(name=st.sampled_from(sorted(LISTED)), window=which_window, n=some)
    def lists(self, name: str, window: int, n: int) -> None:
        """Something that is of no job."""
        deed = LISTED[name](self.books[window], self.reckoner, n)
        self._done(name, ListName(name), deed, self.names[window])

    @rule(which=some, window=which_window, again=st.booleans(), times=st.integers(1, 4))
    def turns(self, which: int, window: int, again: bool, times: int) -> None:
        """Undo, or redo, of a job that was ever there, or of a list."""
        scopes = [*self.reckoner.refs, *self.reckoner.refs, *ListName]
        of = scopes[which % len(scopes)]
        for _ in range(times):
            if again or of not in SETTLED or self.reckoner.last(of):
                self._turn(of, window, again=again)

    @rule(data=st.data(), window=which_window)
    def unravels(self, data: st.DataObject, window: int) -> None:
        """Every job is undone as far as that goes, and done again, in any order of the jobs."""
        for again in (False, True):
            for job in data.draw(st.permutations(list(self.reckoner.refs))):
                while any(self._turn(job, at, again=again) for at in (window, 1 - window)):
                    pass

    @rule(which=some, window=which_window)
    def saved_on_top(self, which: int, window: int) -> None:
        """What was read before another saved is not saved over it."""
        job = self._one_of(which)
        if job:
            old = self.books[window].job(job)
            first, second = next(self._unlike), next(self._unlike)  # a save of the same is none
            self._do(job, "found", 1 - window, first)
            stale = DEEDS["found"](Doing(self.books[window], self.reckoner, old, second))
            try:
                stale.call()
            except Changed:
                self._see(None)
            else:
                raise AssertionError(f"{job} was saved over what another window saved")

    @rule(window=which_window)
    def opens_again(self, window: int) -> None:
        """A window is closed and opened: it may then undo all that was done before."""
        self.books[window].close()
        self.books[window] = self._open(window)

    def _one_of(self, which: int) -> int:
        jobs = self.reckoner.standing
        return jobs[which % len(jobs)] if jobs else 0

    def _do(self, job: int | None, name: str, window: int, n: int) -> None:
        book = self.books[window]
        read = book.job(job) if job else None
        deed = DEEDS[name](Doing(book, self.reckoner, read, n))
        self._done(name, job, deed, self.names[window])

    def _done(self, name: str, of: Any, deed: Deed, window: str) -> None:
        refused = _refusal(deed.call)
        assert bool(refused) is not deed.allowed, f"{of} {name}: {refused or 'not refused'}"
        if refused:
            self._see(None)
            return
        before = self.rows
        if of is not None and before == rows_of(self.plain):  # what changes nothing is no action
            ((last,),) = self.plain.execute("SELECT max(id) FROM action")
            assert last == self.reckoner.actions, f"{of} {name} changed nothing, yet was kept"
            return
        whose = self.reckoner.begin() if of is None else of
        event = self.reckoner.save(whose, window, deed.change, final=deed.final, moves=deed.moves)
        deed.noted(whose)
        self._see(whose)
        event.before, event.after = before.get(whose), self.rows.get(whose)
        event.people = _changes(before, self.rows)
        if of is None:
            self._note_home(whose)

    def _turn(self, of: Any, window: int, *, again: bool) -> bool:
        """Undo or redo, and look whether it is refused if it must be; whether it was done."""
        book, event = self.books[window], self.reckoner.last(of, undone=again)
        may = event is not None and self._may(event, window, again=again)
        look, make = (book.redoable, book.redo) if again else (book.undoable, book.undo)
        _, short = self.reckoner.stock()
        told = []
        refused = _refusal(lambda: told.append(look(of)))
        assert bool(refused) is not may, f"{of} again {again}: {refused or 'not refused'}"
        if event is None or refused:
            self._see(None)
            return False
        make(told[0])
        self.reckoner.turn(of, again=again)
        self._see(of)
        is_now, people = self.rows.get(of), self.rows.get(PEOPLE, {})
        assert is_now == (event.after if again else event.before), f"{of}: other rows than before"
        for key, images in event.people.items():
            assert people.get(key) == images[again]
        lacking = {k: n - short.get(k, 0) for k, n in self.reckoner.stock()[1].items()}
        assert amounts_of(told[0].short) == {kind: n for kind, n in lacking.items() if n > 0}
        return True

    def _may(self, event: Event, window: int, *, again: bool) -> bool:
        """Whether an undo or a redo must be let through."""
        people = self.rows.get(PEOPLE, {})
        ours = event.window == self.names[window] or event.at <= self.since[window]
        if not ours or (event.final and not again):
            return False
        return self.reckoner.may_turn(event, people, again=again)

    def _note_home(self, job: int) -> None:
        place = self.rows[job]["job", job][2]
        owner = self.rows[PEOPLE]["site", place][1]
        self.reckoner.homes[job] = (("customer", owner), ("site", place))

    # -- what must be so after every step

    def _see(self, acted: Any) -> None:
        """Look at the whole book; only what was acted on may have changed."""
        before, self.rows = self.rows, rows_of(self.plain)
        for of in before.keys() | self.rows.keys():
            if of == PEOPLE and acted is not None:
                continue
            same = before.get(of) == self.rows.get(of)
            assert of == acted or same, f"{of} changed with {acted}"
        assert issued(before) <= issued(self.rows), "what others hold a paper of changed"
        see_money(self.plain, self.reckoner)
        see_lists(self.plain, self.books[0], self.reckoner)
        if acted in self.reckoner.standing:
            by_turns = self.books[self.reckoner.actions % len(self.books)]
            see_job(by_turns.job(acted), self.reckoner)


def _refusal(call: Callable[[], object]) -> str:
    """The sentence by which the book refuses; nothing if it does it."""
    try:
        call()
    except NotNow as error:
        return str(error)
    return ""


def _changes(before: Rows, now: Rows) -> dict[Any, Any]:
    """The rows of customers and places that differ."""
    old, new = before.get(PEOPLE, {}), now.get(PEOPLE, {})
    return {
        key: (old.get(key), new.get(key))
        for key in old.keys() | new.keys()
        if old.get(key) != new.get(key)
    }
