from contextlib import suppress
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.coverings.materials import Material
from domain.errors import Refused
from domain.estimate.basis import read_basis
from domain.estimate.old_prices import old_prices
from domain.estimate.prices_in import MOST_LINES, Verdict, net_of, read_price_file, to_save
from domain.money import plain_pounds
from tests import priced

TODAY = date(2026, 11, 28)
TITLES = "material,merchant,pack_size,price,with_vat,vat,colour,since\n"
KNOWN = priced.price(Material.MASTIC, 4_00, "1", merchant="Quayside", since=date(2026, 1, 5))


def read(text: str | bytes, known: tuple = (KNOWN,)) -> tuple:  # type: ignore[type-arg]
    content = text if isinstance(text, bytes) else text.encode()
    return read_price_file("file", "prices.csv", content, known, TODAY)


def test_each_line_is_new_changed_as_before_or_refused_with_its_reason() -> None:
    lines = read(
        TITLES
        + "mastic,quayside,1,4.00,no,20,,\n"
        + "mastic,Northfield,1,6.00,yes,,,1 Nov 2026\n"
        + "Mastic,Quayside,1,4.20,,,,\n"
        + "tar,Quayside,1,4.20,,,,\n"
        + "underlay,Quayside,0,30,,,,\n"
        + '"=HYPERLINK(""x"")",Quayside,1,30,,,,\n'
        + "underlay,Quayside,15\n"
    )
    assert [each.verdict for each in lines] == [
        Verdict.SAME,
        Verdict.NEW,
        Verdict.REFUSED,
        *[Verdict.REFUSED] * 4,
    ]
    same, new, twice, unknown, no_pack, formula, short = lines
    assert new.price is not None
    assert (new.price.net, new.price.since) == (5_00, date(2026, 11, 1))
    assert "line 2 already" in twice.why
    assert "“tar” is not valid" in unknown.why
    assert "Pack size" in no_pack.why
    assert "a formula is not read" in formula.why
    assert "it has 3" in short.why
    assert to_save((same, new)) == (new.price,)


@pytest.mark.parametrize("said", ["square-butt", "Square butt", "square butt shingles"])
def test_a_material_is_called_as_it_is_on_the_survey(said: str) -> None:
    (line,) = read(f"{TITLES}{said},Quayside,21,31.50,,,slate grey,\n")
    assert line.price is not None
    assert line.price.material == Material("square-butt")


def test_a_price_that_changed_says_what_it_was_and_a_starting_figure_is_replaced() -> None:
    (line,) = read(TITLES + "mastic,Quayside,1,4.20,,,,\n")
    assert (line.verdict, line.why) == (Verdict.CHANGED, "was £4.00")
    text = TITLES + "mastic,Quayside,1,4.00,,,,\n"
    (line,) = read(text, (replace(KNOWN, starting=True),))
    assert line.verdict is Verdict.CHANGED


@pytest.mark.parametrize(
    ("content", "remedy"),
    [
        (b"", "must name the columns: material, merchant, pack size, price"),
        (b"item,price\nmastic,4\n", "must name the columns"),
        (b"material,merchant,pack_size,price,price\n", "must name the columns"),
        (TITLES.encode(), "with a price in it"),
        ("material,merchant,pack_size,price\nfelt,Caf\u00e9,1,4".encode("cp1252"), "UTF-8"),
        (b'material,merchant,pack_size,price\n"mastic,Quay,1,4', "CSV with commas"),
        (TITLES.encode() + b"mastic,Q,1,4,,,,\n" * (MOST_LINES + 1), "2,000 lines at most"),
        (TITLES.encode() + b"mastic,Q,1,4,,,,\n" * 1_000_000, "2,000 lines at most"),
    ],
)
def test_a_file_that_is_no_list_of_prices_is_refused_in_one_sentence(
    content: bytes, remedy: str
) -> None:
    with pytest.raises(Refused, match=remedy):
        read(content)


def test_a_file_with_a_byte_order_mark_is_read() -> None:
    assert len(read(b"\xef\xbb\xbf" + TITLES.encode() + b"mastic,Q,1,4,,,,\n")) == 1


@given(st.binary(max_size=400))
def test_no_file_is_more_than_refused(content: bytes) -> None:
    for text in (content, TITLES.encode() + content):
        with suppress(Refused):
            assert read(text)


def test_a_price_typed_with_vat_is_kept_without_it() -> None:
    # VAT fraction 1/6: £99.99 holds £16.67 and £83.32 is left (computed).
    assert net_of(99_99, Decimal(20), with_vat=True) == 83_32
    assert net_of(120_00, Decimal(20), with_vat=True) == 100_00
    assert net_of(120_00, Decimal(20), with_vat=False) == 120_00


def test_prices_over_90_days_old_when_the_quote_was_made_are_marked() -> None:
    basis = read_basis(priced.quote().options[0].basis)
    bought = [each for each in basis.supplies if each.packs]
    since = max(each.price.since for each in bought)
    assert old_prices(basis.supplies, since + timedelta(days=90)) == tuple(
        each for each in bought if each.price.since < since
    )
    assert set(old_prices(basis.supplies, since + timedelta(days=91))) == set(bought)


@given(st.integers(1, 10**6), st.booleans())
def test_a_price_from_a_file_keeps_what_stood_there_and_is_as_before_the_next_time(
    pence: int, with_vat: bool
) -> None:
    said = f"mastic,Quay,1,{plain_pounds(pence)},{'yes' if with_vat else 'no'},20,,\n"
    (new,) = read(TITLES + said, ())
    assert new.price is not None
    assert (new.price.gross if with_vat else new.price.net) == pence
    (again,) = read(TITLES + said, (new.price,))
    assert again.verdict is Verdict.SAME


def test_what_a_price_was_before_is_said_as_it_was_typed() -> None:
    (first,) = read(f"{TITLES}mastic,Quay,1,9.99,yes,20,,\n", ())
    assert first.price is not None
    (line,) = read(f"{TITLES}mastic,Quay,1,9.98,yes,20,,\n", (first.price,))
    assert (line.verdict, line.why) == (Verdict.CHANGED, "was £9.99 with VAT")
