"""The quote as it is typed: miles and deposit, its sending, the customer's yes."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal

from domain.coverings.registry import name_of
from domain.days.calendar import show_date
from domain.days.cancellation import notice_sent_on
from domain.days.dates import read_date, read_past_date
from domain.errors import NotNow, Refused
from domain.estimate.quoting import basis_of, to_pay
from domain.job import (
    WRITTEN,
    Acceptance,
    Job,
    MadeAt,
    Means,
    Option,
    Quote,
    Sending,
)
from domain.money import Pence, read_money
from domain.quantity import read_count, read_number
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, money_typed, number_typed, read_text
from tui.widgets.form import YES_NO
from tui.widgets.line_input import Takes

PRICING = (
    Field("miles", "Round trip", "miles a day", example="14", takes=Takes.COUNT),
    Field("deposit", "Deposit", "£", hint="none", takes=Takes.FIGURE),
    Field("own_price", "Agreed price", "£", hint="as worked out", takes=Takes.FIGURE),
)
SENDING = (
    Field("sent_on", "Sent on", hint="today", takes=Takes.DONE),
    Field("valid_days", "Valid for", "days", example="30 or 4 weeks", takes=Takes.COUNT),
)
_RIGHTS = (
    Field(
        "made_at",
        "Where agreed",
        choices=tuple(MadeAt),
        section="The right to cancel",
        needed=True,
    ),
    Field("urgent_why", "Urgent repair, because", hint="only if they asked you to come for it"),
    Field(
        "notice_on",
        "Told of right to cancel on",
        hint="the day you gave them the notice",
        takes=Takes.DONE,
    ),
    Field(
        "ticked",
        "Box to start early ticked",
        choices=YES_NO,
        only_for=("means", Means.SIGNED.value),
    ),
    Field(
        "early_request_on",
        "Asked to start early, on",
        hint="the day they asked, if they did",
        takes=Takes.DONE,
    ),
    Field("request_means", "They asked by", choices=tuple(WRITTEN)),
    Field("knows_right_ends", "Knows it ends when done", choices=YES_NO),
    Field(
        "materials_on", "Last materials reached them", hint="once they have come", takes=Takes.DONE
    ),
)
_YES = (
    Field("who", "Who", example="Mrs Adeyemi", needed=True),
    Field("on", "On", takes=Takes.DONE, today_with="who", needed=True),
    Field("means", "How", choices=tuple(Means), needed=True),
)


@dataclass(frozen=True, slots=True)
class Pricing:
    """What is typed to price a job."""

    miles: Decimal
    """There and back, a day."""
    deposit: Pence
    own_price: Pence | None = None
    """As the customer reads it: with VAT for a householder; None: as worked out."""


def pricing_typed(job: Job) -> dict[str, str]:
    """Return what stands in the fields for the newest quote; nothing if there is none."""
    if not job.quotes:
        return {}
    quote = job.quotes[-1]
    basis, first = basis_of(quote), quote.options[0]
    own = "" if first.own_gross is None else money_typed(to_pay(job, first))
    return {
        "miles": number_typed(basis.miles) if basis else "",
        "deposit": money_typed(quote.deposit) if quote.deposit else "",
        "own_price": own,
    }


def read_pricing(values: Mapping[str, str]) -> Pricing:
    """The miles and the deposit as typed; no deposit is £0.00. Raises :class:`Refused`."""
    miles = read_number(
        "miles", values["miles"], "miles such as 12", unit="mile", most=Decimal(1000)
    )
    typed, own = values["deposit"], values.get("own_price", "")
    return Pricing(
        miles,
        read_money("deposit", typed) if typed.strip() else 0,
        read_money("own_price", own) if own.strip() else None,
    )


def read_sending(
    values: Mapping[str, str], notes: Mapping[str, str], drafted_on: date, today: date
) -> Sending:
    """When it was sent and how long it is valid; ``notes`` pass cautions.

    Raises :class:`Refused`.
    """
    sent_on = read_date("sent_on", values["sent_on"], today, done=True)
    if not drafted_on <= sent_on <= today:
        span = f"from {show_date(drafted_on)}, when it was priced, to {show_date(today)}"
        raise Refused("sent_on", values["sent_on"], f"Give a day {span}.")
    days = read_count(
        "valid_days", values["valid_days"], "days such as 30", unit="day", least=1, most=365
    )
    return Sending(sent_on, sent_on + timedelta(days=days), notes)


def acceptance_fields(job: Job, quote: Quote) -> tuple[Field, ...]:
    """What is asked about the customer's yes: to which covering only where there is a choice.

    Of rights only where there may be any.
    """
    rights = _RIGHTS if job.customer.is_householder else _RIGHTS[:1]
    choices = tuple(map(_named, quote.options))
    asked = Field("covering", "Covering", choices=choices, needed=True)
    which = (asked,) if len(choices) > 1 else ()
    who, *how = _YES
    return (who, *which, *how, *rights)


def acceptance_typed(job: Job, quote: Quote) -> dict[str, str]:
    """Return what stands in the fields: the recorded acceptance, or what is likely and harmless."""
    taken = quote.acceptance
    if taken is None:
        return {"notice_on": date_typed(notice_sent_on(job.customer, quote))}
    return {
        "covering": _named(quote.counting),
        "who": taken.who,
        "on": date_typed(taken.on),
        "means": taken.means.value,
        "made_at": taken.made_at.value,
        "notice_on": date_typed(taken.notice_on),
        "early_request_on": date_typed(taken.early_request_on),
        "knows_right_ends": YES_NO[0] if taken.knows_right_ends else "",
        "urgent_why": taken.urgent_why,
        "ticked": _ticked(taken),
        "request_means": taken.request_means.value if taken.request_means else "",
        "materials_on": date_typed(taken.materials_on),
    }


def _ticked(taken: Acceptance) -> str:
    """Whether the box beside the signature was ticked; nothing said of a yes of another kind."""
    if taken.means is not Means.SIGNED:
        return ""
    return YES_NO[taken.request_means is not Means.SIGNED]


def read_acceptance(values: Mapping[str, str], quote: Quote, today: date) -> Acceptance:
    """The customer's yes to an option of a quote that was sent. Raises :class:`Refused`."""
    chosen, sent_on = _chosen(values, quote), quote.sent_on
    if chosen.id is None or sent_on is None:
        raise NotNow("Only a quote that is marked as sent can be accepted.")
    who = read_text("who", values["who"], "Type the name of whoever accepted.")
    on = _no_later(today, "on", values["on"])
    if on is None or on < sent_on:
        remedy = f"Give a day from {show_date(sent_on)}, when the quote was sent."
        raise Refused("on", values["on"], remedy)
    if not values["means"]:
        raise Refused("means", "", "Choose how they said yes.")
    if not values["made_at"]:
        raise Refused(
            "made_at", "", ("Choose where it was agreed: the right to cancel depends on it.")
        )
    plain = Acceptance(
        option_id=chosen.id,
        who=who,
        on=on,
        means=Means(values["means"]),
        made_at=MadeAt(values["made_at"]),
        notice_on=_no_later(today, "notice_on", values.get("notice_on", "")),
        materials_on=_no_later(today, "materials_on", values.get("materials_on", "")),
        urgent_why=values.get("urgent_why", "").strip(),
    )
    return _with_request(plain, values, today)


