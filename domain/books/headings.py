"""What an expense is for, by the headings of the quarterly update."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class Heading(StrEnum):
    """A heading in our words; :data:`THEIR_WORDS` has those of the update."""

    GOODS = "materials"
    SUBCONTRACTORS = "helper, self-employed"
    WAGES = "wages"
    TRAVEL = "van and travel"
    PREMISES = "rent, power, insurance"
    REPAIRS = "tools and repairs"
    OFFICE = "phone and office"
    ADVERTISING = "advertising"
    ENTERTAINING = "entertaining"
    INTEREST = "loan interest"
    BANK = "bank charges"
    PROFESSIONAL = "accountant and fees"
    OTHER = "other"
    NOT_FOR_TAX = "not for tax"

    @property
    def counts(self) -> bool:
        """Whether it is an expense of the business."""
        return self is not Heading.NOT_FOR_TAX


THEIR_WORDS: Mapping[Heading, str] = MappingProxyType(
    {
        Heading.GOODS: "cost of goods bought for resale or goods used",
        Heading.SUBCONTRACTORS: "construction industry: payments to subcontractors",
        Heading.WAGES: "wages, salaries and other staff costs",
        Heading.TRAVEL: "car, van and travel",
        Heading.PREMISES: "rent, rates, power and insurance",
        Heading.REPAIRS: "repairs and maintenance of property and equipment",
        Heading.OFFICE: "phone, fax, stationery and other office",
        Heading.ADVERTISING: "advertising",
        Heading.ENTERTAINING: "business entertainment",
        Heading.INTEREST: "interest on bank and other loans",
        Heading.BANK: "bank, credit card and other financial charges",
        Heading.PROFESSIONAL: "accountancy, legal and other professional fees",
        Heading.OTHER: "other business expenses",
        Heading.NOT_FOR_TAX: "not for tax",
    }
)
"""As the update names them. Source: HMRC update notice of 22 February 2024: read."""
EXPENSE_HEADINGS: tuple[Heading, ...] = tuple(each for each in Heading if each.counts)
"""The thirteen of the update, in its order."""
