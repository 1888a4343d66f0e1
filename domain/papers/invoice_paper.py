"""The invoice as the customer reads it."""

from collections.abc import Iterator

from domain.accounts.invoice import Deduction, Invoice, Seller
from domain.days.calendar import show_date
from domain.estimate.scope import Item
from domain.job import DocumentKind
from domain.money import show_money
from domain.papers.blocks import Block, Column, Details, Paper, Table, Totals, Words
from domain.papers.letters import invoice_letter
from domain.papers.shared_parts import customer_rows, item_words, lines_of, show_percent
from domain.tax import VatTotals

_THANKS = "Thank you for having us. If anything is not right, please tell us and we will see to it."


def invoice_paper(invoice: Invoice) -> Paper:
    """The invoice for the work or for a deposit; of VAT only if the trader is registered."""
    kind = "Deposit invoice" if invoice.kind is DocumentKind.DEPOSIT else "Invoice"
    label = invoice.document().label
    return Paper(
        title=f"{kind} {label}",
        head=seller_lines(invoice.seller),
        look=invoice.seller.look,
        letter=invoice_letter(invoice),
        blocks=(
            Details(customer_rows(invoice.buyer, invoice.place, invoice.roof), "For"),
            Details(tuple(_dates(invoice, label))),
            _lines(invoice),
            *_sums(invoice),
            *_taxed_ahead(invoice),
            *((Words(invoice.vat_words),) if invoice.vat_words else ()),
            Details(
                tuple(_how_to_pay(invoice, label)), "How to pay: by bank transfer", framed=True
            ),
            Words(_THANKS if invoice.kind is DocumentKind.INVOICE else "Thank you."),
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
    if invoice.done_on is not None:
        yield "Work done on", show_date(invoice.done_on)
    if invoice.seller.vat_number:
        yield "Tax point", show_date(invoice.tax_point)
    if invoice.cis is not None:
        yield "Our UTR", invoice.cis.utr
        if invoice.cis.reference:
            yield "Your reference", invoice.cis.reference
    yield "Due by", show_date(invoice.due_on)
    yield "Job", invoice.ref


def _lines(invoice: Invoice) -> Table:
    """A line a thing; the rate and net only where the trader is registered.

    Reg. 14(1) asks for them and for the unit price, which for a job that is not counted out is its
    net (VAT Notice 700 §16.3, from memory).
    """
    if not invoice.seller.vat_number:
        plain = (Column("Description"), Column("Amount", True))
        return Table(plain, tuple((item_words(i), show_money(i.net)) for i in invoice.lines))
    numbers = [Column(t, True) for t in ("VAT", "Before VAT")]
    return Table((Column("Description"), *numbers), tuple(map(_row, invoice.lines)))


def _row(line: Item) -> tuple[str, ...]:
    return item_words(line), show_percent(line.vat_rate), show_money(line.net)


def _sums(invoice: Invoice) -> Iterator[Block]:
    """From the lines to what is to pay; that stands alone where a deposit's VAT is taken off."""
    taken, with_vat = invoice.deduction, bool(invoice.seller.vat_number)
    due = tuple(_due(invoice))
    if taken is None:
        yield Totals((*(by_rate(invoice.totals) if with_vat else ()), *due))
    elif not with_vat:
        whole = ("Total", show_money(invoice.totals.gross))
        less = (_less(taken), show_money(-taken.totals.gross))
        yield Totals((whole, less, *due))
    else:
        yield _vat_of(invoice, taken)
        yield Totals(due)


def _taxed_ahead(invoice: Invoice) -> Iterator[Words]:
    """The tax point of what was paid before: the invoice's own is that of the rest."""
    if invoice.seller.vat_number:
        for each in invoice.taxed_ahead:
            paid, vat = show_money(each.totals.gross), show_money(each.totals.vat_whole)
            yield Words(
                f"Of this, {paid} was paid on {show_date(each.on)}: that is the tax point of the "
                f"{vat} VAT in it."
            )


def _due(invoice: Invoice) -> Iterator[tuple[str, str]]:
    """What is due; less what the customer had paid already, and what a contractor deducts."""
    if invoice.credit or invoice.cis:
        yield "Total", show_money(invoice.due)
    if invoice.credit:
        yield "Less what you have paid already", show_money(-invoice.paid_before)
    if invoice.cis:
        of_labour = (
            f"{show_percent(invoice.cis.rate)} of the labour, {show_money(invoice.cis.base)}"
        )
        yield f"CIS deducted: {of_labour}", show_money(-invoice.cis.deducted)
    yield "To pay" if invoice.cis else "Total due", show_money(invoice.to_pay)


def by_rate(totals: VatTotals) -> Iterator[tuple[str, str]]:
    """The sum before VAT, and the VAT of each rate with what it is on."""
    yield "Total before VAT", show_money(totals.net)
    for each in totals.vat:
        yield f"VAT at {show_percent(each.rate)} on {show_money(each.net)}", show_money(each.vat)


def _vat_of(invoice: Invoice, taken: Deduction) -> Table:
    """The invoice's own net and VAT: the whole, less what the deposit invoice bore already.

    Every row adds up across and every column downwards.
    """
    rows = [
        *((f"Total, {show_percent(s.rate)}", s.net, s.vat) for s in invoice.totals.vat),
        *((f"{_less(taken)}, {show_percent(s.rate)}", -s.net, -s.vat) for s in taken.totals.vat),
    ]
    rows.append(("This invoice", sum(net for _, net, _ in rows), sum(vat for *_, vat in rows)))
    return Table(
        (
            Column("Amount due"),
            Column("Before VAT", True),
            Column("VAT", True),
            Column("Including VAT", True),
        ),
        tuple((words, *map(show_money, (net, vat, net + vat))) for words, net, vat in rows),
    )


def _less(taken: Deduction) -> str:
    return f"Less deposit invoice {taken.label} of {show_date(taken.issued_on)}"


def _how_to_pay(invoice: Invoice, label: str) -> Iterator[tuple[str, str]]:
    """What is typed into a bank's form, in one place and in its order."""
    seller = invoice.seller
    yield "Account name", seller.bank_name
    yield "Sort code", seller.sort_code
    yield "Account number", seller.account
    yield "Reference", label
    yield "Amount", show_money(invoice.to_pay)
    yield "Pay by", show_date(invoice.due_on)
