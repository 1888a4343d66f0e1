"""Changes that make a job that lacks nothing fail a check, or come near to it."""

from datetime import date, timedelta
from decimal import Decimal

from domain.checks.stages import LAYING_TICKS, Situation
from domain.job import (
    Cover,
    CoveringChoice,
    CustomerKind,
    DeckKind,
    DeckState,
    ExtraState,
    MadeAt,
    Means,
    OldKind,
    Snag,
    Stage,
    Suspicion,
)
from tests.builders import (
    AGREED,
    LAY_DAY,
    SIGNED,
    acceptance,
    draft,
    invoice,
    mm,
    option,
    ready_for,
    sent,
    trader,
)
from tests.domain.checks import safety_cases
from tests.domain.checks.changes import (
    DAY_BEFORE,
    DAY_BEFORE_AGREED,
    LAST_TO_CANCEL,
    Change,
    accepted,
    beside,
    booked,
    both,
    early,
    extra,
    forecast_of,
    job,
    laden,
    only_used,
    over_night,
    own,
    part,
    pitch,
    sheeted,
    strips_used,
    surveyed,
    to_accept,
)

__all__ = ["FAILS", "FULL", "HOLDS_STILL", "Change", "names"]

FULL = Situation(ready_for(Stage.SIGNED_OFF), trader(), SIGNED, {})
"""Everything recorded that any stage asks for."""

