"""Who the job is for and where it stands."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class CustomerKind(StrEnum):
    """Who is asking: it decides how prices are shown and whether the right to cancel applies."""

    HOUSEHOLDER = "householder"
    BUSINESS = "business"
    CONTRACTOR = "contractor"
    """A builder who takes the trader on as a subcontractor, and may have to deduct CIS."""


@dataclass(frozen=True, slots=True)
class Customer:
    """A person or firm that asks for work."""

    name: str
    kind: CustomerKind = CustomerKind.HOUSEHOLDER
    address: str = ""
    """Where papers are sent: lines separated by a line break; empty while not known."""
    phone: str = ""
    email: str = ""
    id: int | None = None
    """None until it is recorded."""
    version: int = 0
    kind_asked: bool = True
    """Whether they were asked which kind they are. Until then they count as a householder, who may
    cancel; it has to be known before a quote."""
    tax_reference: str = ""
    """A contractor's reference, as their statements of deduction bear it."""
    vat_number: str = ""
    """A contractor's; empty if they are not registered."""
    in_cis: bool = True
    """Whether a contractor is registered for CIS, and so deducts."""
    end_user_on: date | None = None
    """When a contractor told us in writing that they are the end user (HMRC VATREVCON33400, read);
    None while they have not."""

    @property
    def called(self) -> str:
        """The name; while it is not known, the telephone number."""
        return self.name if self.name.strip() else self.phone

    @property
    def is_householder(self) -> bool:
        """Whether prices are read with VAT in them, and there may be a right to cancel."""
        return self.kind is CustomerKind.HOUSEHOLDER

    @property
    def deducts(self) -> bool:
        """Whether what they pay for building work is inside CIS."""
        return self.kind is CustomerKind.CONTRACTOR and self.in_cis


@dataclass(frozen=True, slots=True)
class Site:
    """Where the roof is."""

    place: str
    """A few words the trader knows it by: "Birch Lane"; what the week and the lists show."""
    address: str = ""
    """The whole address; empty means at the customer's address."""
    access: str = ""
    """How to get to it and what to mind: "side gate, dog"."""
    ruled_out: str = ""
    """Days the customer does not want work, as typed: "Mondays, 3 December 2026"
    (read by :func:`domain.days.dates.read_ruled_out`)."""
    id: int | None = None
    version: int = 0

    @property
    def on_a_line(self) -> str:
        """The address in a line; while it is not known, the place."""
        lines = (line.strip() for line in self.address.splitlines())
        return ", ".join(line for line in lines if line) or self.place
