"""A logo and what a quote said are in the book: no moved file, no new details change them."""

from dataclasses import replace
from pathlib import Path

import pytest

from domain.accounts.as_sent import as_sent
from domain.errors import Refused
from domain.job import Job, Sending
from domain.look import Look, Picture
from domain.papers.quote_paper import quote_paper
from domain.scope import ListName
from storage.book import Book
from storage.errors import Damaged
from storage.pictures import MOST_BYTES, read_picture
from tests import builders
from tests.storage.books import laid, one_option, surveyed, undo
from tui.papers.as_issued import paper_as_issued

LOGO = Picture("logo.png", b"a logo")
LOOK = Look("#14285a", LOGO.key, LOGO.name)
PNG = b"\x89PNG\r\n\x1a\n" + b"\0\0\0\rIHDR"


def _sent(book: Book) -> Job:
    job = surveyed(book)
    job = book.save_quote(job, one_option(job))
    return book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))


def test_a_quote_and_an_invoice_print_as_they_did_when_the_look_changed(book: Book) -> None:
    book.save_trader(replace(book.trader(), look=LOOK), LOGO)
    job, billed = _sent(book), book.issue_invoice(laid(book, "Old Quay"), builders.SIGNED)
    before = quote_paper(job, job.quotes[0], book.trader())
    invoice = paper_as_issued(billed.documents[0], billed.customer)
    assert before.look == invoice.look == LOOK
    book.save_trader(replace(book.trader(), name="Robin Other", look=Look()))
    assert quote_paper(book.job(job.id or 0), job.quotes[0], book.trader()) == before
    assert paper_as_issued(book.job(billed.id or 0).documents[0], billed.customer) == invoice
    assert book.picture(before.look.logo) == b"a logo"


def test_a_sent_quote_says_what_it_said_and_a_draft_what_is_so_now(book: Book) -> None:
    job = _sent(book)
    book.save_trader(replace(book.trader(), phone="01632 960199"))
    says = as_sent(book.job(job.id or 0), job.quotes[0], book.trader())
    assert says.seller.phone == builders.trader().phone
    job = book.save_quote(job, replace(job.quotes[0], number=2))
    assert job.quotes[1].sent_as == ""
    assert as_sent(job, job.quotes[1], book.trader()).seller.phone == "01632 960199"


def test_undo_of_the_details_leaves_the_picture_for_papers_that_have_it(book: Book) -> None:
    book.save_trader(book.trader())
    book.save_trader(replace(book.trader(), look=LOOK), LOGO)
    undo(book, ListName.DETAILS)
    assert book.trader().look == Look()
    assert book.picture(LOGO.key) == b"a logo"
    book.save_trader(replace(book.trader(), look=LOOK), LOGO)  # there already


def test_a_picture_that_is_not_there_is_damage_and_none_is_nothing(book: Book) -> None:
    assert book.picture("") == b""
    with pytest.raises(Damaged):
        book.picture("a" * 64)


@pytest.mark.parametrize(
    ("content", "remedy"),
    [
        (None, "It cannot be read: No such file or directory."),
        (b"", "It is neither PNG nor SVG"),
        (b"GIF89a", "It is neither PNG nor SVG"),
        (b"<svg" + b" " * MOST_BYTES, "Save the picture smaller: 300 kB at most."),
        (
            PNG + (4001).to_bytes(4) + (10).to_bytes(4),
            "Save the picture smaller: 4,000 pixels each way at most.",
        ),
    ],
    ids=["missing", "empty", "another kind", "large file", "large picture"],
)
def test_what_is_no_picture_for_papers_is_refused(
    tmp_path: Path, content: bytes | None, remedy: str
) -> None:
    path = tmp_path / "logo"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(Refused) as refused:
        read_picture("logo", str(path))
    assert refused.value.remedy.startswith(remedy)


def test_a_folder_and_half_a_path_are_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="It is not a file"):
        read_picture("logo", str(tmp_path))
    with pytest.raises(Refused, match="Give all of its path"):
        read_picture("logo", "logo.png")


def test_a_picture_is_read_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "my logo.png"
    path.write_bytes(PNG + (300).to_bytes(4) + (100).to_bytes(4))
    assert read_picture("logo", f" {path} ") == Picture("my logo.png", path.read_bytes())
