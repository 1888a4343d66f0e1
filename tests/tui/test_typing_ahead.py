"""Nothing typed is lost or reordered, however quick the hand and however slow the machine."""

from pathlib import Path

import pytest

from tests import builders
from tests.storage.books import query
from tests.tui.books.an_enquiry import book_at, read_again
from tests.tui.terminal import ENTER, ESCAPE, HOME, PAGE_DOWN, Terminal, ctrl


@pytest.mark.long
@pytest.mark.parametrize("pause_s", [0.005, 0.05, 0.3])
def test_a_name_typed_while_the_form_opens_is_whole(tmp_path: Path, pause_s: float) -> None:
    path = tmp_path / "book.db"
    book_at(path)
    with Terminal(path, slowed=True) as terminal:
        terminal.shows("Tonight")
        terminal.types("n", "Dave Hollis", ENTER, "Osmerton", ctrl("s"), pause_s=pause_s)
        terminal.types(ctrl("q"), pause_s=0)
        terminal.ends()
    assert read_again(path, 2).customer.name == "Dave Hollis"


@pytest.mark.long
@pytest.mark.parametrize("pause_s", [0.005, 0.3])
def test_what_is_typed_ahead_reaches_its_list_its_page_and_its_dialog(
    tmp_path: Path, pause_s: float
) -> None:
    path = tmp_path / "book.db"
    book_at(path, builders.survey())
    with Terminal(path, slowed=True) as terminal:
        terminal.shows("Tonight")
        terminal.types("f", "dr", ctrl("s"), pause_s=pause_s)
        terminal.types("j", HOME, ENTER, PAGE_DOWN, PAGE_DOWN, "14", ctrl("r"), pause_s=pause_s)
        terminal.types(ctrl("w"), "gate sticks", ctrl("s"), pause_s=pause_s)
        terminal.types(ESCAPE, pause_s=0.3)  # alone, or it would begin the next key
        terminal.types(HOME, "n", "Dave Hollis", ENTER, "Osmerton", ctrl("s"), pause_s=pause_s)
        terminal.types(ctrl("q"), pause_s=0)
        terminal.ends()
    job = read_again(path, 1)
    assert len(job.quotes) == 1
    assert [note.words for note in job.own_notes] == ["gate sticks"]
    assert read_again(path, 2).customer.name == "Dave Hollis"
    assert query(path, "SELECT count(*) FROM outlook") == [(2,)]
