"""Numbers, addresses, days and sums as they stand in one field of a form."""

from datetime import date
from decimal import Decimal

from domain.days.calendar import show_date
from domain.days.dates import read_date, read_until
from domain.errors import Refused
from domain.money import Pence


def number_typed(number: Decimal | int | None) -> str:
    """A number as it is typed, without needless noughts; nothing for None."""
    return "" if number is None else f"{Decimal(number).normalize():f}"


def read_optional_date(field: str, text: str, today: date, *, done: bool = False) -> date | None:
    """Read a date as :func:`domain.days.dates.read_date`, or None for an empty field."""
    return read_date(field, text, today, done=done) if text.strip() else None


def read_optional_until(field: str, text: str, since: date, today: date) -> date | None:
    """Read a last day as :func:`domain.days.dates.read_until`, or None for an empty field."""
    return read_until(field, text, since, today) if text.strip() else None


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


def read_merchant(field: str, text: str) -> str:
    """The name of a merchant. Raises :class:`Refused` for none, or one without a letter."""
    name = read_text(field, text, "Give the merchant's name.")
    if not any(map(str.isalpha, name)):
        raise Refused(field, name, "Give the merchant's name, with a letter in it.")
    return name


def read_address(text: str) -> str:
    """An address typed on one line with commas as its lines."""
    parts = (part.strip() for part in text.replace("\n", ",").split(","))
    return "\n".join(part for part in parts if part)


def address_typed(address: str) -> str:
    """The lines of an address on one line, with commas."""
    return ", ".join(part for part in address.split("\n") if part)


def answer(value: str) -> bool | None:
    """What was chosen of yes and no; None for neither."""
    return None if not value else value == "yes"


def yes_no(answered: bool | None) -> str:
    """Yes or no as it is chosen; nothing for None."""
    return "" if answered is None else "yes" if answered else "no"
