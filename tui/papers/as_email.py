"""A paper as a draft of an e-mail: a file that the mail program opens, to be looked at and sent."""

from datetime import date, datetime, time
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime
from hashlib import sha256

from domain.papers.blocks import Letter
from tui.frame.safe_text import lines, one_line


def draft_of(letter: Letter, pdf: bytes, name: str, day: date) -> bytes:
    """The message of RFC 5322 with the PDF attached under ``name``; X-Unsent makes it a draft.

    It bears the day alone, so that a draft made twice on a day is the same to the byte. An address
    that no message can be written to is left for the mail program to ask.
    """
    message = EmailMessage(SMTP.clone(utf8=not f"{letter.sender}{letter.to}".isascii()))
    message["X-Unsent"] = "1"
    message["Date"] = format_datetime(datetime.combine(day, time()))
    _put_address(message, "From", letter.sender)
    _put_address(message, "To", letter.to)
    message["Subject"] = " ".join(one_line(letter.subject).split())
    message.set_content(f"{lines(letter.text).strip()}\n", cte="quoted-printable")
    message.add_attachment(pdf, maintype="application", subtype="pdf", filename=name)
    said = f"{letter}{name}".encode(errors="replace")
    message.set_boundary(f"={sha256(said + pdf).hexdigest()[:40]}=")
    return message.as_bytes()


def _put_address(message: EmailMessage, header: str, address: str) -> None:
    """Write an address if it is read back as it is, and as one alone."""
    if not address or one_line(address) != address:
        return
    message[header] = address
    if [each.addr_spec for each in message[header].addresses] != [address]:
        del message[header]
