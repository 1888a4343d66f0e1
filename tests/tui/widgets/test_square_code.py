"""A message as a square code, read back by a decoder that has nothing to do with what drew it."""

import pytest
import zxingcpp

from tests.tui.widgets.codes import modules, read_back
from tui.widgets.square_code import BORDER, message_code

NUMBER = "+447700900123"
FULL = "Hello Mrs Ek, rain is forecast for Thu 26 Nov. Would Tue 1 Dec suit instead? Jo Hale"
BRIEF = "Rain is forecast for Thu 26 Nov. Would Tue 1 Dec suit instead?"


@pytest.mark.parametrize(
    ("side", "words", "is_shortened"),
    [
        (80, FULL, False),
        (45, FULL, False),
        (41, "Rain is forecast for Thu 26 Nov. Would Tue 1 Dec suit...", True),
        (37, "Rain is forecast for Thu 26...", True),
    ],
)
def test_as_much_is_said_as_there_is_room_for(side: int, words: str, is_shortened: bool) -> None:
    code = message_code(NUMBER, FULL, BRIEF, side)
    assert code is not None
    assert (code.text, code.is_shortened) == (words, is_shortened)
    (read,) = zxingcpp.read_barcodes(read_back(code.lines))
    assert read.text == f"SMSTO:{NUMBER}:{words}"


def test_what_stands_round_it_is_light_and_it_is_no_larger_than_it_may_be() -> None:
    for side in range(25, 60):
        code = message_code("+441632960117", "Ring me", "Ring", side)
        if code is None:
            continue
        rows = modules(code.lines)
        assert len(code.rows) <= side
        edges = [*rows[:BORDER], *rows[len(code.rows) - BORDER :]]
        edges += [[*row[:BORDER], *row[-BORDER:]] for row in rows]
        assert not any(map(any, edges))


@pytest.mark.parametrize("words", ["£20 für Zoë", 'a:b;c,d\\e"f', "雨"])
def test_any_words_come_back_as_they_were(words: str) -> None:
    code = message_code(NUMBER, words, words, 60)
    assert code is not None
    (read,) = zxingcpp.read_barcodes(read_back(code.lines))
    assert read.text == f"SMSTO:{NUMBER}:{words}"


def test_in_too_small_a_window_there_is_none() -> None:
    assert message_code(NUMBER, FULL, BRIEF, 20) is None
