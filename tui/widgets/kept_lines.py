"""Text that a field shows on one line but the record may hold on several: kept unless changed."""

from collections.abc import Callable

from domain.contacts import set_postcode
from tui.frame.safe_text import one_line
from tui.widgets.field_values import address_typed, read_address


def kept(typed: str, before: str, read: Callable[[str], str] = str.strip) -> str:
    """The recorded text if the field still shows it, else what is read from what was typed.

    Without ``read`` it is the text without outer spaces; ``read`` may raise :class:`Refused`.
    """
    return before if typed == one_line(before) else read(typed)


def kept_address(field: str, typed: str, before: str) -> str:
    """As :func:`kept`, for an address: its lines are typed on one line with commas.

    Raises :class:`Refused` as :func:`domain.contacts.set_postcode`.
    """
    shown = one_line(address_typed(before))
    return before if typed == shown else set_postcode(field, read_address(typed))
