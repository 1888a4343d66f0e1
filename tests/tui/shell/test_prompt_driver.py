import asyncio
import os
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from queue import Queue

import pytest
from textual import constants
from textual.app import App
from textual.message import Message

from tui.shell.app import make_app
from tui.shell.prompt_driver import PromptDriver

AT_MOST_S = 20


class Typist(PromptDriver):
    """Reads what is typed into a pipe."""

    def __init__(self, reads: int) -> None:
        super().__init__(App(), debug=False, mouse=False, size=(80, 24))
        self.fileno = reads
        self.keys: Queue[str] = Queue()

    def process_message(self, message: Message) -> None:
        self.keys.put(getattr(message, "key", type(message).__name__))


@contextmanager
def typing() -> Iterator[tuple[Typist, int, threading.Thread]]:
    """Someone who types, where it is typed, and the thread that reads it."""
    reads, typed = os.pipe()
    typist = asyncio.run(_made(reads))
    thread = threading.Thread(target=typist.run_input_thread, daemon=True)
    thread.start()
    try:
        yield typist, typed, thread
    finally:
        typist.exit_event.set()
        with suppress(OSError):
            os.close(typed)
        thread.join(AT_MOST_S)
        os.close(reads)


def test_esc_is_told_though_no_key_follows() -> None:
    with typing() as (typist, typed, _):
        os.write(typed, b"\x1b")
        assert typist.keys.get(timeout=AT_MOST_S) == "escape"


@pytest.mark.parametrize(("first", "then"), [(b"\x1b", b"[A"), (b"\x1b[", b"A"), (b"\x1bO", b"R")])
def test_a_key_of_several_characters_is_one_though_it_comes_in_two_parts(
    first: bytes, then: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(constants, "ESCAPE_DELAY", AT_MOST_S)
    with typing() as (typist, typed, _):
        os.write(typed, first)
        os.write(typed, then)
        assert typist.keys.get(timeout=AT_MOST_S) == ("f3" if then == b"R" else "up")


def test_a_letter_of_two_bytes_is_one_though_they_come_apart() -> None:
    with typing() as (typist, typed, _):
        for byte in "ë".encode():
            os.write(typed, bytes([byte]))
        assert typist.keys.get(timeout=AT_MOST_S) == "ë"


def test_nothing_is_read_from_a_terminal_that_has_gone() -> None:
    with typing() as (_, typed, thread):
        os.close(typed)
        thread.join(AT_MOST_S)
        assert not thread.is_alive()


def test_the_program_reads_its_terminal_so(tmp_path: Path) -> None:
    assert make_app(tmp_path / "book.db").driver_class is PromptDriver


async def _made(reads: int) -> Typist:
    """A driver asks for the loop that runs as it is made."""
    return Typist(reads)
