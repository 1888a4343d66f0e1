"""Whether somebody who asks is a customer already."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.contacts import set_telephone
from domain.job import Customer, Ending, Site, Stage
from domain.known_customer import (
    ADDRESSED,
    Asking,
    JobInBrief,
    Known,
    KnownCustomer,
    known_by,
    likeliest,
    name_key,
    place_key,
    telephones,
)

LUDLAM = KnownCustomer(
    Customer("Mrs Ludlam", phone="01632 960117", address="7 Birch Lane\nOsmer\nSY8 1AA", id=1),
    (Site("Osmer", id=1), Site("Mill Row allotments", "Mill Row\nOsmer\nSY8 2BB", id=2)),
    (
        JobInBrief("0041", Stage.SIGNED_OFF, None, date(2026, 5, 12)),
        JobInBrief("0007", Stage.SURVEY, Ending.DECLINED, date(2025, 3, 1)),
    ),
)
NAMES = st.text(st.sampled_from("abcdefgABCDEFGéÉø '.-&12"), min_size=1, max_size=20)
SPOKEN = st.sampled_from(["", "Mr ", "mrs ", "Ms. ", "MISS ", "Mr & Mrs ", "Dr and mr "])


def _by(**asked: str) -> set[Known]:
    return set(known_by(Asking(**asked), LUDLAM.customer, LUDLAM.sites))


@given(NAMES, SPOKEN, st.sampled_from([str.upper, str.lower, str.title]))
def test_case_spaces_and_how_they_are_addressed_make_no_difference(
    name: str, spoken: str, case: object
) -> None:
    assert callable(case)
    key = name_key(f"x{name}")
    assert key
    assert name_key(f"  {spoken}{case(f'x{name}')} ".replace(" ", "  ")) == key


@given(NAMES)
def test_what_a_name_is_found_by_is_among_the_ways_to_address_it(name: str) -> None:
    # The index of the book holds names with all that stands before them.
    assert place_key(name) in {before + name_key(name) for before in ADDRESSED}


@given(
    st.sampled_from(["01632", "020", "07700", "0161"]),
    st.integers(100000, 999999),
    st.sampled_from(["{0}{1}", "{0} {1}", "({0}) {1}", "{0}-{1}"]),
    st.sampled_from(["0", "+44", "0044", "+44 (0)"]),
)
def test_a_number_is_the_same_however_it_is_written(
    code: str, number: int, form: str, front: str
) -> None:
    plain = f"{code}{number:07d}"
    typed = form.format(code, f"{number:07d}")
    if front != "0":
        typed = f"{front} {plain[1:]}"
    assert telephones(typed) == telephones(plain) == {plain}
    assert telephones(set_telephone(typed)) == {plain}


def test_two_numbers_and_words_beside_them_are_each_found() -> None:
    assert telephones("01632 960117 (work), or 07700 900 123") == {"01632960117", "07700900123"}
    assert telephones("ask at no. 12") == frozenset()


@pytest.mark.parametrize(
    ("asked", "by"),
    [
        ({"name": "ludlam"}, {Known.NAME}),
        ({"name": "MR LUDLAM"}, {Known.NAME}),
        ({"name": "Ludl"}, set()),
        ({"name": "Mrs"}, set()),
        ({"phone": "+44 1632 960117"}, {Known.NUMBER}),
        ({"phone": "960117"}, set()),
        ({"place": "mill row Allotments"}, {Known.PLACE}),
        ({"place": "sy81aa"}, {Known.PLACE}),
        ({"place": "Mill Row, SY8 2BB"}, {Known.PLACE}),
        ({"place": "SY8 3AA"}, set()),
        ({}, set()),
        ({"name": " ", "phone": "", "place": "."}, set()),
    ],
)
def test_who_is_known_by_name_number_place_or_postcode(
    asked: dict[str, str], by: set[Known]
) -> None:
    assert _by(**asked) == by


def test_the_likeliest_is_known_by_most_then_by_the_surest() -> None:
    def other(ref: str, **changed: Any) -> KnownCustomer:
        customer = replace(LUDLAM.customer, **changed)
        return KnownCustomer(customer, (Site("Elsewhere"),), (replace(LUDLAM.jobs[0], ref=ref),))

    namesake = other("0050", phone="01632 960000")
    newer = other("0060", phone="01632 960001")
    same_number = other("0003", name="Mr Ek")
    stranger = other("0070", name="Mr Ek", phone="")
    asking = Asking("Ludlam", "01632960117", "")
    everybody = [stranger, namesake, same_number, newer, LUDLAM]
    assert likeliest(asking, everybody) == (LUDLAM, same_number, newer, namesake)


def test_a_customer_is_told_in_a_line() -> None:
    assert LUDLAM.in_words == "Mrs Ludlam, Osmer: 2 jobs, last 0041 signed off May 2026"
    one = replace(LUDLAM, jobs=LUDLAM.jobs[1:])
    assert one.in_words == "Mrs Ludlam, Osmer: 1 job, 0007 declined March 2025"


def test_a_roof_of_theirs_is_found_by_its_place() -> None:
    assert LUDLAM.site_at("") == LUDLAM.sites[0]
    assert LUDLAM.site_at("mill row allotments") == LUDLAM.sites[1]
    assert LUDLAM.site_at("The Green") is None