FAILS: list[tuple[str, Change]] = [
    ("who", part("customer", name=" ")),
    ("where", part("site", place="")),
    ("visit-time", both(job(survey=None), part("enquiry", visit_on=None))),
    ("visit-time", both(job(survey=None), part("enquiry", visit_at=None))),
    ("measured", job(survey=None)),
    ("roof-drawn", job(survey=None)),
    ("roof-drawn", surveyed("measures", length=None)),
    ("roof-drawn", surveyed("measures", slope_length=mm(150))),  # too short for a course
    ("roof-drawn", pitch("9.4")),  # under the least of all
    ("covering-chosen", part("survey", covering=None)),
    ("covering-chosen", part("survey", covering=CoveringChoice("thatch"))),
    ("deck-from-above", surveyed("deck", seen_above=False)),
    ("deck-from-above", surveyed("deck", seen_above=None)),
    ("deck-from-below", surveyed("deck", seen_below=False)),
    ("deck-from-below", surveyed("deck", seen_below=None)),
    ("deck-kind", surveyed("deck", kind=None)),
    ("deck-thickness", surveyed("deck", thickness=None)),
    ("deck-thickness", surveyed("deck", thickness=mm(0))),
    ("deck-boards", surveyed("deck", profile=" ")),
    ("deck-boards", surveyed("deck", cover_width=None)),
    ("deck-state", surveyed("deck", state=None)),
    ("deck-state", surveyed("deck", state=DeckState.REPLACE)),
    ("deck-state", surveyed("deck", state=DeckState.REPLACE, replace_m=Decimal(0))),
    ("deck-nails", surveyed("deck", nails_inside=None)),
    ("nail-length", surveyed("deck", thickness=mm(12))),  # the usual 20 mm comes 2 mm through
    ("nail-length", surveyed("deck", thickness=mm(18))),  # and goes 14 mm in
    ("old-kind", surveyed("old", kind=None)),
    ("old-layers", surveyed("old", layers=None)),
    ("old-layers", surveyed("old", layers=0)),
    ("old-age", surveyed("old", suspicion=None)),
    ("asbestos", surveyed("old", suspicion=None)),
    ("asbestos", surveyed("old", suspicion=Suspicion.BEFORE)),
    ("asbestos", surveyed("old", kind=OldKind.CEMENT_SHEET)),
    ("asbestos", surveyed("old", suspicion=Suspicion.CLEARED)),  # by nobody
    ("access", surveyed("access", means=" ")),
    ("customer-kind", part("customer", kind_asked=False)),
    ("own-name", own(name=" ")),
    ("own-name", own(address="")),
    ("quote-sent", job(quotes=())),
    ("quote-sent", job(quotes=(draft(),))),
    ("quote-sent", job(quotes=(sent(valid_until=None),))),
    ("priced-as-surveyed", to_accept(surveyed("measures", length=mm(3000)))),
    ("priced-as-surveyed", to_accept(surveyed("old", layers=2))),
    (
        "priced-as-surveyed",
        to_accept(surveyed("deck", state=DeckState.REPLACE, replace_m=Decimal("1.2"))),
    ),
    ("priced-as-surveyed", to_accept(part("survey", covering=CoveringChoice("hexagonal")))),
    ("priced-as-surveyed", to_accept(surveyed("edges", past_edge=mm(8)))),
    (
        "priced-as-surveyed",
        job(quotes=(draft(options=(option(basis="{}"),)),)),
    ),  # nobody knows from what
    ("own-price", job(quotes=(sent(options=(option(own_gross=1),)),))),
    ("measures-agree", pitch("27.1")),  # and a rise of 450 mm over 900 mm
    ("measures-agree", surveyed("measures", slope_length=mm(880))),  # shorter than its plan
    ("pitch", pitch("14.9")),
    ("pitch", surveyed("measures", rise=None, slope_length=mm(900))),  # drawn, pitch not known
    ("work-off", surveyed("deck", works_off=False)),
    ("work-off", surveyed("deck", works_off=None)),
    ("work-off", surveyed("deck", state=DeckState.UNSAFE)),
    ("one-person", surveyed("access", two_people=True)),
    ("one-person", surveyed("access", two_people=None)),
    ("barge-boards", surveyed("edges", barge_boards="")),
    ("fascia", surveyed("edges", fascia="")),
    ("finials", surveyed("edges", finials="")),
    ("drip-trim", surveyed("edges", drip_trim="")),
    ("gutter", surveyed("edges", gutter=" ")),
    ("ventilation", surveyed("edges", lined=True)),
    ("ventilation", surveyed("edges", lined=None)),
    ("photo", surveyed("access", photos="")),
    ("accepted", job(quotes=(sent(),))),
    ("accepted", job(quotes=())),
    ("accepted", accepted(who=" ")),
    ("day-booked", job(days=())),
    ("cancellation-notice", accepted(notice_on=None)),
    ("cancellation-notice", accepted(notice_on=None, made_at=MadeAt.DISTANCE)),
    ("cancellation-notice", accepted(notice_on=SIGNED + timedelta(days=1))),  # not given yet
    ("early-request", early(knows_right_ends=True)),
    ("early-request", early(early_request_on=LAST_TO_CANCEL + timedelta(days=1))),
    ("early-request", accepted(notice_on=None)),  # not told: a year more, so any day is early
    ("early-request", accepted(notice_on=LAY_DAY - timedelta(days=14))),  # told late
    ("right-ends", early(early_request_on=AGREED)),
    ("early-request", early(early_request_on=AGREED, request_means=None)),  # only spoken
    ("early-goods", accepted(materials_on=LAY_DAY)),
    ("early-goods", accepted(materials_on=None)),  # they come with the van
    ("urgent-repair", accepted(urgent_why="tree through the roof")),
    ("accepted-late", job(quotes=(sent(valid_until=DAY_BEFORE_AGREED, acceptance=acceptance()),))),
    ("accepted-spoken", accepted(means=Means.SPOKEN)),
    ("hours-booked", both(job(laying=None), booked(LAY_DAY, hours=5))),  # 5.63 in the quote
    ("forecast", forecast_of("r11")),
    ("forecast", forecast_of("r")),
    ("forecast", forecast_of("d/5")),
    ("forecast", forecast_of("d@17")),
    ("forecast", forecast_of("dg26", today=LAY_DAY)),
    ("another-job", beside(LAY_DAY)),
    ("materials", job(materials_in_hand=False)),
    ("payload", laden(100)),
    ("bank-holiday", booked(LAY_DAY, date(2026, 8, 31))),
    ("bank-holiday", both(own(nation="Scotland"), booked(date(2026, 11, 30)))),
    ("sunday", booked(date(2026, 6, 28))),
    ("ruled-out", part("site", ruled_out="Wednesdays")),
    ("ruled-out", part("site", ruled_out="24 June 2026")),
    ("ruled-out", part("site", ruled_out="when the moon is full")),
    ("daylight", booked(date(2026, 12, 21))),  # Manchester has 7 h 29 min of it
    ("windy-night-booked", both(over_night(DAY_BEFORE), forecast_of("w"))),
    ("windy-night-booked", both(over_night(LAY_DAY), forecast_of("dg40"))),
    ("windy-night", both(sheeted(), forecast_of("d@17", today=DAY_BEFORE))),
    ("found", job(stripping=None)),
    ("found", part("stripping", found=" ")),
    ("not-left-open", part("stripping", cover=Cover.OPEN)),
    ("waste-mass", part("stripping", waste_kg=None)),
    ("waste-to", part("stripping", waste_to="")),
    ("extra-begun", extra(begun_before=True)),
    ("waste-registration", own(waste_carrier="")),
    ("waste-registration", own(waste_expires=LAY_DAY - timedelta(days=1))),
    ("transfer-note", part("stripping", transfer_note="")),
    *[(f"laying-{key}", job(laying=None)) for key in LAYING_TICKS],
    *[
        (f"laying-{key}", part("laying", ticks=frozenset(LAYING_TICKS) - {key}))
        for key in LAYING_TICKS
    ],
    ("extras-settled", extra(state=ExtraState.OPEN)),
    ("extras-settled", extra(price=0)),
    ("extras-settled", extra(agreed_by="")),
    ("extras-settled", extra(agreed_on=None)),
    ("extras-settled", extra(means=None)),
    ("materials-used", only_used("hour")),
    ("hours-used", only_used("strip")),
    ("used-over", strips_used("12.01")),
    ("laid-cold", part("laying", temperature_c=Decimal(5))),
    ("laid-windy", part("laying", wind_mph=Decimal(17))),
    ("laid-damp", part("laying", deck_dry=False)),
    ("customers-word", job(sign_off=None)),
    ("customers-word", part("sign_off", who="")),
    ("snags", job(snags=(Snag("ridge piece lifted"),))),
    ("invoice-sent", job(documents=())),
    *safety_cases.FAILS,
]
"""What makes a check fail, on a job that lacks nothing."""

