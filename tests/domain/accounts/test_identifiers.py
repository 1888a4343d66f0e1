import pytest

from domain.accounts.identifiers import read_account, read_sort_code, read_utr, read_vat_number
from domain.errors import Refused

HOSTILE = ["", " ", "12345", "[/]", "x" * 10_000, "٣٣٣٣٣٣٣٣", "98078068\n4", "\u202e980780684"]


def test_vat_numbers_are_held_against_their_check_digits() -> None:
    # 980780684 valid, 802311781 not: python-stdnum (computed).
    assert read_vat_number("VAT number", "GB 980 7806 84") == "980780684"
    with pytest.raises(Refused, match="VAT number: “802311781” is not valid"):
        read_vat_number("VAT number", "802311781")


def test_utrs_are_held_against_their_check_digit() -> None:
    # 1955839661 valid, 2955839661 not: python-stdnum (computed).
    assert read_utr("UTR", "19558 39661") == "1955839661"
    with pytest.raises(Refused, match="UTR: “2955839661” is not valid"):
        read_utr("UTR", "2955839661")


@pytest.mark.parametrize("text", ["123456", "12-34-56", "12 34 56"])
def test_a_sort_code_is_six_digits(text: str) -> None:
    assert read_sort_code("Sort code", text) == "12-34-56"


def test_an_account_number_is_eight_digits() -> None:
    assert read_account("Account", "0123 4567") == "01234567"
    with pytest.raises(Refused, match="leading zeros"):
        read_account("Account", "1234567")


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("read", [read_vat_number, read_utr, read_sort_code, read_account])
def test_anything_else_is_refused(read: object, text: str) -> None:
    assert callable(read)
    with pytest.raises(Refused):
        read("Number", text)
