"""What hands do at the keys: call commands, go from field to field, type, turn pages."""

import asyncio
from collections.abc import Awaitable, Callable, Mapping
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar, cast

from textual import events
from textual.app import App
from textual.pilot import Pilot
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import ContentSwitcher

from domain.page_names import PageName
from tui.frame.command_table import every_command
from tui.frame.message_line import MessageLine
from tui.job.job_screen import JobScreen
from tui.job.page_tabs import TABS
from tui.shell.app import HeadlapApp, make_app
from tui.widgets.choice import ChoiceField
from tui.widgets.field_row import Field
from tui.widgets.folding_form import GroupHeading
from tui.widgets.form import Form
from tui.widgets.line_list import LineList

W = TypeVar("W", bound=Widget)

_PATIENCE_S = 10


class Clock:
    """A clock that stands still until the test moves it on."""

    def __init__(self, now: datetime) -> None:
        self.now = now

    def __call__(self) -> datetime:
        return self.now


def key(where: str, command: str) -> str:
    """The key of a command as its table has it: of several, one with ctrl if there is any.

    That one works wherever the cursor is.
    """
    found = next(c for c in every_command() if (c.where, c.id) == (where, command))
    keys = found.key.split(",")
    return next((k for k in keys if k.startswith("ctrl+")), keys[0])


async def until(pilot: Pilot[None], so: Callable[[], bool]) -> None:
    """Wait until something is so, the program idle between two looks; fails if it never is."""
    await _until(cast("HeadlapApp", pilot.app), so, lambda: pilot.pause(0.02))


async def _until(
    app: HeadlapApp, so: Callable[[], bool], wait: Callable[[], Awaitable[object]]
) -> None:
    """The one way of waiting: by what is to be, never by the clock alone."""
    try:
        async with asyncio.timeout(_PATIENCE_S):
            while not so():
                await wait()
    except TimeoutError as late:
        told = said(app) or "nothing"
        raise AssertionError(f"it never came; the program said: {told}") from late


async def turn_to(pilot: Pilot[None], app: HeadlapApp, page: PageName) -> None:
    """Open the job at a page, and wait until it shows what is on record, the cursor in it."""
    app.open_job(1, page)
    await Hands(pilot).shows(page)


def form_of(app: HeadlapApp) -> Form:
    """The form in front."""
    return app.screen.query_one(Form)


def front(app: HeadlapApp) -> str | None:
    """The page in front, by its widget id; None while the job opens."""
    return next((s.current for s in app.screen.query(ContentSwitcher)), None)


async def comes_to(pilot: Pilot[None], app: HeadlapApp, page: PageName) -> None:
    """Wait until a page is in front."""
    await until(pilot, lambda: front(app) == page.value)


async def hears(pilot: Pilot[None], app: HeadlapApp, words: str) -> None:
    """Wait until the program says something with these words in it."""
    await until(pilot, lambda: words in said(app))


def said(app: HeadlapApp) -> str:
    """What the program last said; nothing while it is silent, or while the palette is in front."""
    lines = app.screen.query(MessageLine)
    return next((str(line.render()) for line in lines if line.display), "")