HOLDS_STILL: list[tuple[str, Change]] = [
    ("visit-time", part("enquiry", visit_on=None)),  # measured, so been there
    ("roof-drawn", part("survey", covering=None)),
    ("deck-boards", surveyed("deck", kind=DeckKind.SHEET, profile="", cover_width=None)),
    ("deck-state", surveyed("deck", state=DeckState.REPLACE, replace_m=Decimal("1.2"))),
    ("deck-state", surveyed("deck", state=DeckState.UNSAFE)),
    ("deck-nails", surveyed("deck", nails_inside=False)),
    ("nail-length", surveyed("deck", thickness=mm(12), nail_mm=20)),  # chosen all the same
    ("nail-length", surveyed("deck", thickness=mm(18), nail_mm=25)),
    ("old-layers", surveyed("old", kind=OldKind.NONE, layers=None)),
    ("asbestos", surveyed("old", kind=OldKind.NONE, suspicion=None)),
    ("asbestos", surveyed("old", suspicion=Suspicion.CLEARED, cleared_by="A Tester")),
    (
        "asbestos",
        surveyed(
            "old", kind=OldKind.CEMENT_SHEET, suspicion=Suspicion.CLEARED, cleared_by="A Tester"
        ),
    ),
    ("quote-sent", job(quotes=(sent(), draft(number=2)))),
    ("priced-as-surveyed", to_accept(lambda s: s)),
    ("priced-as-surveyed", to_accept(part("survey", visited_on=None))),  # nothing that counts
    ("priced-as-surveyed", to_accept(surveyed("old", kind=None))),  # other stops say so
    ("priced-as-surveyed", surveyed("measures", length=mm(3000))),  # agreed stays agreed
    ("measures-agree", pitch("27")),
    ("measures-agree", surveyed("measures", length=None)),  # not drawn: a stop
    ("pitch", pitch("15")),
    ("pitch", pitch("9.4")),  # then it is the stop, not the caution as well
    ("pitch", job(survey=None)),
    ("photo", job(survey=None)),  # too soon to ask
    ("ventilation", surveyed("edges", lined=True, ventilation="soffit vents")),
    ("cancellation-notice", accepted(notice_on=None, made_at=MadeAt.PREMISES)),
    (
        "cancellation-notice",
        both(accepted(notice_on=None), part("customer", kind=CustomerKind.BUSINESS)),
    ),
    ("early-request", early(early_request_on=LAST_TO_CANCEL)),
    ("early-request", booked(LAST_TO_CANCEL + timedelta(days=1))),
    ("early-request", early(made_at=MadeAt.PREMISES)),
    ("right-ends", early(knows_right_ends=True)),
    ("early-request", early(urgent_why="tree through the roof")),
    ("early-goods", accepted(materials_on=None, early_request_on=AGREED)),
    ("early-goods", accepted(materials_on=LAY_DAY - timedelta(days=15))),
    ("accepted-late", job(quotes=(sent(valid_until=AGREED, acceptance=acceptance()),))),
    ("hours-booked", both(job(laying=None), booked(LAY_DAY, date(2026, 6, 25), hours=3))),
    ("hours-booked", booked(LAY_DAY, hours=5)),  # laid, however short it was
    ("hours-booked", both(job(laying=None), job(days=()))),  # another stop asks for a day
    ("forecast", forecast_of()),
    ("forecast", forecast_of("d/6@16.9g25.4")),
    ("forecast", forecast_of("r", today=SIGNED)),  # the day has gone
    ("forecast", forecast_of("d8-17")),  # eight hours, as booked, and half an hour
    ("another-job", beside(SIGNED)),
    ("another-job", beside(LAY_DAY, today=SIGNED)),  # the day has gone
    ("another-job", both(beside(LAY_DAY), job(stripping=FULL.job.stripping))),
    ("payload", laden(101)),
    ("payload", both(laden(100), job(stripping=FULL.job.stripping))),  # it is there by then
    ("bank-holiday", booked(date(2026, 11, 30))),  # Scotland's alone
    ("sunday", booked(date(2026, 6, 27))),
    ("ruled-out", part("site", ruled_out="Thursdays")),
    ("daylight", booked(date(2026, 12, 21), hours=6)),
    ("windy-night-booked", forecast_of("w")),  # stripped and laid on one day
    ("windy-night-booked", both(over_night(DAY_BEFORE), forecast_of("r@16"))),
    ("windy-night", both(sheeted(laid=True), forecast_of("w", today=DAY_BEFORE))),
    ("windy-night", both(sheeted(), forecast_of("w", today=SIGNED))),  # it has gone by
    ("not-left-open", part("stripping", cover=Cover.SHEETED)),
    ("extra-begun", extra()),
    ("waste-registration", own(waste_expires=LAY_DAY)),
    ("waste-registration", own(waste_expires=None)),
    ("waste-registration", both(own(waste_carrier=""), part("stripping", waste_kg=Decimal(0)))),
    ("transfer-note", part("stripping", waste_kg=Decimal(0), transfer_note="")),
    ("extras-settled", extra()),
    ("extras-settled", extra(state=ExtraState.NOT_CHARGED, agreed_by="", means=None)),
    ("used-over", strips_used("12")),
    ("laid-cold", part("laying", temperature_c=Decimal("5.1"))),
    ("laid-cold", part("laying", temperature_c=None)),
    ("laid-windy", part("laying", wind_mph=None)),
    ("laid-damp", part("laying", deck_dry=None)),
    ("snags", job(snags=(Snag("ridge piece lifted", SIGNED),))),
    ("invoice-sent", job(documents=(invoice(),))),
    *safety_cases.HOLDS_STILL,
]
"""What comes near to failing, or is no business of the check."""


def names(cases: list[tuple[str, Change]]) -> list[str]:
    """Name cases by their check, each differently."""
    return [f"{check_id}-{n}" for n, (check_id, _) in enumerate(cases)]
