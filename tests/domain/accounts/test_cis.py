"""CIS, held against the worked figures of its rules."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.accounts.cis import deduction
from domain.accounts.credit_note import Credited, credit_note, effect_of_credit
from domain.accounts.invoice import deposit_invoice_for, invoice_for
from domain.accounts.receipt import allocations_for, owed_after
from domain.books.headings import Heading
from domain.books.margin import Paid, left_as_paid
from domain.books.purchase import Cost, Purchase
from domain.coverings.materials import Material
from domain.customer_record import CustomerRecord
from domain.errors import NotNow, Refused
from domain.job import Allocation, CustomerKind, Job, Stage
from domain.money import show_money
from domain.papers.blocks import Details
from domain.papers.credit_note_paper import credit_note_paper
from domain.papers.invoice_paper import invoice_paper
from domain.tax import totals_of
from domain.trader import CisStanding, Trader
from tests import builders
from tests.priced import accepted, laid_job, quote, registered

DAY = builders.SIGNED
UTR = "1955839661"  # valid by python-stdnum, computed
NET, MATERIALS = 884_20, (212_35, 42_47)
CONTRACTOR = builders.customer(kind=CustomerKind.CONTRACTOR, tax_reference="123/AB45678")


def _standing(standing: CisStanding, *, vat: bool) -> Trader:
    return (registered if vat else builders.trader)(utr=UTR, cis_standing=standing)


@pytest.mark.parametrize(
    ("vat", "standing", "base", "deducted", "paid"),
    [
        # From the rules of CISR15060, CISR15100 and GOV.UK's rates (read): derived, computed.
        (False, CisStanding.REGISTERED, 629_38, 125_88, 758_32),
        (True, CisStanding.REGISTERED, 671_85, 134_37, 926_67),
        (True, CisStanding.NOT_MATCHED, 671_85, 201_56, 859_48),
        (True, CisStanding.GROSS, 671_85, 0, 1061_04),
    ],
)
def test_what_is_deducted_and_what_is_paid(
    vat: bool, standing: CisStanding, base: int, deducted: int, paid: int
) -> None:
    trader = _standing(standing, vat=vat)
    made = deduction(NET, MATERIALS, "", trader, date(2026, 7, 1))
    gross = totals_of([(Decimal(20 if vat else 0), NET)]).gross
    assert (made.base, made.deducted, gross - made.deducted) == (base, deducted, paid)


def test_labour_500_and_materials_300() -> None:
    # Derived from the rule; VAT of £160.00 stands apart from what is deducted.
    for standing, deducted in ((CisStanding.REGISTERED, 100_00), (CisStanding.NOT_MATCHED, 150_00)):
        made = deduction(800_00, (300_00, 60_00), "", _standing(standing, vat=True), DAY)
        assert (made.deducted, 960_00 - made.deducted) == (deducted, 960_00 - deducted)


def test_materials_that_cost_more_than_the_invoice_are_refused() -> None:
    with pytest.raises(NotNow, match=r"£212\.35, more than the £200\.00"):
        deduction(200_00, MATERIALS, "", _standing(CisStanding.GROSS, vat=True), DAY)


def _laid(trader: Trader, **who: object) -> Job:
    job = laid_job(quote(trader), usages=builders.usages())
    return replace(job, customer=replace(CONTRACTOR, **who))  # type: ignore[arg-type]


def test_a_contractors_invoice_shows_labour_materials_deduction_and_what_to_pay() -> None:
    trader = _standing(CisStanding.REGISTERED, vat=False)
    invoice = invoice_for(_laid(trader), trader, 42, DAY)
    assert invoice.cis is not None
    assert invoice.cis.base + invoice.cis.materials == invoice.totals.net
    assert sum(line.net for line in invoice.lines) == invoice.totals.net
    assert invoice.to_pay == invoice.due - invoice.cis.deducted
    assert invoice.document().owed == invoice.to_pay
    text = repr(invoice_paper(invoice))
    cost = show_money(invoice.cis.materials)
    for words in ("Materials at cost: square", cost, "CIS deducted: 20 % of", "To pay", UTR):
        assert words in text
    assert "123/AB45678" in text


def test_outside_cis_nothing_is_deducted() -> None:
    trader = _standing(CisStanding.REGISTERED, vat=False)
    inside = _laid(trader)
    on_bearers = replace(inside, enquiry=replace(inside.enquiry, on_foundation=False))
    for job in (
        on_bearers,
        _laid(trader, in_cis=False),
        _laid(trader, kind=CustomerKind.BUSINESS),
        _laid(trader, kind=CustomerKind.HOUSEHOLDER),
    ):
        assert invoice_for(job, trader, 42, DAY).cis is None


def test_the_reverse_charge_is_refused_unless_they_are_the_end_user_in_writing() -> None:
    # HMRC VATREVCON37100 and VATREVCON33400: read.
    trader = _standing(CisStanding.REGISTERED, vat=True)
    with pytest.raises(NotNow, match="needs the reverse charge: make it elsewhere"):
        invoice_for(_laid(trader, vat_number="980780684"), trader, 42, DAY)
    told = _laid(trader, vat_number="980780684", end_user_on=builders.RECEIVED)
    assert invoice_for(told, trader, 42, DAY).cis
    unregistered = _standing(CisStanding.REGISTERED, vat=False)
    assert invoice_for(_laid(unregistered, vat_number="980780684"), unregistered, 42, DAY).cis


def test_what_must_be_known_before_is_said() -> None:
    trader = _standing(CisStanding.REGISTERED, vat=False)
    with pytest.raises(NotNow, match="record what was used first"):
        invoice_for(replace(_laid(trader), usages=()), trader, 42, DAY)
    with pytest.raises(NotNow, match="UTR"):
        invoice_for(_laid(trader), replace(trader, utr=""), 42, DAY)
    asked = replace(
        builders.job_at(Stage.BOOKED), quotes=(accepted(quote(trader, deposit=100_00)),)
    )
    with pytest.raises(NotNow, match="no deposit"):
        deposit_invoice_for(replace(asked, customer=CONTRACTOR), trader, 42, DAY)


def test_a_part_payment_brings_its_part_of_the_deduction() -> None:
    trader = _standing(CisStanding.REGISTERED, vat=False)
    job = _laid(trader)
    document = replace(invoice_for(job, trader, 42, DAY).document(), id=5)
    job = replace(job, documents=(document,))
    whole = Allocation(5, document.gross, document.cis)
    assert owed_after(job.documents, (whole,)) == 0
    half, deducted = document.gross // 2, document.cis // 2
    left = owed_after(job.documents, (Allocation(5, half, deducted),))
    assert left == document.owed - (half - deducted)
    # A contractor who deducts more than was worked out has paid all the same.
    assert allocations_for(job, 5, document.gross, document.cis + 10_00) == (whole,)


def test_a_part_credit_works_the_deduction_out_again_and_the_note_says_so() -> None:
    """£60.00 of labour off at 20 %: £12.00 less is deducted (from the rule: derived)."""
    trader = _standing(CisStanding.REGISTERED, vat=False)
    job = _laid(trader)
    document = replace(invoice_for(job, trader, 42, DAY).document(), id=5)
    job = replace(job, documents=(document,))
    note = credit_note(job, Credited(5, 60_00, "agreed"), trader, 1, DAY)
    assert note.cis == 12_00
    told = [block.rows for block in credit_note_paper(note).blocks if isinstance(block, Details)]
    assert ("CIS deduction less by", "£12.00") in told[-1]


def test_a_credit_of_materials_at_cost_leaves_the_deduction_as_it_was() -> None:
    """Base is what is left after materials (CISR15060: read), so both fall by the same."""
    trader = _standing(CisStanding.REGISTERED, vat=False)
    job = _laid(trader)
    document = replace(invoice_for(job, trader, 42, DAY).document(), id=5)
    job = replace(job, documents=(document,))
    note = credit_note(job, Credited(5, 20_00, "agreed", materials=True), trader, 1, DAY)
    assert (note.cis, note.materials) == (0, 20_00)
    told = [block.rows for block in credit_note_paper(note).blocks if isinstance(block, Details)]
    assert ("Taken off", "materials at cost") in told[-1]
    assert effect_of_credit(job, note).owed == document.owed - 20_00
    # What is left of them is less by so much, and so is the next credit's base.
    noted = replace(note.document(), id=6)
    credited = replace(document, credited=20_00)
    again = replace(job, documents=(credited, noted))
    labour = credit_note(again, Credited(5, 60_00, "agreed"), trader, 2, DAY)
    assert labour.cis == 12_00
    cis = invoice_for(_laid(trader), trader, 42, DAY).cis
    assert cis is not None
    too_much = Credited(5, cis.materials - 20_00 + 1, "agreed", materials=True)
    with pytest.raises(Refused, match="or choose labour"):
        credit_note(again, too_much, trader, 2, DAY)


@pytest.mark.parametrize(
    ("paid", "deducted", "figures"),
    [
        # £884.20 with £125.88 to deduct, £758.32 to pay (published checks).
        (0, 0, (0, 125_88, 758_32)),
        (500_00, 0, (500_00, 125_88, 258_32)),
        (884_20, 125_88, (758_32, 125_88, 0)),
        (884_20, 0, (884_20, 0, 0)),  # paid in full: nothing was deducted
    ],
)
def test_what_came_is_deducted_and_is_owed_is_what_was_asked(
    paid: int, deducted: int, figures: tuple[int, int, int]
) -> None:
    trader = _standing(CisStanding.REGISTERED, vat=False)
    made = invoice_for(_laid(trader), trader, 42, DAY).document()
    bill = replace(made, gross=884_20, cis=125_88, paid=paid, deducted=deducted, id=1)
    assert (bill.came, bill.deduction, bill.owed) == figures
    assert sum(figures) == bill.gross
    part = Allocation(1, paid, deducted)
    payment = builders.payment(pence=paid, cis=deducted, allocations=(part,) if paid else ())
    job = replace(_laid(trader), documents=(bill,), payments=(payment,) if paid else ())
    record = CustomerRecord(job.customer, (job,))
    assert (record.received, record.deducted, record.owed) == figures


def _bought(pence: int, **more: object) -> Purchase:
    made = Purchase(date(2026, 6, 20), "Northfield", "bought", pence, job_id=1)
    return replace(made, **more)  # type: ignore[arg-type]


def test_materials_count_at_what_their_slips_say_as_the_margin_has_them() -> None:
    """Actual cost (CISR15060: read). Two packs of shingles at £100.00, quoted at less."""
    trader = _standing(CisStanding.REGISTERED, vat=False)
    job = replace(_laid(trader), id=1)
    packs = _bought(200_00, material=Material("square-butt"), packs=Decimal(2))
    paid = Paid((packs, replace(packs, pence=300_00, job_id=2)))
    left = left_as_paid(job, paid)
    cis = invoice_for(job, trader, 42, DAY, paid).cis
    quoted = invoice_for(job, trader, 42, DAY).cis
    assert left is not None
    assert cis is not None
    assert quoted is not None
    assert cis.materials == left.materials > quoted.materials
    assert cis.deducted < quoted.deducted


@pytest.mark.parametrize(
    ("more", "counts"),
    [
        ({}, True),  # the hired generator and its fuel: HMRC CISR15090, read
        ({"heading": Heading.REPAIRS}, False),  # a tool that is kept
        ({"heading": Heading.TRAVEL, "cost": Cost.RUNNING}, False),
        ({"heading": Heading.SUBCONTRACTORS, "cost": Cost.HELPER}, False),
        ({"heading": Heading.NOT_FOR_TAX}, False),
        ({"job_id": 2}, False),
        ({"job_id": None}, False),
    ],
)
def test_consumables_and_hired_plant_bought_for_the_job_count_and_nothing_else(
    more: dict[str, object], counts: bool
) -> None:
    hire = _bought(120_00, what="hired generator and fuel for it", **more)
    for vat, cost in ((False, 120_00), (True, 100_00)):
        trader = _standing(CisStanding.REGISTERED, vat=vat)
        job = replace(_laid(trader), id=1)
        slip = replace(hire, vat_rate=Decimal(20) if vat else None)
        with_it = invoice_for(job, trader, 42, DAY, Paid((slip,))).cis
        without = invoice_for(job, trader, 42, DAY).cis
        assert with_it is not None
        assert without is not None
        assert with_it.materials - without.materials == (cost if counts else 0)


def test_the_trader_may_say_what_they_cost_and_never_more_than_the_invoice() -> None:
    trader = _standing(CisStanding.REGISTERED, vat=False)
    job = _laid(trader)
    cis = invoice_for(job, trader, 42, DAY, cost=100_00).cis
    assert cis is not None
    assert (cis.materials, cis.base) == (100_00, invoice_for(job, trader, 1, DAY).due - 100_00)
    assert cis.materials_vat == 16_67  # of materials at 20 %: the fraction, as for those reckoned
    with pytest.raises(NotNow, match=r"cost £9,000\.00, more than the"):
        invoice_for(job, trader, 42, DAY, cost=9_000_00)
