"""What several papers share. Everything is text when it leaves here."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from domain.accounts.invoice import Buyer
from domain.cutting.offcuts import Offcut
from domain.estimate.scope import Item, is_measured
from domain.exact import half_up
from domain.money import Pence, show_money
from domain.quantity import show_amount, to_decimal


def sentence(text: str) -> str:
    """The text with its first letter a capital."""
    return text[:1].upper() + text[1:]


def lines_of(*texts: str) -> tuple[str, ...]:
    """The lines of texts such as addresses, empty ones left out."""
    lines = (line.strip() for text in texts for line in text.splitlines())
    return tuple(line for line in lines if line)


def numbered(numbers: Sequence[int]) -> str:
    """Numbers that rise, said short: ``2``, ``1 and 2``, ``1–8``, ``1, 3 and 5``."""
    first, last = numbers[0], numbers[-1]
    if len(numbers) > 2 and last - first == len(numbers) - 1:
        return f"{first}–{last}"
    *most, end = map(str, numbers)
    return f"{', '.join(most)} and {end}" if most else end


def on_one_line(text: str) -> str:
    """An address in a row of details."""
    return ", ".join(lines_of(text))


def customer_rows(buyer: Buyer, place: str, roof: str = "") -> tuple[tuple[str, str], ...]:
    """Who a paper is for and which roof; where it is only if that is elsewhere.

    Nothing stands there that is not known.
    """
    lives_at = on_one_line(buyer.address)
    rows = (
        ("Name", buyer.name),
        ("Address", lives_at),
        ("Roof", roof),
        ("Roof at", "" if place == lives_at else place),
    )
    return tuple(row for row in rows if row[1])


def item_words(item: Item) -> str:
    """What is charged for; of what is measured also how much there is, at how much each.

    A quantity of one job, and its price once more, would say nothing.
    """
    words = sentence(item.words)
    if not item.quantity or not is_measured([item]):
        return words
    amount = show_amount(item.quantity, item.unit)
    return f"{words}, {amount} at {show_unit_price(item.net, item.quantity)} per metre"


def show_percent(rate: Decimal) -> str:
    """A rate as people read it: ``20 %``, ``17.5 %``."""
    return f"{rate.normalize():f} %"


def show_unit_price(net: Pence, quantity: Decimal) -> str:
    """The price of one: to the penny if that is exact, otherwise to a hundredth of a penny.

    Nothing for a quantity of nothing.
    """
    if not quantity:
        return ""
    pence, hundredths = divmod(half_up(Fraction(100 * net) / Fraction(quantity)), 100)
    return show_money(pence) + (f"{hundredths:02d}" if hundredths else "")


def metres(mm: Fraction) -> str:
    """A length in metres, to the centimetre."""
    return show_amount(to_decimal(mm / 1000), "m")


def left_over(offcuts: Sequence[Offcut]) -> str:
    """The parts of cut strips that another roof can use, as a sentence; empty for none."""
    if not offcuts:
        return ""
    parts = ", ".join(
        f"{offcut.count} of {show_amount(Decimal(offcut.tabs), 'tab')}" for offcut in offcuts
    )
    return f"Left over from cut strips: {parts}."
