"""What a person reads when a value cannot be taken."""

import pytest

from domain.errors import Refused


def test_a_value_that_will_not_do_is_named() -> None:
    refused = Refused("slope_length", "2,4 m", "Give a length such as 2.4 m.")
    assert str(refused) == "Slope length: “2,4 m” is not valid. Give a length such as 2.4 m."
    assert refused.sentence("Rafter") == (
        "Rafter: “2,4 m” is not valid. Give a length such as 2.4 m."
    )


def test_a_path_of_keys_is_said_in_plain_words() -> None:
    refused = Refused("slope 3, left_edge", "eaves", "Give verge or hip.")
    assert str(refused) == "Slope 3, left edge: “eaves” is not valid. Give verge or hip."


@pytest.mark.parametrize("value", ["", "  ", "\n"])
def test_an_empty_field_is_called_empty(value: str) -> None:
    refused = Refused("Deck left", value, "Choose how the deck was left.")
    assert str(refused) == "Deck left is empty. Choose how the deck was left."
    assert refused.value == ""


def test_what_cannot_be_printed_is_shown_as_such_and_shortened() -> None:
    assert Refused("Who", "a\x1b[2Jb", "").value == "“a�[2Jb”"
    assert Refused("Who", "x" * 99, "").value == f"“{'x' * 39}…”"
