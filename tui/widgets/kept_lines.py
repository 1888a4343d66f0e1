"""Text that a field shows on one line but the record may hold on several: kept unless changed."""

from tui.frame.safe_text import one_line
from tui.widgets.field_values import address_typed, read_address


def kept(typed: str, before: str) -> str:
    """The recorded text if the field still shows it, else what was typed, without outer spaces."""
    return before if typed == one_line(before) else typed.strip()


def kept_address(typed: str, before: str) -> str:
    """As :func:`kept`, for an address: its lines are typed on one line with commas."""
    return before if typed == one_line(address_typed(before)) else read_address(typed)
