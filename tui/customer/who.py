"""The top of a customer's page: who and how to reach them, and how the money stands."""

from rich.text import Text
from textual.app import RenderResult
from textual.geometry import Size
from textual.reactive import reactive
from textual.widget import Widget

from domain.customer_record import CustomerRecord
from domain.job import Customer
from domain.money import show_money
from domain.papers.shared_parts import on_one_line
from tui.frame.safe_text import one_line, shortened
from tui.frame.text_layout import set_beside
from tui.frame.theme import PALETTES, Palette

_MONEY = 25  # cells


class Who(Widget):
    """Name, telephone, e-mail and addresses at the left; asked, received and owed at the right."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "Who { height: auto; margin: 0 2; }"

    record: reactive[CustomerRecord | None] = reactive(None, layout=True)

    def render(self) -> RenderResult:
        """As many lines as there is to say, none broken."""
        return Text("\n").join(self._lines(self.size.width))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  as Textual calls it
        """Return how many lines it takes."""
        return len(self._lines(width)) if self.record else 0

    def _lines(self, width: int) -> list[Text]:
        record, p = self.record, PALETTES[self.app.theme]
        if record is None:
            return []
        room = width - _MONEY - 2
        return set_beside(_who(record, room, p), money_lines(record, p), width - _MONEY)


def _who(record: CustomerRecord, room: int, p: Palette) -> list[Text]:
    customer = record.customer

    def said(words: str, style: str) -> Text:
        return Text(end="").append(shortened(words, room), style=style)

    lines = [said(customer.called, f"bold {p.ink}")]
    reach = " · ".join(
        part for part in (one_line(customer.phone), one_line(customer.email)) if part
    )
    lines.append(said(reach or "no telephone yet", p.ink))
    address = on_one_line(customer.address) or "no address of their own yet"
    lines.append(said(address, p.quiet))
    lines.append(said(_kind(customer), p.quiet))
    for site in record.sites:
        if site.address.strip() and on_one_line(site.address) != on_one_line(customer.address):
            roof = f"Roof at {site.place}: {on_one_line(site.address)}"
            lines.append(said(roof, p.quiet))
    return lines


def money_lines(record: CustomerRecord, p: Palette) -> list[Text]:
    """What was asked, received, deducted, is owed and was paid over, a line each."""
    rows = [("Asked", record.asked, p.ink), ("Received", record.received, p.ink)]
    if record.deducted:
        rows.append(("CIS deducted", record.deducted, p.ink))
    rows.append(("Owed", record.owed, f"bold {p.caution if record.owed else p.ink}"))
    if record.refundable:
        rows.append(("Overpaid (credit)", record.refundable, p.slate))
    lines = []
    for label, pence, style in rows:
        line = Text(end="").append(f"{label:<10}", style=p.quiet)
        lines.append(line.append(f"{show_money(pence):>{_MONEY - line.cell_len}}", style=style))
    return lines


def _kind(customer: Customer) -> str:
    asked = customer.kind_asked
    return (
        customer.kind.capitalize()
        if asked
        else "Householder, business or contractor: not asked yet"
    )