def _with_request(plain: Acceptance, values: Mapping[str, str], today: date) -> Acceptance:
    """The yes with the request to start early, if there is one. Raises :class:`Refused`.

    Beside a signature it is a box that was ticked or not: asked once, where there is a right.
    """
    signed, asked = plain.means is Means.SIGNED, values.get("early_request_on", "").strip()
    has_right = plain.made_at is not MadeAt.PREMISES and not plain.urgent_why
    ticked = values.get("ticked")
    if signed and has_right and ticked == "" and not asked:
        words = "Look at the signed quote: is the box to start early ticked?"
        raise Refused("ticked", "", words)
    if signed and ticked == YES_NO[0]:
        on = _no_later(today, "early_request_on", asked) or plain.on
        return replace(
            plain, early_request_on=on, request_means=Means.SIGNED, knows_right_ends=True
        )
    if asked and not values.get("request_means"):
        words = "Choose how they asked: what is only spoken does not count."
        raise Refused("request_means", "", words)
    return replace(
        plain,
        early_request_on=_no_later(today, "early_request_on", asked),
        request_means=Means(values["request_means"]) if asked else None,
        knows_right_ends=values.get("knows_right_ends") == YES_NO[0],
    )


def _chosen(values: Mapping[str, str], quote: Quote) -> Option:
    """The option that was taken: the only one, or as chosen."""
    if len(quote.options) == 1:
        return quote.options[0]
    for option in quote.options:
        if values["covering"] == _named(option):
            return option
    raise Refused("covering", values["covering"], "Pick the one they chose.")


def _named(option: Option) -> str:
    """An option among others."""
    return name_of(option.covering)


def _no_later(today: date, field: str, text: str) -> date | None:
    """A day that is not to come, or None for an empty field. Raises :class:`Refused`."""
    return read_past_date(field, text, today) if text.strip() else None
