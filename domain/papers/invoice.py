"""The invoice as the customer reads it."""

from collections.abc import Iterator

from domain.accounts.invoice import Invoice, InvoiceLine, Seller
from domain.days.calendar import show_date
from domain.job import DocumentKind
from domain.money import show_money
from domain.papers.blocks import Column, Details, Paper, Table, Totals, Words
from domain.papers.parts import lines_of, on_one_line, sentence, show_percent, show_unit_price
from domain.quantity import show_amount


def invoice_paper(invoice: Invoice) -> Paper:
    """The invoice for the work or for a deposit; of VAT only if the trader is registered."""
    kind = "Deposit invoice" if invoice.kind is DocumentKind.DEPOSIT else "Invoice"
    label = invoice.document().label
    return Paper(
        title=f"{kind} {label}",
        head=seller_lines(invoice.seller),
        blocks=(
            Details(
                (
                    ("Name", invoice.buyer.name),
                    ("Address", on_one_line(invoice.buyer.address)),
                    ("Roof at", invoice.place),
                ),
                "For",
            ),
            Details(tuple(_dates(invoice, label))),
            _lines(invoice),
            Totals(tuple(_totals(invoice))),
            Words(_how_to_pay(invoice, label), "How to pay"),
        ),
    )


def seller_lines(seller: Seller) -> tuple[str, ...]:
    """Who it is from, line by line."""
    name = seller.name if seller.name != seller.heading else ""
    number = f"VAT number {seller.vat_number}" if seller.vat_number else ""
    return lines_of(seller.heading, name, seller.address, seller.phone, seller.email, number)


def _dates(invoice: Invoice, label: str) -> Iterator[tuple[str, str]]:
    yield "Number", label
    yield "Date of issue", show_date(invoice.issued_on)
    if invoice.seller.vat_number:
        yield "Tax point", show_date(invoice.tax_point)
    yield "To pay by", show_date(invoice.due_on)
    yield "Reference", invoice.ref


def _lines(invoice: Invoice) -> Table:
    with_vat = bool(invoice.seller.vat_number)
    columns = [Column("What"), Column("Quantity", True), Column("Unit price", True)]
    columns += [Column("VAT", True)] if with_vat else []
    columns.append(Column("Net" if with_vat else "Amount", True))
    return Table(tuple(columns), tuple(_row(line, with_vat) for line in invoice.lines))


def _row(line: InvoiceLine, with_vat: bool) -> tuple[str, ...]:
    rate = (show_percent(line.vat_rate),) if with_vat else ()
    return (
        sentence(line.words),
        show_amount(line.quantity, line.unit),
        show_unit_price(line.net, line.quantity),
        *rate,
        show_money(line.net),
    )


def _totals(invoice: Invoice) -> Iterator[tuple[str, str]]:
    """The whole, its VAT by rate, and the deposit invoice taken off, net and VAT each."""
    with_vat, totals = bool(invoice.seller.vat_number), invoice.totals
    if with_vat:
        yield "Net", show_money(totals.net)
        for each in totals.vat:
            words = f"VAT at {show_percent(each.rate)} on {show_money(each.net)}"
            yield words, show_money(each.vat)
    taken = invoice.deduction
    if taken is not None:
        yield "The whole", show_money(totals.gross)
        less = f"less deposit invoice {taken.label} of {show_date(taken.issued_on)}"
        if with_vat:
            yield f"{less}: net", show_money(-taken.totals.net)
            yield "VAT on it", show_money(-taken.totals.vat_whole)
        yield ("deposit in all" if with_vat else less), show_money(-taken.totals.gross)
    yield "To pay", show_money(invoice.due)


def _how_to_pay(invoice: Invoice, label: str) -> str:
    seller = invoice.seller
    return (
        f"By bank transfer to {seller.bank_name}, sort code {seller.sort_code}, account number "
        f"{seller.account}, with the reference {label}, by {show_date(invoice.due_on)}."
    )
