"""The line of Tonight that is in front, told whole: how to reach them, where, what is wrong."""

from rich.text import Text
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.week import Task, WeekLine
from domain.week.evening import Fold
from tui.frame.safe_text import one_line, shortened
from tui.frame.theme import PALETTES
from tui.week.line_keys import how_it_goes_out

_APART = " · "


class TaskStrip(Widget):
    """Two lines under the list; a few beside it where there is room."""

    DEFAULT_CSS = """
    TaskStrip { height: 2; margin-top: 1; }
    TaskStrip.-raised { margin: 0 0 1 0; }
    TaskStrip.-beside { height: auto; margin: 0 0 1 0; }
    """

    of_task: reactive[Task | None] = reactive(None, layout=True)
    """The task in front; None on a line that stands for several."""
    of_fold: reactive[Fold | None] = reactive(None, layout=True)
    """The line in front, if it stands for several."""
    of_job: reactive[WeekLine | None] = reactive(None, layout=True)
    """The job of the task."""

    def render(self) -> RenderResult:
        """What is to be done, the telephone number brightest; nothing for an empty list."""
        p, task, job = PALETTES[self.app.theme], self.of_task, self.of_job
        if self.of_fold is not None:
            return Text("Enter shows or hides them.", style=p.quiet)
        if task is None:
            return Text("")
        what = task.about or (task.kind.value if job is not None else task.who)
        what = _APART.join(filter(None, (what, how_it_goes_out(task))))
        reach = [] if job is None else [job.phone, *job.address.splitlines()]
        reach = [one_line(part) for part in reach if part.strip()]
        width = self.size.width
        if not self.has_class("-beside"):
            text = Text(shortened(_APART.join(reach), width), style=p.ink)
            return text.append(f"\n{shortened(one_line(what), width)}", style=p.quiet)
        text = Text()
        if job is not None:
            text.append(f"{shortened(one_line(job.place), width)}\n", style=f"bold {p.ink}")
            text.append(f"{shortened(one_line(job.customer), width)}\n", style=p.ink)
        for part in reach:
            text.append(f"{shortened(part, 2 * width)}\n", style=p.ink)
        return text.append(one_line(what), style=p.quiet)
