"""The name of a merchant, as it is typed with a price or a purchase."""

import pytest

from domain.errors import Refused
from tui.widgets.field_values import read_merchant


def test_a_merchant_has_a_name_with_a_letter_in_it() -> None:
    assert read_merchant("merchant", " Pellow & Daughter ") == "Pellow & Daughter"
    for typed in ("", " ", "42", "0117-42"):
        with pytest.raises(Refused) as refused:
            read_merchant("merchant", typed)
        assert refused.value.field == "merchant"
