"""The pages of a job, each loaded when it is first looked at."""

from importlib import import_module

from domain.page_names import PageName
from tui.job.page import JobPage

_PAGES = {
    PageName.ENQUIRY: ("enquiry.enquiry_page", "EnquiryPage"),
    PageName.SURVEY: ("survey.survey_page", "SurveyPage"),
    PageName.QUOTE: ("quote.quote_page", "QuotePage"),
    PageName.BOOKING: ("booking.booking_page", "BookingPage"),
    PageName.STRIP: ("stripping.stripping_page", "StrippingPage"),
    PageName.LAYING: ("laying.laying_page", "LayingPage"),
    PageName.MATERIALS: ("materials.materials_page", "MaterialsPage"),
    PageName.SIGN_OFF: ("signing_off.signing_off_page", "SigningOffPage"),
    PageName.MONEY: ("money.money_page", "MoneyPage"),
}
"""Module and class of each page."""


def make_page(name: PageName) -> JobPage:
    """Return a page, not yet mounted. Raises ``KeyError`` for one that is of no job."""
    module, kind = _PAGES[name]
    page: JobPage = getattr(import_module(f"tui.job.{module}"), kind)()
    return page
