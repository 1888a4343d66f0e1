"""Numbers that are copied off a letter or a card, where one wrong digit costs money."""

import re

from stdnum.exceptions import ValidationError
from stdnum.gb import utr, vat

from domain.errors import Refused

_WRONG = "; at least one of them is wrong"
_LONGEST = 24  # characters; none of these numbers needs more


def read_vat_number(field: str, text: str) -> str:
    """The nine or twelve digits of a British VAT number, its check digits right.

    ``GB`` in front and spaces are taken off. Raises :class:`Refused`.
    """
    try:
        return str(vat.validate(_short(text)))
    except ValidationError as error:
        raise Refused(
            field,
            text,
            f"Give the nine digits as on the certificate{_WRONG * bool(text.strip())}.",
        ) from error


def read_utr(field: str, text: str) -> str:
    """The ten digits of a Unique Taxpayer Reference, its check digit right, or refuse it."""
    try:
        return str(utr.validate(_short(text)))
    except ValidationError as error:
        raise Refused(
            field,
            text,
            f"Give the ten digits as on your HMRC letters{_WRONG * bool(text.strip())}.",
        ) from error


def read_sort_code(field: str, text: str) -> str:
    """A sort code as ``12-34-56``, or refuse what has not six digits."""
    digits = re.sub(r"[ -]", "", text)
    if re.fullmatch(r"[0-9]{6}", digits) is None:
        raise Refused(field, text, "Give six digits, such as 12-34-56.")
    return f"{digits[:2]}-{digits[2:4]}-{digits[4:]}"


def read_account(field: str, text: str) -> str:
    """The digits of an account number, or refuse what has not eight."""
    digits = text.replace(" ", "")
    if re.fullmatch(r"[0-9]{8}", digits) is None:
        raise Refused(field, text, "Give eight digits; add leading zeros if it is shorter.")
    return digits


def _short(text: str) -> str:
    """The text, or nothing if it is too long or has more than plain characters in it."""
    return text if len(text) <= _LONGEST and text.isascii() else ""
