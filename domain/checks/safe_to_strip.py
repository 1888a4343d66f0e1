"""What is asked before an old covering is touched: asbestos, wildlife, cables, waste, insurance.

How each rule is known stands beside it; what is read was read in an excerpt of its source.
"""

from datetime import date

from domain.checks.check import Check, Part, Severity, Situation
from domain.job import Around, OldCovering, OldKind, Sample, Stage, Stripping, Suspicion
from domain.page_names import PageName

FRAGILE = "Cement sheet is always fragile and cannot bear weight: stand on nothing but boards."
"""HSE Asbestos Essentials a14 (read): a sheet that bears weight today may not tomorrow."""

_LEAVE_IT = (
    "Leave it alone: no cutting, breaking or stripping. Have a sample tested by an accredited "
    "laboratory, or have it removed by a licensed or trained person; record which."
)
"""Control of Asbestos Regulations 2012, HSE Asbestos Essentials a14 (read): a trained person may
remove cement sheets in small work, with a plan."""

_CLEAR_BUT = "Tested clear, but leave it alone until you record"
_GONE = "Have it removed; record by whom, when, and the number of the consignment note."
"""Waste with asbestos goes double-wrapped, as hazardous, with a consignment note (memory)."""


def _settled(situation: Situation) -> bool:
    """Tell whether nothing points to asbestos, or it was cleared; not while it was not asked."""
    survey = situation.job.survey
    return survey is not None and not asbestos_stop(survey.old)


def asbestos_stop(old: OldCovering) -> str:
    """What stops all work on an old covering, in sentences; empty once asbestos is ruled out."""
    if old.kind is OldKind.NONE or (old.suspicion is not None and not old.may_hold_asbestos):
        return ""
    return f"{_doubt(old)} {_settled_by(old)}"


def _doubt(old: OldCovering) -> str:
    if old.sample is Sample.FOUND:
        return "Asbestos was found."
    return f"Asbestos {'is suspected' if old.may_hold_asbestos else 'is not ruled out yet'}."


def _settled_by(old: OldCovering) -> str:
    """What settles it, as far as it is recorded: of what is begun only what is missing."""
    age = ("how old the covering is", old.suspicion)
    laboratory = ("the laboratory", old.cleared_by.strip())
    if old.sample is Sample.CLEAR:
        on = ("the day of the test", old.tested_on)
        sample = ("the sample’s number", old.sample_number.strip())
        return f"{_CLEAR_BUT} {_lacks(laboratory, sample, on, age)}."
    if old.sample is Sample.FOUND:
        by, on = ("who removed it", old.removed_by.strip()), ("the day", old.removed_on)
        note = ("the number of the consignment note", old.consignment_note.strip())
        begun = any(given for _, given in (by, on, note))
        return f"Still to record: {_lacks(by, on, note, age)}." if begun else _GONE
    if old.suspicion is Suspicion.CLEARED:
        return f"{_CLEAR_BUT} {_lacks(laboratory)}."
    return _LEAVE_IT


def _lacks(*facts: tuple[str, object]) -> str:
    """Name the facts that are not recorded."""
    *others, last = (name for name, given in facts if not given)
    return f"{', '.join(others)} and {last}" if others else last


def _asbestos_remedy(situation: Situation) -> str:
    survey = situation.job.survey
    return _LEAVE_IT if survey is None else _settled_by(survey.old)


AGE = Check(
    id="old-age",
    stage=Stage.QUOTED,
    severity=Severity.STOP,
    holds=lambda s: (
        s.job.survey is not None
        and (s.job.survey.old.kind is OldKind.NONE or s.job.survey.old.suspicion is not None)
    ),
    words="Old covering: put on before 2000?",
    remedy="Ask when it was built and last re-covered, and record the answer.",
    page=PageName.SURVEY,
    part=Part.ASBESTOS,
)
RULED_OUT = Check(
    id="asbestos",
    stage=Stage.QUOTED,
    severity=Severity.STOP,
    holds=_settled,
    words="Asbestos ruled out, tested clear, or removed?",
    remedy=_LEAVE_IT,
    remedy_now=_asbestos_remedy,
    page=PageName.SURVEY,
    part=Part.ASBESTOS,
)
KEPT_OFF = Check(
    id="fragile",
    stage=Stage.QUOTED,
    severity=Severity.CAUTION,
    holds=lambda s: (
        s.job.survey is None or s.job.stripping is not None or not s.job.survey.old.is_fragile
    ),
    words="Cement sheet: how will you keep off it?",
    remedy=FRAGILE,
    page=PageName.SURVEY,
)


def _looked(name: str, words: str, remedy: str) -> Check:
    """Make the caution about one thing that is looked for before stripping."""

    def holds(situation: Situation) -> bool:
        job = situation.job
        return (
            job.survey is None or job.stripping is not None or not job.survey.around.is_open(name)
        )

    return Check(
        id=f"looked-{name}",
        stage=Stage.QUOTED,
        severity=Severity.CAUTION,
        holds=holds,
        words=words,
        remedy=remedy,
        page=PageName.SURVEY,
        part=Part.AROUND,
    )


