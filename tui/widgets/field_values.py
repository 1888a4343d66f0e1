"""Numbers, addresses, days and coverings as they stand in one field of a form."""

import re
from datetime import date
from decimal import Decimal

from domain.days.calendar import show_date
from domain.days.dates import read_date
from domain.errors import Refused
from domain.money import Pence

_NUMBER = re.compile(r"(?P<whole>[0-9]{1,7})?(?:\.(?P<part>[0-9]{1,3}))?")
_VULGAR = {"½": ".5", "¼": ".25", "¾": ".75"}


def read_number(
    field: str,
    text: str,
    example: str,
    *,
    least: Decimal = Decimal(0),
    most: Decimal = Decimal(100_000),
) -> Decimal:
    """Read a number such as ``9.5``, ``9½`` or ``1,200``, or refuse it; ``example`` ends "Give …".

    Raises :class:`Refused` for anything else and for what is under ``least`` or over ``most``.
    """
    plain = text.strip().replace(",", "")
    for sign, decimal in _VULGAR.items():
        plain = plain.replace(sign, decimal)
    match = _NUMBER.fullmatch(plain) if plain.isascii() else None
    if match is None or not (match["whole"] or match["part"]):
        raise Refused(field, text, f"Give {example}.")
    number = Decimal(f"{match['whole'] or 0}.{match['part'] or 0}")
    if not least <= number <= most:
        raise Refused(
            field, text, f"Give {number_typed(least)} to {number_typed(most)}: {example}."
        )
    return number.normalize() + 0


def read_count(field: str, text: str, example: str, *, least: int = 0, most: int = 999) -> int:
    """Read a whole number, or refuse it as :func:`read_number` refuses."""
    number = read_number(field, text, example, least=Decimal(least), most=Decimal(most))
    if number != number.to_integral_value():
        raise Refused(field, text, f"Give a whole number: {example}.")
    return int(number)


def number_typed(number: Decimal | int | None) -> str:
    """A number as it is typed, without needless noughts; nothing for None."""
    return "" if number is None else f"{Decimal(number).normalize():f}"


def read_optional_date(field: str, text: str, today: date) -> date | None:
    """Read a date, or None for an empty field."""
    return read_date(field, text, today) if text.strip() else None


def date_typed(day: date | None) -> str:
    """A date as it is typed; nothing for None."""
    return "" if day is None else show_date(day)


def money_typed(pence: Pence) -> str:
    """A sum as it is typed: ``1240.50``."""
    return f"{'-' if pence < 0 else ''}{abs(pence) // 100}.{abs(pence) % 100:02d}"


def read_text(field: str, text: str, remedy: str) -> str:
    """Text that must be there, without the spaces round it; ``remedy`` says what would do."""
    if not text.strip():
        raise Refused(field, text, remedy)
    return text.strip()


def read_address(text: str) -> str:
    """An address typed on one line with commas as its lines."""
    parts = (part.strip() for part in text.replace("\n", ",").split(","))
    return "\n".join(part for part in parts if part)


def address_typed(address: str) -> str:
    """The lines of an address on one line, with commas."""
    return ", ".join(part for part in address.split("\n") if part)
