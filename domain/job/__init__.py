"""What is recorded of one job, from the enquiry to the money, as frozen values.

``people`` who and where · ``survey`` what was measured and seen · ``quote`` what was offered and
accepted · ``on_site`` the days, what stripping found, laying, what was used, signing off ·
``account`` documents and payments · ``moves`` what is asked of the book ·
``job`` all of it as one value.
"""

from domain.job.account import PAYMENT_METHODS, Allocation, Document, DocumentKind, Payment
from domain.job.job import CautionNote, Ending, Enquiry, Job, Stage
from domain.job.moves import (
    Booking,
    Closing,
    EnquiryRecord,
    Received,
    Reopening,
    Sending,
    StageBack,
    StageMove,
)
from domain.job.on_site import (
    BookedDay,
    Cover,
    Extra,
    ExtraState,
    Laying,
    SignOff,
    Snag,
    Stripping,
    Usage,
)
from domain.job.people import Customer, CustomerKind, Site
from domain.job.quote import (
    MOST_OPTIONS,
    Acceptance,
    Line,
    LineKind,
    MadeAt,
    Means,
    Option,
    Quote,
)
from domain.job.survey import (
    AccessPlan,
    CoveringChoice,
    Deck,
    DeckKind,
    DeckState,
    Edges,
    OldCovering,
    OldKind,
    Survey,
    Suspicion,
)

__all__ = [
    "MOST_OPTIONS",
    "PAYMENT_METHODS",
    "Acceptance",
    "AccessPlan",
    "Allocation",
    "BookedDay",
    "Booking",
    "CautionNote",
    "Closing",
    "Cover",
    "CoveringChoice",
    "Customer",
    "CustomerKind",
    "Deck",
    "DeckKind",
    "DeckState",
    "Document",
    "DocumentKind",
    "Edges",
    "Ending",
    "Enquiry",
    "EnquiryRecord",
    "Extra",
    "ExtraState",
    "Job",
    "Laying",
    "Line",
    "LineKind",
    "MadeAt",
    "Means",
    "OldCovering",
    "OldKind",
    "Option",
    "Payment",
    "Quote",
    "Received",
    "Reopening",
    "Sending",
    "SignOff",
    "Site",
    "Snag",
    "Stage",
    "StageBack",
    "StageMove",
    "Stripping",
    "Survey",
    "Suspicion",
    "Usage",
]
