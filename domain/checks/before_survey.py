"""What must be so before an enquiry is marked as survey: who, where, when."""

from functools import partial

from domain.checks.check import Check, Part, Severity, Situation
from domain.job import Stage
from domain.page_names import PageName

_stop = partial(Check, stage=Stage.SURVEY, severity=Severity.STOP, page=PageName.ENQUIRY)
_caution = partial(Check, stage=Stage.SURVEY, severity=Severity.CAUTION, page=PageName.ENQUIRY)


def _visit_known(situation: Situation) -> bool:
    """Of a roof that is measured nobody asks when the visit is."""
    job = situation.job
    agreed = job.enquiry.visit_on is not None and job.enquiry.visit_at is not None
    return agreed or job.survey is not None


BEFORE_SURVEY = (
    _stop(
        id="who",
        holds=lambda s: bool(s.job.customer.name.strip()),
        words="Who is it for?",
        remedy="Fill in the customer's name.",
    ),
    _stop(
        id="where",
        holds=lambda s: bool(s.job.site.place.strip()),
        words="Where is the roof?",
        remedy="Give the place a short name, and the address if it is not the customer's.",
    ),
    _caution(
        id="visit-time",
        part=Part.ENQUIRY,
        holds=_visit_known,
        words="Visit: day and time agreed?",
        remedy="Agree a day and a time, and fill in both.",
    ),
    _caution(
        id="measured",
        holds=lambda s: s.job.survey is not None,
        words="Been there and measured?",
        remedy="Measure the roof, and save it on the survey page.",
        page=PageName.SURVEY,
    ),
)
"""In the order they are asked."""
