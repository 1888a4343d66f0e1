"""What is written to a terminal whose window was closed."""

import io
import os
import pty

from textual.drivers._writer_thread import MAX_QUEUED_WRITES, WriterThread

from tui.shell.prompt_driver import LastingOutput


class _Closed(io.StringIO):
    """A terminal whose window is closed: the system answers every write with a fault."""

    def __init__(self) -> None:
        super().__init__()
        self.tried = 0

    def write(self, _: str) -> int:
        self.tried += 1
        raise OSError(5, "Input/output error")

    def flush(self) -> None:
        raise OSError(5, "Input/output error")


def test_a_closed_window_takes_all_that_is_written_and_keeps_nobody_waiting() -> None:
    terminal = _Closed()
    writer = WriterThread(LastingOutput(terminal))  # type: ignore[arg-type] # all of a file it asks for
    writer.start()
    for _ in range(3 * MAX_QUEUED_WRITES):
        writer.write("drawn")
    writer.stop()
    assert terminal.tried == 3 * MAX_QUEUED_WRITES


def test_what_a_closed_window_did_not_take_does_not_fail_again_at_the_end() -> None:
    window, behind = pty.openpty()
    with os.fdopen(behind, "w") as terminal:
        output = LastingOutput(terminal)
        os.close(window)
        output.write("drawn")
        output.flush()
        terminal.flush()  # as Python does at its end: a fault there is a status of its own
