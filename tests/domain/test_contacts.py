"""Postcodes, telephone numbers and e-mail addresses as they are typed."""

from collections.abc import Callable
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.contacts import (
    international_digits,
    read_email,
    read_place,
    read_telephone,
    set_postcode,
    set_telephone,
    telephone_digits,
)
from domain.errors import Refused


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("sy8 1aa", "SY8 1AA"),
        ("SY81AA", "SY8 1AA"),
        ("7 Birch Lane\nOsmerton\nsy8  1aa", "7 Birch Lane\nOsmerton\nSY8 1AA"),
        ("7 birch Lane\nOsmerton b1 1bb", "7 birch Lane\nOsmerton B1 1BB"),
        ("m60 1nw", "M60 1NW"),
        ("cr2 6xh", "CR2 6XH"),
        ("dn551pt", "DN55 1PT"),
        ("w1a1hq", "W1A 1HQ"),
        ("ec1a 1bb", "EC1A 1BB"),
        ("n1p 1aa", "N1P 1AA"),
        ("gir0aa", "GIR 0AA"),
        ("7 Birch Lane", "7 Birch Lane"),
        ("Unit 4B", "Unit 4B"),
        ("the yard, A49", "the yard, A49"),
        ("bfpo 61", "bfpo 61"),
        ("Plot M5 J12", "Plot M5 J12"),
        ("", ""),
    ],
)
def test_a_postcode_at_the_end_is_in_capitals_with_one_space(typed: str, shown: str) -> None:
    assert set_postcode("address", typed) == shown
    assert set_postcode("address", shown) == shown


@pytest.mark.parametrize("typed", ["sy8 1a", "SY8 1AAA", "SY8 11A", "SY8 1OO", "W1A 11"])
def test_a_postcode_that_ends_wrong_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match=r"Address: .*: give one such as SY8 1AA\.") as refused:
        set_postcode("address", f"7 Birch Lane\n{typed}")
    assert refused.value.value == f"“{typed}”"


AREAS = st.sampled_from(["AB", "SY", "B", "WR", "N", "EC", "LL", "DG", "BT", "ZE"])
ENDS = st.text(st.sampled_from("ABDEFGHJLNPQRSTUWXYZ"), min_size=2, max_size=2)


@given(AREAS, st.integers(1, 99), st.integers(0, 9), ENDS, st.booleans())
def test_a_postcode_reads_back_whatever_its_spaces(
    area: str, district: int, sector: int, end: str, small: bool
) -> None:
    postcode = f"{area}{district} {sector}{end}"
    typed = postcode.replace(" ", "")
    assert set_postcode("address", typed.lower() if small else typed) == postcode


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("01632960117", "01632 960117"),
        ("01632 960 117", "01632 960117"),
        ("(01632) 960117", "01632 960117"),
        ("07700-900-123", "07700 900123"),
        ("02079460123", "020 7946 0123"),
        ("0207 946 0123", "020 7946 0123"),
        ("0113 4960123", "0113 496 0123"),
        ("01914980123", "0191 498 0123"),
        ("01539 412345", "015394 12345"),
        ("0169772345", "016977 2345"),
        ("0120412345", "01204 12345"),
        ("03069990123", "0306 999 0123"),
        ("0800123456", "0800 123456"),
        ("08081570123", "0808 157 0123"),
        ("+447700900123", "+44 7700 900123"),
        ("+44 (0)20 7946 0123", "+44 20 7946 0123"),
        ("0044 1632 960117", "+44 1632 960117"),
        ("+44 01632 960117", "+44 1632 960117"),
        ("01632960117 x4", "01632 960117 ext. 4"),
        ("(01632) 960117 Extn 12", "01632 960117 ext. 12"),
    ],
)
def test_a_telephone_number_is_spaced_after_its_code(typed: str, shown: str) -> None:
    # Numbers Ofcom keeps for drama (01632 960xxx, 07700 900xxx, 020 7946 0xxx, 0113 496 0xxx,
    # 0191 498 0xxx, 0306 999 0xxx, 0808 157 0xxx): from memory. The others only show the spacing.
    assert set_telephone(typed) == shown
    assert set_telephone(shown) == shown


