"""A closed window and a machine that is shut down leave the book as the key for leaving does."""

import os
import pty
import select
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from domain.job import Stage
from storage.backups.names import HALF, backups_folder, backups_in
from storage.week_and_jobs import find_jobs
from tests.architecture.sources import ROOT
from tests.tui.books.a_job_at_a_stage import carried_to

PATIENCE_S = 20
OPENED_AND_SAVED = """
import asyncio, sys
from pathlib import Path
from tests.storage.books import enquired
from tui.shell.app import HeadlapApp
from tui.shell.command_line import run_app

opened = HeadlapApp.on_mount

def on_mount(app):
    opened(app)
    app.run_worker(save(app))

async def save(app):
    await app.open_book.ask(enquired)
    app.screen.say("It was saved.")

HeadlapApp.on_mount = on_mount
run_app(Path(sys.argv[1]))
"""


def _told_to_stop(program: subprocess.Popen[bytes], master: int) -> None:
    program.send_signal(signal.SIGTERM)


def _window_closed(program: subprocess.Popen[bytes], master: int) -> None:
    os.close(master)


@pytest.mark.long
@pytest.mark.parametrize(
    ("end", "status"),
    [(_told_to_stop, 128 + signal.SIGTERM), (_window_closed, 128 + signal.SIGHUP)],
)
def test_the_book_is_left_in_order(
    tmp_path: Path, end: Callable[[subprocess.Popen[bytes], int], None], status: int
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    before = len(find_jobs(path, ""))
    program, master = _on_a_terminal(path)
    try:
        _wait_for(b"It was saved", master)
        end(program, master)
        assert program.wait(PATIENCE_S) == status
    finally:
        program.kill()
        program.wait()
    assert [each.name for each in tmp_path.iterdir() if each.is_file()] == [path.name]
    backups = backups_folder(path)
    half = list(backups.glob(f"{HALF}*"))  # the backup of the day may not have been begun yet
    assert half == []
    assert len(backups_in(backups, path)) <= 1
    assert len(find_jobs(path, "")) == before + 1


def _on_a_terminal(path: Path) -> tuple[subprocess.Popen[bytes], int]:
    """The program with a terminal of its own, which tells it when it is closed."""
    master, slave = pty.openpty()
    code = f"import fcntl, termios\nfcntl.ioctl(0, termios.TIOCSCTTY, 0)\n{OPENED_AND_SAVED}"
    program = subprocess.Popen(
        [sys.executable, "-c", code, str(path)],
        cwd=ROOT,
        stdin=slave,
        stdout=slave,
        stderr=slave,
        env={**os.environ, "TERM": "xterm-256color"},
        start_new_session=True,
    )
    os.close(slave)
    return program, master


def _wait_for(words: bytes, master: int) -> None:
    seen, until = b"", time.monotonic() + PATIENCE_S
    while words not in seen:
        left = until - time.monotonic()
        assert select.select([master], [], [], max(0, left))[0], seen[-2000:]
        seen += os.read(master, 65536)
