"""What must be so before a job is marked as stripped: recorded, and the deck not left open."""

from collections.abc import Callable
from functools import partial

from domain.checks.check import Check, Holds, Severity, Situation
from domain.checks.safe_to_strip import UNDERNEATH
from domain.checks.weather import NIGHTS_STRIPPED
from domain.job import Cover, Stage, Stripping
from domain.page_names import PageName

_stop = partial(Check, stage=Stage.STRIPPED, severity=Severity.STOP, page=PageName.STRIP)
_caution = partial(Check, stage=Stage.STRIPPED, severity=Severity.CAUTION, page=PageName.STRIP)


def _recorded(test: Callable[[Stripping], bool]) -> Holds:
    """Make what holds only if the stripping is recorded and ``test`` is true of it."""
    return lambda s: s.job.stripping is not None and test(s.job.stripping)


def _waste_carried(situation: Situation) -> Stripping | None:
    """Return the stripping if old covering was taken away."""
    stripping = situation.job.stripping
    return stripping if stripping is not None and stripping.waste_kg else None


def _registered(situation: Situation) -> bool:
    stripping, trader = _waste_carried(situation), situation.trader
    if stripping is None:
        return True
    in_force = trader.waste_expires is None or trader.waste_expires >= stripping.on
    return bool(trader.waste_carrier.strip()) and in_force


def _transfer_noted(situation: Situation) -> bool:
    stripping = _waste_carried(situation)
    return stripping is None or bool(stripping.transfer_note.strip())


BEFORE_STRIPPED = (
    _stop(
        id="found",
        holds=_recorded(lambda stripping: bool(stripping.found.strip())),
        words="Recorded what you found?",
        remedy="Say what the deck was like; “nothing” is an answer.",
    ),
    *UNDERNEATH,
    _stop(
        id="not-left-open",
        holds=_recorded(lambda stripping: stripping.cover is not Cover.OPEN),
        words="Laid or sheeted the same day?",
        remedy="Sheet the deck now, and say that it is sheeted.",
    ),
    _stop(
        id="waste-mass",
        holds=_recorded(lambda stripping: stripping.waste_kg is not None),
        words="Old covering: how much did it weigh?",
        remedy="Give the weight in kg.",
    ),
    _stop(
        id="waste-to",
        holds=_recorded(lambda stripping: bool(stripping.waste_to.strip())),
        words="Old covering: where did it go?",
        remedy="Say where it was taken.",
    ),
    NIGHTS_STRIPPED,
    _caution(
        id="extra-begun",
        holds=lambda s: not any(extra.begun_before for extra in s.job.extras),
        words="No extra work started before it was agreed?",
        remedy="Agree it with the customer before going on.",
    ),
    _caution(
        id="waste-registration",
        holds=_registered,
        words="Registered as a waste carrier?",
        remedy="Register as a waste carrier, or renew it, and fill in number and expiry.",
        page=PageName.TRADER,
    ),
    _caution(
        id="transfer-note",
        holds=_transfer_noted,
        words="Waste transfer note made out?",
        remedy="Make one out and fill in its number; keep it for two years.",
    ),
)
"""In the order they are asked."""
