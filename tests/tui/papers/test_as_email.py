"""A draft of an e-mail, read back by a reader of messages."""

from dataclasses import replace
from datetime import date
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.papers.blocks import Letter
from tui.frame.safe_text import lines, one_line
from tui.papers.as_email import draft_of

PDF = b"%PDF-1.7 \x00\xff\r\n.\r\n"
DAY = date(2026, 6, 24)
LETTER = Letter("robin@example.com", "Quote 0421", "Dear Ann\n\n£3", "", "ann@example.com")


def _read(draft: bytes) -> EmailMessage:
    return message_from_bytes(draft, policy=default)


def test_it_is_a_draft_to_the_customer_with_the_pdf_attached() -> None:
    message = _read(draft_of(LETTER, PDF, "quote-0421.pdf", DAY))
    (pdf,) = message.iter_attachments()
    assert (message["X-Unsent"], message["To"], message["From"]) == (
        "1",
        "ann@example.com",
        "robin@example.com",
    )
    assert message["Date"].datetime.date() == DAY
    assert (pdf.get_content_type(), pdf.get_filename()) == ("application/pdf", "quote-0421.pdf")
    assert pdf.get_content() == PDF
    assert not {"Bcc", "Cc"} & set(message.keys())


def test_the_same_draft_of_a_day_is_the_same_file() -> None:
    first = draft_of(LETTER, PDF, "quote.pdf", DAY)
    assert first == draft_of(LETTER, PDF, "quote.pdf", DAY)
    assert first != draft_of(replace(LETTER, text="Dear Bob"), PDF, "quote.pdf", DAY)


@given(st.text(max_size=120), st.text(max_size=300))
def test_what_was_typed_adds_no_header_and_no_line(subject: str, text: str) -> None:
    draft = draft_of(replace(LETTER, subject=subject, text=text), PDF, "quote.pdf", DAY)
    message = _read(draft)
    body = message.get_body(("plain",))
    plain = _read(draft_of(LETTER, PDF, "quote.pdf", DAY))
    assert body is not None
    assert message.keys() == plain.keys()
    assert message["Subject"].split() == one_line(subject).split()
    assert body.get_content().replace("\r\n", "\n") == f"{lines(text).strip()}\n"
    assert max(map(len, draft.split(b"\r\n"))) <= 998  # RFC 5322, 2.1.1: from memory


@pytest.mark.parametrize(
    "address",
    [
        "",
        "a@b.co\nBcc: x@y.co",
        "a@b.co\rBcc: x@y.co",
        "a@b.co, x@y.co",
        "[a\\@b.co",
        "\u202ea@b.co",
    ],
)
def test_an_address_that_is_not_one_is_left_to_the_mail_program(address: str) -> None:
    message = _read(draft_of(replace(LETTER, to=address), PDF, "quote.pdf", DAY))
    assert message["To"] is None
    assert message["Bcc"] is None


def test_an_address_in_letters_of_other_tongues_stays_as_it_is() -> None:
    draft = draft_of(replace(LETTER, to="zoë@bücher.example"), PDF, "quote.pdf", DAY)
    assert "To: zoë@bücher.example\r\n".encode() in draft
