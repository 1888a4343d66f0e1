"""How a job ended before it was done, and what becomes of the money that was asked for."""

from collections.abc import Awaitable, Callable, Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from domain.accounts.calling_off import asked_for, has_money, settling
from domain.accounts.part_invoice import most_for_part
from domain.checks.check import Situation
from domain.checks.stages import endings
from domain.days.calendar import pay_back_by, show_day
from domain.days.cancellation import right_lasts
from domain.days.dates import read_past_date
from domain.errors import Refused
from domain.job import Closing, DocumentKind, Ending, Job
from domain.money import read_money, show_money
from domain.tone import Tone
from domain.trader import Trader
from domain.typing_slips import Slip, before_last
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, money_typed, read_text
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_HOW = Field("how", "How it ended", choices=tuple(each.value for each in Ending))
_WHY = Field("why", "Why")
_MONEY = (
    Field("told_on", "They said so on", hint="today", takes=Takes.DONE),
    Field("kept", "Keep", unit="£", takes=Takes.FIGURE),
    Field("kept_why", "It pays for", example="felt cut to size", hint="nothing kept: empty"),
)
_MEANS = {
    Ending.DECLINED: "Declined: they said no to the quote.",
    Ending.CALLED_OFF: "Called off: stopped after the customer agreed.",
}


class EndDialog(FormDialog[Closing]):
    """Asks how a job ended and why; where money was asked for, how much of it is kept."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    EndDialog FieldRow > Input, EndDialog FieldRow > Input.-short { width: 13; }
    EndDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def __init__(
        self, situation: Situation, today: date, save: Callable[[Closing], Awaitable[Any]]
    ) -> None:
        """The job can still end; nothing of the money is kept unless it is typed."""
        job, trader = situation.job, situation.trader
        self._job, self._trader, self._today = job, trader, today
        self._last_issued = situation.last_issued
        money, ways = has_money(job, trader, today), endings(job)
        how = replace(_HOW, choices=tuple(each.value for each in ways))
        only = {how.id: ways[0].value} if len(ways) == 1 else {}
        words = " ".join(_MEANS[each] for each in ways)
        super().__init__(
            f"Close job {job.ref}",
            (how, _WHY, *(_MONEY if money else ())),
            lambda typed: read_closing(typed, today),
            save,
            words=words + (f"\n{_money_words(job, trader, today)}" if money else ""),
            values=only | ({"told_on": date_typed(today), "kept": money_typed(0)} if money else {}),
            slips=self._issues,
        )

    def _issues(self, closing: Closing) -> Iterable[Slip]:
        """An invoice that is issued stays, so it is asked about, and a day out of order."""
        if closing.ending is not Ending.CALLED_OFF:
            return
        comes = settling(self._job, closing, self._trader)
        if comes.invoice:
            kept = show_money(closing.kept)
            yield Slip("kept", f"It issues an invoice for the part done, {kept} in all, for good")
        issues = ((comes.invoice, DocumentKind.INVOICE), (comes.credits, DocumentKind.CREDIT_NOTE))
        for issued, kind in issues:
            last = self._last_issued.get(kind) if issued else None
            slip = before_last("kept", self._today, last, kind.value)
            if slip is not None:
                yield slip

    def worked_out(self, form: Form) -> None:
        """What is credited and what goes back, by which day."""
        if "kept" in form.values:
            form.note("kept", *_comes_to(self._job, self._trader, form.values, self._today))


def read_closing(values: Mapping[str, str], today: date) -> Closing:
    """How it ended, why, and what is kept. Raises :class:`Refused`."""
    told = values.get("told_on")
    return Closing(
        ending=Ending(read_text("how", values["how"], "Choose which it is.")),
        why=read_text("why", values["why"], "Say why in a few words."),
        on=today,
        told_on=today if told is None else read_past_date("told_on", told, today),
        kept=read_money("kept", values.get("kept") or "0"),
        kept_why=values.get("kept_why", "").strip(),
    )


def _money_words(job: Job, trader: Trader, today: date) -> str:
    """What was asked for and paid, and what becomes of it."""
    acceptance = job.quote.acceptance if job.quote else None
    asked = asked_for(job)
    words = f"{show_money(asked)} was asked for. What you do not keep is credited; " * bool(asked)
    words += "what they paid and you do not keep goes back within 14 days."
    words = words[0].upper() + words[1:]
    if most_for_part(job, trader, today):
        words += " Keep more, for the part done, and an invoice for the rest of it is made."
    if acceptance is not None and right_lasts(job, acceptance, today):
        words += " They can still cancel: keep only what they asked for in writing to be done."
    return words


def _comes_to(job: Job, trader: Trader, values: Mapping[str, str], today: date) -> tuple[str, Tone]:
    """What follows from what is typed; nothing while it cannot be read."""
    try:
        told = read_past_date("told_on", values["told_on"], today)
        kept = read_money("kept", values["kept"] or "0")
        closing = Closing(Ending.CALLED_OFF, "", today, told, kept, "what it is for")
        comes = settling(job, closing, trader)
    except Refused as error:
        return (error.remedy if error.field == "kept" else ""), Tone.CAUTION
    parts = []
    if comes.pay_back:
        parts.append(f"{show_money(comes.pay_back)} back by {show_day(pay_back_by(told))}")
    elif comes.credits:
        parts.append(f"credits {show_money(sum(each.pence for each in comes.credits))}")
    if comes.invoice:
        parts.append("an invoice for the rest")
    if comes.owed:
        parts.append(f"{show_money(comes.owed)} still owed")
    return "; ".join(parts), Tone.PLAIN
