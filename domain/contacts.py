"""Postcodes, telephone numbers and e-mail addresses, set as they are read."""

import re

from domain.errors import Refused
from domain.postcode import OUTWARD, POSTCODE

_NEARLY = re.compile(rf"{OUTWARD} +[0-9][A-Z0-9]{{1,3}}", re.IGNORECASE | re.ASCII)
"""A postcode but for its end: a letter short, too long, or a letter that none ends in."""

_GROUPS = tuple(
    re.compile(pattern)
    for pattern in (
        "(02[03489])([0-9]{4})([0-9]{4})",
        "(011[3-8]|01[2-69]1)([0-9]{3})([0-9]{4})",
        "(016977)([23][0-9]{3})",
        "(013873|015242|01539[456]|01697[347]|01768[347]|019467)([0-9]{5})",
        "(01[2-9][02-9][0-9])([0-9]{5,6})",
        "(07[0-9]{3})([0-9]{6})",
        "(03[0347][0-9]|08[047][0-9]|09[018][0-9])([0-9]{3})([0-9]{4})",
        "(0500|0800)([0-9]{6})",
    )
)
"""Where the digits of a number stand apart: the first that fits. Of 01 and 02 by the areas of
Ofcom's National Telephone Numbering Plan: quoted, for the lengths of the codes; from memory, for
which codes have five digits after the nought. Of the others as they are commonly written."""
_ABROAD = re.compile(r"(?:\+|00)44(?:0|\(0\))?")
_OF_A_NUMBER = re.compile(r"[0-9+() .-]{1,30}")
_EXTENSION = re.compile(
    rf"({_OF_A_NUMBER.pattern}?)\s*(?:extension|extn|ext|x)\.?\s*([0-9]{{1,6}})",
    re.IGNORECASE | re.ASCII,
)
_BEGINS_AS_ONE = re.compile(r"[+(]?(?:[0-9][() .-]*){6,15}(?![0-9])", re.ASCII)
"""Six digits are the fewest of a number without its code, 15 the most of any: ITU-T E.164, from
memory. Behind it may stand an extension, another number or when to ring."""

_WHOLE = re.compile("0[237][0-9]{9}|0[14-689][0-9]{8,9}|0(?:800|845)[0-9]{4}")
"""A British number with its nought: 10 or 11 digits, of 02, 03 and 07 always 11, from memory of
Ofcom's National Telephone Numbering Plan; 8 in a few of 0800 and 0845, quoted from an account of
it."""

_EMAIL = re.compile(r"[^\s@<>,;:()\"]+@(?:[^\s@<>,;:()\".]+\.)+[^\s@<>,;:()\".]+")
_LONGEST_EMAIL = 254  # characters; what carries mail takes no more: from memory, RFC 5321


def set_postcode(field: str, address: str) -> str:
    """An address, the postcode at the end of its last line in capitals with one space.

    An address without one stays as it is. Raises :class:`Refused` for a last line that is a
    postcode but for its end, and as :func:`read_place`.
    """
    read_place(field, address)
    *lines, last = address.split("\n")
    match = POSTCODE.fullmatch(last)
    if match:
        postcode = f"{match['out']} {match['inward']}".upper()
        return "\n".join((*lines, f"{match['before']}{postcode}"))
    if _NEARLY.fullmatch(last):
        remedy = "A postcode ends in a digit and two letters, none of them C, I, K, M, O or V"
        raise Refused(field, last, f"{remedy}: give one such as SY8 1AA.")
    return address


def read_place(field: str, text: str) -> str:
    """Where something is, but for the spaces round it.

    Raises :class:`Refused` for a telephone number: typed a line too high, it would go on paper.
    """
    typed = text.strip()
    if _OF_A_NUMBER.fullmatch(typed) and _BEGINS_AS_ONE.match(typed):
        raise Refused(field, typed, "That is a telephone number: give a place, such as Birch Lane.")
    return typed


def set_telephone(text: str) -> str:
    """A British number spaced after its code: ``01632 960117``, ``020 7946 0123``.

    With +44 or 0044 in front it stays so, as ``+44 7700 900123``; an extension is ``ext. 4``. What
    is no such number, or has words beside it, stays as typed but for the spaces round it.
    """
    typed = text.strip()
    extended = _EXTENSION.fullmatch(typed)
    if extended is not None:
        return f"{set_telephone(extended[1])} ext. {extended[2]}"
    digits = re.sub(r"[ .-]", "", typed) if _OF_A_NUMBER.fullmatch(typed) else ""
    national, abroad = _ABROAD.subn("0", digits, count=1) if _ABROAD.match(digits) else (digits, 0)
    national = re.sub(r"^\((0[0-9]+)\)", r"\1", national)
    match = next((found for each in _GROUPS if (found := each.fullmatch(national))), None)
    if match is None:
        return typed
    spaced = " ".join(match.groups())
    return f"+44 {spaced[1:]}" if abroad else spaced


def read_telephone(field: str, text: str) -> str:
    """A number set as :func:`set_telephone`, or nothing for an empty text.

    Raises :class:`Refused` for what does not begin as a telephone number, a name or a place, and
    for a British one with digits too few or too many.
    """
    begins = _BEGINS_AS_ONE.match(text.strip())
    if text.strip() and begins is None:
        raise Refused(field, text, "Give a number such as 01632 960117, or 01632 960117 ext. 4.")
    if begins is not None and not _may_be_whole(begins[0]):
        raise Refused(field, text, "Give all its 10 or 11 digits, such as 01632 960117.")
    return set_telephone(text)


def _may_be_whole(text: str) -> bool:
    """Whether it begins with all of a British number, or with one of elsewhere or without a code.

    It ends where its digits stand apart: another number may follow.
    """
    digits = telephone_digits(text)
    if digits.startswith("00") or not digits.startswith("0"):
        return True
    ends = (found.end() for found in re.finditer("[0-9]+", text))
    return any(_WHOLE.fullmatch(telephone_digits(text[:end])) for end in ends)


def telephone_digits(text: str) -> str:
    """The digits of a British number with its nought in front, by which two of them compare.

    Those of another country keep their + or 00.
    """
    bare = re.sub(r"[^0-9+]", "", text)
    return re.sub(r"^(?:\+|00)440?", "0", bare)


def international_digits(text: str) -> str:
    """A number as it is dialled from anywhere: ``+447700900123``; empty for what is none.

    Of an extension, or words behind the number, nothing is kept.
    """
    typed = text.strip()
    extended = _EXTENSION.fullmatch(typed)
    begins = _BEGINS_AS_ONE.match(extended[1] if extended else typed)
    digits = telephone_digits(begins[0]) if begins else ""
    if digits.startswith("00"):
        return f"+{digits[2:]}"
    return f"+44{digits[1:]}" if digits.startswith("0") else digits


def postcode_in(address: str) -> str:
    """The postcode at the end of an address, in capitals with one space; empty if it has none."""
    match = POSTCODE.fullmatch(address.strip().split("\n")[-1])
    return f"{match['out']} {match['inward']}".upper() if match else ""


def read_email(field: str, text: str) -> str:
    """An e-mail address, or nothing for an empty text. Raises :class:`Refused` for what is none."""
    typed = text.strip()
    if typed and (len(typed) > _LONGEST_EMAIL or not _EMAIL.fullmatch(typed)):
        raise Refused(field, text, "Give one address, such as ann@example.com.")
    return typed