LOOKED = (
    # Wildlife and Countryside Act 1981, Habitats Regulations 2017 (memory)
    _looked("wildlife", "Bats and nests looked for?", "Look under edges and inside; or “none”."),
    _looked(  # common practice
        "cables", "Cables to or over the building?", "Note where they run and who makes them safe."
    ),
    _looked(  # common practice
        "shared", "A shared wall or roof?", "Note it, and that the neighbour was asked; or “none”."
    ),
    _looked(  # HSE INDG455 (memory): firm, level ground
        "footing", "Bad footing for a ladder?", "Note what the ladder stands on; or “none”."
    ),
)


def _last_day(situation: Situation) -> date:
    """Return the last day that is booked, today if none is."""
    return max((booked.day for booked in situation.job.days), default=situation.today)


def _in_force(expires: date | None, on: date) -> bool:
    return expires is None or expires >= on


def _waste_taken(situation: Situation) -> bool:
    """Tell whether somebody may carry the old covering: the trader, or who is named for it."""
    job, trader = situation.job, situation.trader
    old = job.survey.old if job.survey else OldCovering()
    if job.stripping is not None or old.kind is OldKind.NONE or old.taken_by.strip():
        return True
    in_force = _in_force(trader.waste_expires, situation.today)
    return bool(trader.waste_carrier.strip()) and in_force


def _insured(situation: Situation) -> bool:
    """Tell whether the public liability policy, if its last day is known, covers the work."""
    done = situation.job.laying is not None
    return done or _in_force(situation.trader.liability_expires, _last_day(situation))


def _helper_insured(situation: Situation) -> bool:
    job, trader = situation.job, situation.trader
    if job.laying is not None or job.survey is None or not job.survey.access.two_people:
        return True
    covered = _in_force(trader.employers_expires, _last_day(situation))
    return bool(trader.employers_policy.strip()) and covered


def _wildlife_there(situation: Situation) -> str:
    """What is there of bats and nests, while the old covering is still on."""
    job = situation.job
    around = job.survey.around if job.survey and job.stripping is None else Around()
    return around.found("wildlife")


WASTE_BY = Check(  # Control of Pollution (Amendment) Act 1989 (memory)
    id="waste-carrier",
    stage=Stage.BOOKED,
    severity=Severity.STOP,
    holds=_waste_taken,
    words="Old covering: who may carry it away?",
    remedy=(
        "Carrying it unregistered is an offence: fill in your registration as a waste carrier and "
        "its expiry in your details, or name in the survey who takes it."
    ),
    page=PageName.TRADER,
)
INSURED = (
    Check(  # common practice
        id="liability",
        stage=Stage.BOOKED,
        severity=Severity.CAUTION,
        holds=_insured,
        words="Public liability still in force on the day?",
        remedy="Renew it and fill in the new expiry.",
        page=PageName.TRADER,
    ),
    Check(  # Employers' Liability (Compulsory Insurance) Act 1969 (memory)
        id="employers-liability",
        stage=Stage.BOOKED,
        severity=Severity.CAUTION,
        holds=_helper_insured,
        words="A helper: employer's liability in force on the day?",
        remedy="The law asks for it with a helper: take it out, and fill in policy and expiry.",
        page=PageName.TRADER,
    ),
)
WILDLIFE_ASKED = Check(  # as for looking (memory): stop and ask if any are found
    id="wildlife-asked",
    stage=Stage.BOOKED,
    severity=Severity.CAUTION,
    holds=lambda s: not _wildlife_there(s),
    words="Bats or nests are there: who was asked?",
    remedy="They are protected: ask before anything is touched, and note who said what.",
    page=PageName.SURVEY,
    figures=lambda s: f"Found: {_wildlife_there(s)}.",
)


def _underneath(situation: Situation) -> Stripping | None:
    """The stripping while the deck is not laid; what is covered again is not asked about."""
    return situation.job.stripping if situation.job.laying is None else None


def _suspect_settled(situation: Situation) -> bool:
    """Tell whether nothing suspect lay underneath, or it was tested or removed since."""
    stripping, survey = _underneath(situation), situation.job.survey
    if stripping is None or not stripping.suspect or survey is None:
        return True
    old = survey.old
    settled = old.removed_on if old.is_removed else old.tested_on if old.is_found_clear else None
    return settled is not None and settled >= stripping.on


UNDERNEATH = (
    Check(
        id="suspect-asked",
        stage=Stage.STRIPPED,
        severity=Severity.STOP,
        holds=lambda s: (found := _underneath(s)) is None or found.suspect is not None,
        words="Anything suspect underneath?",
        remedy="Say whether old felt, mastic or board that may hold asbestos lay underneath.",
        page=PageName.STRIP,
    ),
    Check(
        id="suspect",
        stage=Stage.STRIPPED,
        severity=Severity.STOP,
        holds=_suspect_settled,
        words="Suspect material underneath: tested clear, or removed?",
        remedy=(
            "Stop work, break nothing. Have it tested by an accredited laboratory, or removed "
            "by a licensed or trained person; record which."
        ),
        page=PageName.SURVEY,
        part=Part.ASBESTOS,
    ),
)
