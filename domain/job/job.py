"""The job: everything recorded of it, as one value."""

from dataclasses import dataclass
from datetime import date, time

from domain.job.account import (
    Allocation,
    CreditElsewhere,
    Document,
    DocumentKind,
    Payment,
    WriteOff,
)
from domain.job.booked_day import BookedDay
from domain.job.chase import Chase
from domain.job.on_site import Extra, Laying, SignOff, Snag, Stripping, Usage
from domain.job.people import Customer, Site
from domain.job.quote import Quote
from domain.job.rung import Rung
from domain.job.stage import Ending, Stage
from domain.job.survey import Survey
from domain.job.to_send import ToSend
from domain.job.vat_terms import VatTerms
from domain.money import Pence


@dataclass(frozen=True, slots=True)
class Enquiry:
    """The first telephone call."""

    received_on: date
    said: str = ""
    """What they say it is."""
    building: str = "shed"
    nominal: str = ""
    """The nominal size as said on the phone, in the order eaves length × span: "8 x 6 ft"
    (read by :func:`domain.estimate.rough_price.read_rough_roof`)."""
    rough: Pence | None = None
    """The rough price given on the phone; None if none was given."""
    visit_on: date | None = None
    visit_at: time | None = None
    on_foundation: bool = True
    """Whether the building stands on a foundation: a shed that does not is outside CIS (FA 2004
    s. 74(2)(a), HMRC CISR14100: read). Asked for a contractor alone."""


@dataclass(frozen=True, slots=True)
class CautionNote:
    """A caution that was passed, and why."""

    check_id: str
    words: str
    on: date


@dataclass(frozen=True, slots=True)
class Note:
    """Something worth keeping of a job, in the trader's words; no customer sees it."""

    words: str
    on: date
    id: int | None = None


@dataclass(frozen=True, slots=True)
class Job:
    """One job as it stands in the book."""

    ref: str
    """What people see: four digits, "0421"."""
    customer: Customer
    site: Site
    enquiry: Enquiry
    stage: Stage = Stage.ENQUIRY
    ended: Ending | None = None
    ended_why: str = ""
    told_on: date | None = None
    """When the customer said that it ends; None while it has not, and in older books."""
    kept: Pence = 0
    """What of the money asked for is kept all the same, VAT included."""
    kept_why: str = ""
    """What that pays for."""
    vat_terms: VatTerms | None = None
    """How VAT stands to a price agreed without it; None unless the trader registered since."""
    vat_agreed_on: date | None = None
    """When it was agreed in writing that VAT is added."""
    survey: Survey | None = None
    quotes: tuple[Quote, ...] = ()
    """By number, the newest last."""
    days: tuple[BookedDay, ...] = ()
    rung: tuple[Rung, ...] = ()
    """Days that the customer wants to stay, in the weather that is forecast."""
    materials_in_hand: bool = False
    stripping: Stripping | None = None
    extras: tuple[Extra, ...] = ()
    laying: Laying | None = None
    usages: tuple[Usage, ...] = ()
    """Empty until what was used is recorded."""
    sign_off: SignOff | None = None
    snags: tuple[Snag, ...] = ()
    documents: tuple[Document, ...] = ()
    payments: tuple[Payment, ...] = ()
    settled_elsewhere: tuple[Document, ...] = ()
    """Invoices of the customer's other jobs that credit of this one was used on."""
    paid_elsewhere: tuple[tuple[int, Allocation], ...] = ()
    """What of payments for other jobs settles invoices of this one: (payment's id, part) each."""
    credit_elsewhere: tuple[CreditElsewhere, ...] = ()
    """What can be used of their credit on other jobs: of none that ended, which is paid back."""
    write_offs: tuple[WriteOff, ...] = ()
    chased: tuple[Chase, ...] = ()
    """How often an invoice was chased, the last one last."""
    notes: tuple[CautionNote, ...] = ()
    to_send: tuple[ToSend, ...] = ()
    """Papers that were made final before they went out."""
    own_notes: tuple[Note, ...] = ()
    """In the order in which they were written."""
    id: int | None = None
    version: int = 0

    @property
    def quote(self) -> Quote | None:
        """The quote that counts: the accepted one, else the newest."""
        taken = [q for q in self.quotes if q.acceptance is not None]
        candidates = taken or self.quotes
        return candidates[-1] if candidates else None

    @property
    def newest_sent(self) -> Quote | None:
        """The quote that can be accepted: the newest that was sent."""
        return next((quote for quote in reversed(self.quotes) if quote.sent_on), None)

    @property
    def invoice(self) -> Document | None:
        """The invoice for the work, if it has been issued and stands (not that for the deposit)."""
        return self._standing(DocumentKind.INVOICE)

    @property
    def deposit_invoice(self) -> Document | None:
        """The invoice for the deposit, if it has been issued and stands."""
        return self._standing(DocumentKind.DEPOSIT)

    @property
    def credit(self) -> Pence:
        """What stands to the customer's credit: paid, and set against nothing."""
        return sum(payment.unallocated for payment in self.payments)

    @property
    def refundable(self) -> Pence:
        """What of their credit can be paid back: the money, and nothing that was deducted of it."""
        return sum(payment.refundable for payment in self.payments)

    @property
    def owed(self) -> Pence:
        """What the customer still owes on the documents of this job."""
        return sum(d.owed for d in self.documents)

    def _standing(self, kind: DocumentKind) -> Document | None:
        """The newest of a kind that no credit note has withdrawn."""
        of_kind = (d for d in reversed(self.documents) if d.kind is kind)
        return next((d for d in of_kind if not d.is_withdrawn), None)
