"""What must be so before a job is marked as laid: looked over, agreed and recorded."""

from collections.abc import Mapping
from functools import partial
from types import MappingProxyType

from domain.checks.check import Check, Holds, Severity
from domain.checks.weather import WEATHER_ON_THE_DAY
from domain.estimate.usage import is_far_over
from domain.job import Extra, ExtraState, Stage, Usage
from domain.page_names import PageName

_stop = partial(Check, stage=Stage.LAID, severity=Severity.STOP, page=PageName.LAYING)
_caution = partial(Check, stage=Stage.LAID, severity=Severity.CAUTION, page=PageName.LAYING)


LAYING_TICKS: Mapping[str, str] = MappingProxyType(
    {
        "deck": "Deck boards repaired, or none needed",
        "nails": "Nails sticking up dealt with",
        "laps": "Laps and gauge right",
        "fixings": "Nailed right: number and position",
        "edges": "Edges sealed",
        "ridge": "Ridge closed, or the top edge finished",
        "timber": "Barge boards and trims refixed",
        "clear": "Site clear, nails picked up",
    }
)
"""What is looked at on the laying day: the key in the book, the words to tick. Common practice."""


def _ticked(key: str) -> Holds:
    return lambda s: s.job.laying is not None and key in s.job.laying.ticks


def _settled(extra: Extra) -> bool:
    """Tell whether an extra is priced and agreed (who, when, how), or not charged."""
    if extra.state is ExtraState.NOT_CHARGED:
        return True
    known = bool(extra.agreed_by.strip()) and bool(extra.agreed_on and extra.means)
    return extra.state is ExtraState.AGREED and extra.price > 0 and known


def _hours(usage: Usage) -> bool:
    return usage.unit == "hour"


BEFORE_LAID = (
    *(
        _stop(
            id=f"laying-{key}",
            holds=_ticked(key),
            words=f"{words}?",
            remedy="Check it, put it right, and tick it.",
        )
        for key, words in LAYING_TICKS.items()
    ),
    _stop(
        id="extras-settled",
        holds=lambda s: all(_settled(extra) for extra in s.job.extras),
        words="Every extra priced and agreed, or not charged?",
        remedy="Price it and record who agreed, when and how; or mark it as not charged.",
        page=PageName.STRIP,
    ),
    _stop(
        id="materials-used",
        holds=lambda s: any(not _hours(usage) for usage in s.job.usages),
        words="Materials used recorded?",
        remedy="Record what you used (starts at the estimate).",
        page=PageName.MATERIALS,
    ),
    _stop(
        id="hours-used",
        holds=lambda s: any(_hours(usage) for usage in s.job.usages),
        words="Hours recorded?",
        remedy="Record your hours (they start at the estimate).",
        page=PageName.MATERIALS,
    ),
    _caution(
        id="used-over",
        holds=lambda s: not any(is_far_over(usage) for usage in s.job.usages),
        words="Used no more than 20% over the estimate?",
        remedy="Say why, so the next quote is closer.",
        page=PageName.MATERIALS,
    ),
    *WEATHER_ON_THE_DAY,
)
"""In the order they are asked."""
