"""What a British tradesman types into the fields of the forms, and what it comes to."""

from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from domain.coverings.materials import Material
from domain.errors import Refused
from domain.estimate.stock import StockLine, StockMove
from domain.job import Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.tui.books.an_enquiry import NOW, app_on, book_at, read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import cut_off, sees
from tests.tui.test_reading import FORMS, TODAY
from tui.job.enquiry.enquiry_fields import enquiry_of, read_enquiry
from tui.job.survey.boards_field import boards_note
from tui.lists.price_dialog import read_price
from tui.lists.stock_dialogs import read_count_of, read_put_in

NAILS = StockLine(Material.SHINGLE_NAILS, "", Decimal(100))


@pytest.mark.parametrize(
    ("form", "field", "typed", "of", "value"),
    [
        ("enquiry", "phone", "01632960117", lambda r: r.customer.phone, "01632 960117"),
        ("enquiry", "phone", "01632960117 x4", lambda r: r.customer.phone, "01632 960117 ext. 4"),
        ("enquiry", "rough", "about 600", lambda r: r.enquiry.rough, 600_00),
        ("enquiry", "rough", "1.2k", lambda r: r.enquiry.rough, 1_200_00),
        ("enquiry", "visit_at", "half 9", lambda r: r.enquiry.visit_at, time(9, 30)),
        ("enquiry", "visit_at", "quarter to 9", lambda r: r.enquiry.visit_at, time(8, 45)),
        (
            "enquiry",
            "address",
            "7 Birch Lane, sy81aa",
            lambda r: r.customer.address,
            "7 Birch Lane\nSY8 1AA",
        ),
        ("enquiry", "site_address", "b1 1bb", lambda r: r.site.address, "B1 1BB"),
        ("survey", "replace_m", "8 ft 3 1/2", lambda r: r.deck.replace_m, Decimal("2.53")),
        ("extra", "quantity", "33 ft", lambda r: r.quantity, Decimal("10.06")),
        ("your details", "edge_centres", "2 in", lambda r: r.nailing.edge_centres, 51),
        ("your details", "shingle_nail", "3/4 in", lambda r: r.nailing.shingle_nail, 19),
        ("survey", "length", "8 ft 3 1/2", lambda r: r.measures.length.mm, Fraction("2527.3")),
        ("survey", "span", "2400", lambda r: r.measures.span.mm, 2400),
        ("survey", "pitch", "1 in 1", lambda r: r.measures.pitch.degrees, 45),
        ("survey", "pitch", "15°", lambda r: r.measures.pitch.degrees, 15),
        ("pricing", "miles", "14 miles", lambda r: r.miles, 14),
        ("pricing", "deposit", "£1,250.50", lambda r: r.deposit, 1_250_50),
        ("booking", "hours1", "7½ hrs", lambda r: r[0].hours, Decimal("7.5")),
        ("stripped", "kg", "2 cwt", lambda r: r.waste_kg, Decimal("101.605")),
        ("stripped", "kg", "40 kg", lambda r: r.waste_kg, 40),
        ("extra", "quantity", "4.2 m", lambda r: r.quantity, Decimal("4.2")),
        ("payment", "amount", "50p", lambda r: r.pence, 50),
        ("your details", "phone", "(020) 79460123", lambda r: r.phone, "020 7946 0123"),
        ("your details", "address", "3 Row, b1 1bb", lambda r: r.address, "3 Row\nB1 1BB"),
        ("your details", "markup", "15%", lambda r: r.rates.markup, 15),
        ("your details", "days_to_pay", "2 weeks", lambda r: r.days_to_pay, 14),
        ("your details", "lay_mph", "17 mph", lambda r: r.limits.lay_mph, 17),
        ("your details", "least_c", "5 °C", lambda r: r.limits.least_c, 5),
        ("your details", "set_up", "1 hr", lambda r: r.rates.labour.set_up, 1),
        ("your details", "payload_kg", "1.2 t", lambda r: r.van.payload_kg, 1200),
        ("your details", "work_from", "half 7", lambda r: r.work_from, time(7, 30)),
        ("forecast", "forecast", "2d R", lambda r: [f.sky for f in r], ["dry", "dry", "rain"]),
    ],
)
def test_a_field_takes_it_as_it_is_said(
    form: str, field: str, typed: str, of: Callable[[Any], object], value: object
) -> None:
    asked = FORMS[form]
    assert of(asked.read(asked.typed({**asked.good, field: typed}))) == value


