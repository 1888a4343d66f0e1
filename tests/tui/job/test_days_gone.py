"""What is recorded as done cannot be of a day to come: where it is typed, it is refused."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest

from domain.errors import Refused
from domain.estimate.extra_terms import Terms
from domain.job import PAYMENT_METHODS, Cover, ExtraState, Means
from tests import builders
from tui.job.laying.laying_page import laying_typed, read_laying
from tui.job.money.payment_dialog import read_money_in
from tui.job.quote.quote_fields import read_acceptance, read_sending
from tui.job.signing_off.signing_off_page import read_sign_off
from tui.job.stripping.extra_dialog import read_extra
from tui.job.stripping.stripping_page import read_stripping

TODAY = builders.LAY_DAY
TERMS = Terms(14_00, with_vat=False)
LAID = {"temperature": "", "wind": "", "dry": ""} | laying_typed(builders.laying(), TODAY)
YES = {"who": "A", "means": Means.TEXT, "made_at": builders.acceptance().made_at}
EXTRA = {"words": "boards", "quantity": "1", "unit": "m", "price": "", "before": "no"}
AGREED = EXTRA | {"state": ExtraState.AGREED, "by": "A", "means": Means.TEXT}
DONE: dict[str, Callable[[str], Any]] = {
    "Received on": lambda day: (
        read_money_in({"amount": "1", "on": day, "method": PAYMENT_METHODS[0]}, TODAY).received_on
    ),
    "Stripped on": lambda day: (
        read_stripping(
            {
                "on": day,
                "found": "nothing",
                "cover": Cover.LAID,
                "suspect": "",
                "kg": "",
                "to": "",
                "note": "",
            },
            TODAY,
        ).on
    ),
    "Laid on": lambda day: read_laying(LAID | {"on": day}, TODAY).on,
    "On": lambda day: read_sign_off({"who": "A", "on": day, "until": "", "words": ""}, TODAY).on,
    "Sent on": lambda day: (
        read_sending({"sent_on": day, "valid_days": "30"}, {}, builders.VISIT, TODAY).on
    ),
    "Accepted: On": lambda day: read_acceptance(YES | {"on": day}, builders.sent(), TODAY).on,
    "Agreed on": lambda day: (
        read_extra(AGREED | {"on": day}, None, builders.trader(), TODAY, TERMS).agreed_on
    ),
}


@pytest.mark.parametrize("what", DONE)
def test_a_day_to_come_is_refused(what: str) -> None:
    with pytest.raises(Refused) as refused:
        DONE[what]("tomorrow")
    assert refused.value.field == ("sent_on" if what == "Sent on" else "on")
    assert DONE[what]("today") == TODAY
    assert DONE[what]("yesterday") == TODAY - timedelta(days=1)
