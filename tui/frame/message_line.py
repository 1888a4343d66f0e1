"""The one line in which the program speaks: what was done, or what stands in the way."""

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from domain.signs import BEFORE_WORDS
from domain.tone import Tone
from tui.frame.safe_text import one_line


class Says(Message):
    """A part of a screen has something to say in its line."""

    def __init__(self, sentence: str, tone: Tone) -> None:
        self.sentence, self.tone = sentence, tone
        super().__init__()


class MessageLine(Static):
    """Empty most of the time; says one sentence, with a sign as well as a colour."""

    DEFAULT_CSS = """
    MessageLine { dock: bottom; height: auto; max-height: 4; padding: 0 2; display: none; }
    MessageLine { margin-bottom: 1; }
    MessageLine.-stop { color: $stop; } MessageLine.-caution { color: $caution; }
    MessageLine.-good { color: $moss; } MessageLine.-quiet { color: $quiet; }
    """

    class Grown(Message):
        """It takes another number of lines, or none."""

        def __init__(self, lines: int) -> None:
            self.lines = lines
            super().__init__()

    _lasting = False

    def say(self, sentence: str, tone: Tone = Tone.GOOD, *, lasting: bool = False) -> None:
        """Show the sentence until :meth:`hush` or the next one."""
        self._lasting = lasting
        self.set_classes(f"-{tone.value}")
        self.update(Content(BEFORE_WORDS.get(tone, "") + one_line(sentence)))
        self.display = True

    def on_resize(self, event: events.Resize) -> None:
        """Tell how many lines it takes."""
        self.post_message(self.Grown(event.size.height))

    def on_hide(self) -> None:
        """Tell that it takes none."""
        self.post_message(self.Grown(0))

    def hush(self) -> None:
        """Take the message away."""
        self.display = False

    def hush_unless_lasting(self) -> None:
        """Take the message away, unless what was said is to outlast the screen it was said on."""
        if not self._lasting:
            self.hush()