def test_a_day_and_a_last_day_are_taken_as_they_are_said() -> None:
    monday, gone = date(2026, 6, 29), date(2026, 6, 22)
    assert TODAY.isoweekday() == 3
    booked = FORMS["booking"]
    assert booked.read(booked.typed({**booked.good, "day1": "next mon"}))[0].day == monday
    done = FORMS["signed off"]
    signed = done.read(done.typed({**done.good, "on": "mon", "until": "10 yrs"}))
    assert (signed.on, signed.guarantee_until) == (gone, date(2036, 6, 22))
    own = FORMS["your details"]
    assert own.read(own.typed({**own.good, "waste_expires": "3 years"})).waste_expires == date(
        2029, 6, 24
    )


def test_an_e_mail_address_that_cannot_be_one_stays_if_an_older_book_has_it() -> None:
    before = enquiry_of(builders.job_at(Stage.QUOTED))
    older = replace(before, customer=replace(before.customer, email="by post"))
    assert read_enquiry({"phone": ""}, older, TODAY).customer.email == "by post"
    with pytest.raises(Refused, match="Give one address"):
        read_enquiry({"email": "by hand"}, older, TODAY)


def test_nails_are_put_in_counted_and_priced_by_weight() -> None:
    put_in = {"material": NAILS.material.words, "colour": "", "quantity": "1 kg", "words": "shed"}
    assert read_put_in(put_in, TODAY).quantity == 585
    assert read_count_of({"counted": "500 g"}, NAILS, TODAY).quantity == 292 - 100
    price = {"merchant": "M", "per_pack": "1 kg", "net": "9", "vat": "20%", "kg": "1kg"}
    assert read_price(price | {"since": "today"}, Material.SHINGLE_NAILS, TODAY).per_pack == 585


def test_boards_are_told_the_other_way_whatever_their_unit() -> None:
    cover = builders.survey().deck.cover_width
    assert boards_note("3 m", cover) == boards_note("3", cover)
    assert boards_note("3", cover).endswith("m²")


async def test_the_count_of_nails_stands_beside_their_weight(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.move_stock(StockMove(NAILS.material, "", NAILS.quantity, NOW.date()))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press(key("anywhere", "go('stock')"))
        await sees(pilot, "100 nails")
        await hands.ask(key("stock", "put_in"))
        await hands.write({"Quantity": "1kg", "Came from": "shed"})
        await sees(pilot, "1kg, about 585 nails")
        assert await cut_off(pilot) == []
        await hands.press(key("dialog", "save"))
        await sees(pilot, "685 nails")


async def test_an_enquiry_is_typed_as_it_is_said(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.ENQUIRY)
        await hands.write({"E-mail": "adeyemi at example"})
        await hands.save("E-mail: “adeyemi at example” is not valid.")
        await hands.write({"E-mail": "ann@example.com", "Telephone": "07700900123"})
        await hands.write({"Rough price given": "~600", "Visit on": "next fri"})
        await hands.write({"Visit at": "half 9"})
        await hands.save("Saved")
        assert await cut_off(pilot) == []
    job = read_again(path)
    assert (job.customer.phone, job.customer.email) == ("07700 900123", "ann@example.com")
    assert (job.enquiry.rough, job.enquiry.visit_at) == (600_00, time(9, 30))
