"""Nothing typed is lost or reordered, however quick the hand and however slow the machine."""

from pathlib import Path

import pytest

from tests.tui.books.an_enquiry import book_at, read_again
from tests.tui.terminal import ENTER, Terminal, ctrl


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