@pytest.mark.parametrize(
    "typed",
    [
        *("", "0", "960117", "+33 1 23 45 67 89", "07700 900123 after 6", "0171 123 4567"),
        *("07700 900123 / 01632 960117", "٠١٦٣٢ ٩٦٠١١٧", "(((", "[/]", "0" * 40),
    ],
)
def test_a_number_that_is_not_known_stays_as_typed(typed: str) -> None:
    assert set_telephone(f" {typed} ") == typed


@pytest.mark.parametrize(
    "typed",
    ["", "960117", "+33 1 23 45 67 89", "07700 900123 after 6", "07700 900123 / 01632 960117"],
)
def test_what_begins_as_a_telephone_number_is_taken(typed: str) -> None:
    assert read_telephone("phone", typed) == typed


@pytest.mark.parametrize(
    "typed",
    ["Lane [red]x", "12 Birch Lane", "0", "(((", "no phone", "٠١٦٣٢ ٩٦٠١١٧", "0" * 40, "8x6"],
)
def test_what_cannot_be_a_telephone_number_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match="Give a number such as 01632 960117"):
        read_telephone("phone", typed)


@pytest.mark.parametrize(
    "typed",
    [
        *("0771 2345", "0771 2345 after 6", "07700 9001234", "077009001234", "+44 7700 90012"),
        *("01632 9601", "+44 (0)7700 9001234", "0771 2345 ext 4"),
    ],
)
def test_a_number_with_too_few_or_too_many_digits_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match="Give all its 10 or 11 digits, such as 01632 960117"):
        read_telephone("phone", typed)


@pytest.mark.parametrize(
    "typed",
    [
        *("016977 2345", "0500 123456", "0800 1111", "01632 960117 07700 900123", "0033 1 23 45"),
        *("+44 (0)7700 900123", "(01632) 960117", "01632 960117 ext 4", "0044 20 7946 0123"),
    ],
)
def test_a_number_with_all_its_digits_is_taken_whatever_stands_behind(typed: str) -> None:
    assert telephone_digits(read_telephone("phone", typed)).startswith("0")


@pytest.mark.parametrize(
    "typed", ["", "ann@example.com", " ann.o'hara+roof@mail.example.co.uk ", "ænn@exämple.org"]
)
def test_an_address_for_e_mail_is_kept(typed: str) -> None:
    assert read_email("email", typed) == typed.strip()


@pytest.mark.parametrize(
    "typed",
    [
        *("ann", "ann@", "@example.com", "ann@example", "ann@@example.com", "ann@example..com"),
        *("ann example@x.com", "a@b.com, c@d.com", "ann@example.com.", "a" * 260 + "@b.com", "[/]"),
    ],
)
def test_what_cannot_be_an_e_mail_address_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match=r"Give one address, such as ann@example\.com\."):
        read_email("email", typed)


@given(st.text(max_size=40))
def test_any_text_is_set_or_refused(text: str) -> None:
    assert set_telephone(set_telephone(text)) == set_telephone(text)
    with suppress(Refused):
        assert read_telephone("phone", text) == set_telephone(text)
    with suppress(Refused):
        assert read_email("email", text) == text.strip()
    with suppress(Refused):
        shown = set_postcode("address", text)
        assert set_postcode("address", shown) == shown


@pytest.mark.parametrize(
    ("typed", "dialled"),
    [
        ("07700 900123", "+447700900123"),
        ("+44 (0)7700 900123", "+447700900123"),
        ("0044 7700 900123", "+447700900123"),
        ("01632 960117 ext. 4", "+441632960117"),
        ("01632 960117, after 6", "+441632960117"),
        ("+353 1 496 0000", "+35314960000"),
        ("00353 1 496 0000", "+35314960000"),
        ("", ""),
        ("the yard", ""),
    ],
)
def test_a_number_is_dialled_from_anywhere(typed: str, dialled: str) -> None:
    assert international_digits(typed) == dialled


@pytest.mark.parametrize("read", [read_place, set_postcode])
@pytest.mark.parametrize("number", ["01632960777", " 07700 900123 ", "+44 1632 960117"])
def test_a_telephone_number_is_no_place(read: Callable[[str, str], str], number: str) -> None:
    with pytest.raises(Refused, match="That is a telephone number: give a place"):
        read("place", number)


@pytest.mark.parametrize("place", ["14", "Plot 12", "7 Birch Lane", "SY8 1AA"])
def test_a_number_of_a_house_is_one(place: str) -> None:
    assert read_place("place", f" {place} ") == place