class Hands:
    """Two hands at a running app; ``pressed`` counts the keys, ``typed`` those of words."""

    def __init__(self, pilot: Pilot[None]) -> None:
        self.pilot = pilot
        self.pressed = self.typed = 0

    @property
    def app(self) -> HeadlapApp:
        """The app they type into."""
        app: App[Any] = self.pilot.app
        assert isinstance(app, HeadlapApp)
        return app

    @property
    def form(self) -> Form:
        """The form in front."""
        return self._in_front(Form)

    @property
    def rows(self) -> LineList:
        """The list in front: that of the page where a job is shown."""
        return self._in_front(LineList)

    async def press(self, *keys: str) -> None:
        """Press keys one after another, each once the one before has gone where it belongs.

        The pilot's own press waits until the whole program idles: 50 ms a key at the least.
        """
        for each in keys:
            self._send(each)
            await self._arrived()

    def hold(self, pressed: str, times: int) -> None:
        """Send a key again and again without waiting, as one held down does."""
        for _ in range(times):
            self._send(pressed)

    async def type_in(self, text: str) -> None:
        """Type characters where the cursor is."""
        self.typed += len(text)
        for character in text:
            self._send(character)
        await self._arrived()

    async def until(self, so: Callable[[], bool]) -> None:
        """Wait until something is so; what never comes fails the test."""
        await _until(self.app, so, lambda: asyncio.sleep(0.01))

    async def hears(self, words: str) -> None:
        """Wait until the program says something with these words in it."""
        await self.until(lambda: words in said(self.app))

    async def is_drawn(self) -> None:
        """Wait until the screen in front is drawn as it now stands."""
        drawn = asyncio.Event()
        self.app.screen.call_after_refresh(drawn.set)
        async with asyncio.timeout(_PATIENCE_S):
            await drawn.wait()

    async def comes_to_rest(self) -> None:
        """Wait until every key has arrived and nothing goes on in the background, then once more.

        What goes on may bring a screen or a message of its own.
        """
        for _ in range(2):
            await self._arrived()
            await self.until(lambda: all(worker.is_finished for worker in self.app.workers))
            await self.is_drawn()

    async def write(self, typed: Mapping[str, str]) -> None:
        """Go down through the form in front and type, by labels in the order of the fields."""
        fields = {field.label: field for field in self.form.fields}
        for label, text in typed.items():
            await self._go_to(fields[label])
            await self._fill(fields[label], text)

    async def shows_a_job(self, job_id: int) -> None:
        """Wait until a job is in front, with the cursor in a page."""
        await self.until(lambda: self._job_in_front() == job_id and self._is_inside())

    async def shows(self, page: PageName) -> None:
        """Wait until a job shows a page, with the cursor in it."""
        await self.until(lambda: self._shown == page.value and self._is_inside())

    async def turn_to(self, page: PageName) -> None:
        """Turn to a page of the job."""
        pages = list(TABS)
        at, to = pages.index(PageName(self._shown or "")), pages.index(page)
        turn = key("job", "page(1)" if to > at else "page(-1)")
        for passed in pages[at + 1 : to + 1] if to > at else reversed(pages[to:at]):
            await self.press(turn)
            await self.shows(passed)

    async def ask(self, command_key: str) -> None:
        """Press a key that brings a dialog."""
        await self.press(command_key)
        await self.until(lambda: isinstance(self.app.screen, ModalScreen))
        await self.until(lambda: self.app.screen.is_mounted)
        await self._arrived()

    async def save(self, words: str) -> None:
        """Save what stands in front, and wait until the program says so."""
        await self.press(key("job", "save"))
        await self.hears(words)

    @property
    def _shown(self) -> str | None:
        switchers = self.app.screen.query(ContentSwitcher)
        return switchers.first().current if switchers else None

    def _in_front(self, kind: type[W]) -> W:
        return next(w for w in self.app.screen.query(kind) if _is_shown(w))

    def _send(self, pressed: str) -> None:
        self.pressed += 1
        self.app.post_message(_event(pressed))

    def _job_in_front(self) -> int | None:
        screen = self.app.screen
        return screen.job_id if isinstance(screen, JobScreen) else None

    def _is_inside(self) -> bool:
        """Tell whether the cursor is in the page in front."""
        focused = self.app.focused
        shown = self._shown
        if shown is None or focused is None:
            return False
        return any(node.id == shown for node in focused.ancestors)

    async def _arrived(self) -> None:
        """Wait until every key has gone where it belongs, and what it set off has come to rest."""
        app = self.app
        await self.until(lambda: app.held_keys.at_rest and not app.message_queue_size)

    async def _go_to(self, field: Field) -> None:
        form, wanted = self.form, self.form.query_one(f"#field-{field.id}")
        heading = _folded_under(form, field)
        if heading is not None:
            await self._walk_to(heading)
            await self.press("enter")
        # A choice may have brought it on just now.
        await self.until(lambda: wanted in self.app.screen.focus_chain)
        await self._walk_to(wanted)

    async def _walk_to(self, wanted: Widget) -> None:
        """By the arrows, up or down as it lies: they do not lead round from the end."""
        passed = [self.app.focused]
        # As they are written, not by place: what was just brought on may have none yet.
        order = list(self.app.screen.query())
        above = passed[0] in order and order.index(wanted) < order.index(passed[0])
        while passed[-1] is not wanted:
            await self.press("up" if above else "down")
            try:
                await self.until(lambda: self.app.focused is not passed[-1])
            except AssertionError as late:
                raise AssertionError(f"stuck at {passed[-1]} on the way to {wanted}") from late
            assert self.app.focused not in passed, f"no way to {wanted}"
            passed.append(self.app.focused)

    async def _fill(self, field: Field, text: str) -> None:
        widget = self.app.focused
        if isinstance(widget, ChoiceField):
            for _ in field.choices:
                if widget.value != text:
                    await self.press("right")
            assert widget.value == text
        else:
            await self.press("end", "ctrl+u")
            await self.type_in(text)


def _folded_under(form: Form, field: Field) -> GroupHeading | None:
    """The heading of the group that a field is folded away in."""
    title = ""
    for each in form.fields:
        title = each.section or title
        if each is field:
            break
    headings = form.query(GroupHeading)
    return next((h for h in headings if h.title == title and not h.is_open), None)


def _event(pressed: str) -> events.Key:
    """The event of a key by its name, or of a character."""
    if pressed == " ":
        return events.Key("space", pressed)
    return events.Key(pressed, pressed if len(pressed) == 1 else None)


def _is_shown(widget: Widget) -> bool:
    """Tell whether neither it nor what holds it is hidden."""
    return all(node.display for node in widget.ancestors_with_self if isinstance(node, Widget))


def app_at(path: Path, clock: Clock) -> HeadlapApp:
    """The app on a book, by this clock."""
    return make_app(path, clock)
