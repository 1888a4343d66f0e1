"""What is on record of one job, from the enquiry to the money, as frozen values.

``people`` who and where · ``survey`` what was measured and seen · ``quote`` what was offered and
accepted · ``work`` the days, what stripping found, laying, what was used, signing off ·
``account`` documents and payments · ``job`` the whole of it as one value.
"""

from domain.job.account import PAYMENT_METHODS, Allocation, Document, DocumentKind, Payment
from domain.job.job import CautionNote, Ending, Enquiry, Job, Stage
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
from domain.job.work import (
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

__all__ = [
    "MOST_OPTIONS",
    "PAYMENT_METHODS",
    "Acceptance",
    "AccessPlan",
    "Allocation",
    "BookedDay",
    "CautionNote",
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
    "SignOff",
    "Site",
    "Snag",
    "Stage",
    "Stripping",
    "Survey",
    "Suspicion",
    "Usage",
]
