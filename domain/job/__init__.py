"""What is recorded of one job, from the enquiry to the money, as frozen values.

``people`` who and where · ``survey`` what was measured and seen · ``on_the_roof`` what lies there ·
``quote`` what was offered and accepted · ``booked_day`` · ``rung`` days that stay in any weather ·
``on_site`` what stripping found, laying, what was used, signing off · ``account`` documents and
payments · ``chase`` who was asked to pay · ``to_send`` when papers went out · ``vat_terms`` how VAT
stands to a price agreed before it · ``stage`` how far it has come · ``moves`` what is asked of the
book · ``job`` all of it as one value.

Each is loaded when something of it is first asked for: the week stands with three of them, and
making the classes of the others took a sixth of the time until it did.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from domain.job.account import (
        CHEQUE,
        PAYMENT_METHODS,
        Allocation,
        CounterEntry,
        CreditElsewhere,
        Document,
        DocumentKind,
        Payment,
        WriteOff,
    )
    from domain.job.booked_day import LAY, TASKS, BookedDay
    from domain.job.chase import Chase
    from domain.job.job import CautionNote, Enquiry, Job, Note
    from domain.job.moves import (
        Booking,
        Closing,
        DayAnswer,
        DaysMoved,
        EnquiryRecord,
        Received,
        Reopening,
        Sending,
        StageBack,
        StageMove,
    )
    from domain.job.on_site import (
        Extra,
        ExtraState,
        Laying,
        SignOff,
        Snag,
        Stripping,
        Usage,
    )
    from domain.job.on_the_roof import Cover, OldCovering, OldKind, Sample, Suspicion
    from domain.job.people import Customer, CustomerKind, Site
    from domain.job.quote import (
        MOST_OPTIONS,
        WRITTEN,
        Acceptance,
        Line,
        LineKind,
        MadeAt,
        Means,
        Option,
        Quote,
    )
    from domain.job.rung import Rung
    from domain.job.stage import Ending, Stage, WentAhead
    from domain.job.survey import (
        AROUND_WORDS,
        NONE_THERE,
        AccessPlan,
        Around,
        CoveringChoice,
        Deck,
        DeckKind,
        DeckState,
        Edges,
        Survey,
    )
    from domain.job.to_send import Outgoing, ToSend
    from domain.job.vat_terms import VatTerms

__all__ = [
    "AROUND_WORDS",
    "CHEQUE",
    "LAY",
    "MOST_OPTIONS",
    "NONE_THERE",
    "PAYMENT_METHODS",
    "TASKS",
    "WRITTEN",
    "Acceptance",
    "AccessPlan",
    "Allocation",
    "Around",
    "BookedDay",
    "Booking",
    "CautionNote",
    "Chase",
    "Closing",
    "CounterEntry",
    "Cover",
    "CoveringChoice",
    "CreditElsewhere",
    "Customer",
    "CustomerKind",
    "DayAnswer",
    "DaysMoved",
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
    "Note",
    "OldCovering",
    "OldKind",
    "Option",
    "Outgoing",
    "Payment",
    "Quote",
    "Received",
    "Reopening",
    "Rung",
    "Sample",
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
    "ToSend",
    "Usage",
    "VatTerms",
    "WentAhead",
    "WriteOff",
]

_MODULES = (
    "stage",
    "on_the_roof",
    "booked_day",
    "rung",
    "chase",
    "people",
    "account",
    "quote",
    "on_site",
    "survey",
    "to_send",
    "vat_terms",
    "job",
    "moves",
)
"""What needs least comes first."""


def __getattr__(name: str) -> object:
    """Find a name in the first module that has it, and keep it here."""
    if name in __all__:
        for part in _MODULES:
            found = vars(import_module(f"{__name__}.{part}"))
            if name in found:
                return globals().setdefault(name, found[name])
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
