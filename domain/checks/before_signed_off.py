"""What must be so before a job is marked as signed off: the customer's word."""

from functools import partial

from domain.checks.check import Check, Severity, Situation
from domain.job import Stage
from domain.page_names import PageName

_stop = partial(Check, stage=Stage.SIGNED_OFF, severity=Severity.STOP, page=PageName.SIGN_OFF)
_caution = partial(Check, stage=Stage.SIGNED_OFF, severity=Severity.CAUTION, page=PageName.SIGN_OFF)


def _word_given(situation: Situation) -> bool:
    sign_off = situation.job.sign_off
    return sign_off is not None and bool(sign_off.who.strip())


BEFORE_SIGNED_OFF = (
    _stop(
        id="customers-word",
        holds=_word_given,
        words="Customer happy it is finished?",
        remedy="Show them the work, and record who said so and when.",
    ),
    _caution(
        id="snags",
        holds=lambda s: all(snag.done_on is not None for snag in s.job.snags),
        words="Every snag put right?",
        remedy="Put it right and record the day, or say when it will be.",
    ),
    _caution(
        id="invoice-sent",
        holds=lambda s: s.job.invoice is not None,
        words="Invoice issued?",
        remedy="Issue it and send it.",
        page=PageName.MONEY,
    ),
)
"""In the order they are asked."""
