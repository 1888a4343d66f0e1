"""Sending a quote, and the customer's yes."""

from collections.abc import Awaitable, Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from domain.calendar import read_date
from domain.checks.check import Check, Situation
from domain.errors import Refused
from domain.job import Acceptance, MadeAt, Means, Option
from tui.dialogs.base import FormDialog
from tui.dialogs.stage import read_notes
from tui.reading.plain import read_optional_date, read_text, shown_date
from tui.widgets.form import YES_NO, Field


@dataclass(frozen=True, slots=True)
class Sending:
    """What was typed of the sending."""

    sent_on: date
    holds_until: date
    notes: Mapping[str, str]
    """By check id: why a caution is passed."""


def send_dialog(
    situation: Situation, cautions: Sequence[Check], save: Callable[[Sending], Awaitable[Any]]
) -> FormDialog[Sending]:
    """Ask when it was sent and how long it holds, and for a note on each caution."""
    today = situation.today
    notes = [
        Field(check.id, f"Note {number}", hint=check.remedy, section=f"▲ caution  {check.words}")
        for number, check in enumerate(cautions, 1)
    ]

    def read(values: dict[str, str]) -> Sending:
        sent = read_date("Sent on", values["sent"], today)
        holds = read_date("Holds until", values["holds"], today)
        if holds < sent:
            raise Refused("Holds until", values["holds"], "Give a day after it was sent.")
        return Sending(sent, holds, read_notes(notes, values))

    return FormDialog(
        "The quote is sent",
        (Field("sent", "Sent on"), Field("holds", "Holds until"), *notes),
        read,
        save,
        words="A quote that was sent never changes: a revision is a new one.",
        values={
            "sent": shown_date(today),
            "holds": shown_date(today + timedelta(days=situation.trader.quote_days)),
        },
    )


ACCEPTED = (
    Field("who", "Who accepted"),
    Field("on", "On", hint="today"),
    Field("means", "Given", choices=tuple(means.value for means in Means)),
    Field("made_at", "Agreed", choices=tuple(place.value for place in MadeAt)),
    Field("notice", "Notice given on", hint="of the right to cancel", section="Right to cancel"),
    Field("early", "Asked to begin early", hint="the day of the express request, if any"),
    Field("ends", "Knows it ends when done", choices=YES_NO),
)


def accepted_dialog(
    option: Option, who: str, today: date, save: Callable[[Acceptance], Awaitable[Any]]
) -> FormDialog[Acceptance]:
    """Ask for the customer's yes, and what was said of the right to cancel."""
    return FormDialog(
        "The quote is accepted",
        ACCEPTED,
        lambda values: read_accepted(values, option, today),
        save,
        words="Agreed away from your premises, the customer may cancel for 14 days. "
        "Taken here as a contract for a service; whether it is, is a legal question.",
        values={
            "who": who,
            "on": shown_date(today),
            "means": Means.EMAIL.value,
            "made_at": MadeAt.AWAY.value,
        },
    )


def read_accepted(values: Mapping[str, str], option: Option, today: date) -> Acceptance:
    """What was typed. Raises :class:`Refused`."""
    for key, label in (("means", "Given"), ("made_at", "Agreed")):
        if not values[key]:
            raise Refused(label, "", "Choose one with the arrow keys.")
    return Acceptance(
        option_id=option.id or 0,
        who=read_text("Who accepted", values["who"], "Give the customer's name."),
        on=read_date("On", values["on"], today),
        means=Means(values["means"]),
        made_at=MadeAt(values["made_at"]),
        notice_on=read_optional_date("Notice given on", values["notice"], today),
        early_request_on=read_optional_date("Asked to begin early", values["early"], today),
        knows_right_ends=values["ends"] == YES_NO[0],
    )
