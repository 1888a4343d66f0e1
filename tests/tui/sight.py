"""What can be seen on the screen, what is cut off of it, and a click on what is seen."""

from rich.cells import cell_len
from textual.containers import ScrollableContainer
from textual.geometry import Offset, Region
from textual.pilot import Pilot
from textual.widget import Widget
from textual.widgets import Input, Static

from tests.tui.hands import Hands
from tui.shell.app import HeadlapApp
from tui.widgets.line_list import LineList

SIZES = [(80, 24), (120, 40)]
"""The windows in which everything has to be seen."""


def lines(app: HeadlapApp) -> list[str]:
    """The text of the screen in front, line by line, as the terminal shows it."""
    return [strip.text.rstrip() for strip in app.screen._compositor.render_strips()]


def text(app: HeadlapApp) -> str:
    """The same in one piece."""
    return "\n".join(lines(app))


def place_of(app: HeadlapApp, words: str) -> Offset:
    """Where words stand on the screen; if more than once, the first place."""
    found = ((y, line) for y, line in enumerate(lines(app)) if words in line)
    y, line = next(found, (-1, ""))
    assert line, f"“{words}” is not on the screen:\n{text(app)}"
    return Offset(cell_len(line[: line.index(words)]), y)


async def click_on(pilot: Pilot[None], words: str) -> None:
    """Click where words stand on the screen, as one does who reads it."""
    await pilot.pause()
    place = place_of(Hands(pilot).app, words)
    await pilot.click(offset=(place.x + min(2, cell_len(words) - 1), place.y))


async def sees(pilot: Pilot[None], *words: str) -> None:
    """Wait until all these words stand on the screen."""
    hands = Hands(pilot)
    try:
        await hands.until(lambda: all(each in text(hands.app) for each in words))
    except AssertionError as never:
        raise AssertionError(f"not on the screen: {words}\n{text(hands.app)}") from never


async def cut_off(pilot: Pilot[None]) -> list[str]:
    """What of the screen in front is not wholly seen, though nothing scrolls it into sight."""
    await pilot.pause()
    shown = [widget for widget in pilot.app.screen.query("*") if _is_shown(widget)]
    return [f"{widget}: {fault}" for widget in shown for fault in _faults(widget)]


def _faults(widget: Widget) -> list[str]:
    found = widget.screen.find_widget(widget)
    region, clip = found.region, found.clip
    scrolled = any(isinstance(node, ScrollableContainer) for node in widget.ancestors)
    faults = []
    if scrolled:  # up and down only
        clip = Region(clip.x, region.y, clip.width, region.height)
    says_something = not isinstance(widget, Static) or bool(str(widget.render()))
    if says_something and region.area and not clip.contains_region(region):
        faults.append(f"{region} is not inside {clip}")
    if widget.focusable and not region.area and not _is_empty(widget):
        faults.append("has no room")
    if isinstance(widget, Input) and region.area and not _holds_its_hint(widget):
        faults.append(f"“{widget.placeholder}” is longer than {widget.content_size}")
    if isinstance(widget, Static) and region.area and not _holds_its_text(widget):
        faults.append(f"“{widget.render()}” is longer than {widget.content_size}")
    return faults


def _holds_its_text(widget: Static) -> bool:
    size = widget.content_size
    screen = widget.screen.size
    return not size.width or widget.get_content_height(screen, screen, size.width) <= size.height


def _holds_its_hint(widget: Input) -> bool:
    return bool(widget.value) or cell_len(widget.placeholder) <= widget.content_size.width


def _is_empty(widget: Widget) -> bool:
    return isinstance(widget, LineList) and not widget.count


def _is_shown(widget: Widget) -> bool:
    return all(node.display for node in widget.ancestors_with_self if isinstance(node, Widget))
