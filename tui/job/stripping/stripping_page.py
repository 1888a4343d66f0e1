"""Stripping: what was found, how the deck was left, where the waste went, and the extras."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import ClassVar

from rich.text import Text
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.checks.check import Situation
from domain.days.dates import read_past_date
from domain.errors import HeadlapError, Refused
from domain.estimate.extra_terms import terms_of
from domain.estimate.pricing import old_weight
from domain.exact import half_up
from domain.job import Cover, Extra, ExtraState, Job, Stage, Stripping
from domain.money import show_money
from domain.page_names import PageName
from domain.quantity import read_kg, show_amount, to_decimal
from domain.setting_out.forms.roof import build_roof
from domain.signs import Sign
from domain.takeoff.loads import Load
from domain.tone import Tone
from domain.trader import Van
from tui.frame.commands import key_of
from tui.frame.safe_text import fitted
from tui.job.page import JobPage
from tui.job.stripping.extra_dialog import ExtraDialog
from tui.widgets.field_row import Field
from tui.widgets.field_values import answer, date_typed, number_typed, read_text, yes_no
from tui.widgets.form import YES_NO, Form
from tui.widgets.line_input import Takes
from tui.widgets.line_list import LineList

FIELDS = (
    Field("on", "Stripped on", hint="today", takes=Takes.DONE),
    Field("found", "Found", hint="what you found, or “nothing”"),
    Field("cover", "Deck left", choices=tuple(cover.value for cover in Cover)),
    Field("suspect", "Suspect underneath", choices=YES_NO),
    Field("kg", "Old covering", unit="kg", example="40", takes=Takes.COUNT),
    Field("to", "Taken to", hint="name of the tip"),
    Field("note", "Transfer note", hint="number"),
)

_MOST_KG = Decimal(100_000)
_STOP_WORK = f"{Sign.STOP} Stop work, keep people away, break nothing. Have it tested."


def read_stripping(values: Mapping[str, str], today: date) -> Stripping:
    """Return what was typed as a value. Raises :class:`Refused`."""
    if values["cover"] not in {cover.value for cover in Cover}:
        raise Refused("cover", values["cover"], "Choose how it was left for the night.")
    kg = values["kg"].strip()
    return Stripping(
        on=read_past_date("on", values["on"], today),
        found=read_text("found", values["found"], "Write what you found, or “nothing”."),
        cover=Cover(values["cover"]),
        waste_kg=_kg(kg) if kg else None,
        waste_to=values["to"].strip(),
        transfer_note=values["note"].strip(),
        suspect=answer(values["suspect"]),
    )


def _kg(text: str) -> Decimal:
    return read_kg("kg", text, "kilograms such as 40", most=_MOST_KG)


def stripping_typed(job: Job, today: date) -> dict[str, str]:
    """Return what stands in the fields; the weight is worked out until it is weighed."""
    done = job.stripping
    if done is None:
        return {"on": date_typed(today), "kg": worked_out_kg(job)}
    return {
        "on": date_typed(done.on),
        "found": done.found,
        "cover": done.cover.value,
        "suspect": yes_no(done.suspect),
        "kg": number_typed(done.waste_kg),
        "to": done.waste_to,
        "note": done.transfer_note,
    }


def worked_out_kg(job: Job) -> str:
    """What the old covering should weigh, as it would be typed; empty where nothing tells."""
    if job.survey is None:
        return ""
    try:
        area = to_decimal(build_roof(job.survey.measures).area / 10**6)
    except HeadlapError:
        return ""  # the survey says what is wrong with the roof
    return number_typed(Decimal(half_up(Fraction(old_weight(area, job.survey.old)))) or None)


def waste_note(typed: str, job: Job, van: Van) -> str:
    """The sacks and trips the weight makes, and whether it is worked out or typed."""
    try:
        kg = Fraction(_kg(typed))
    except Refused:
        return ""
    hauls = (("sack", Load(kg, Fraction(van.sack_kg))), ("trip", Load(kg, van.limit)))
    counted = [show_amount(Decimal(haul.times), word) for word, haul in hauls if haul.times]
    known = "worked out" if typed.strip() == worked_out_kg(job) else "as typed"
    return ", ".join((*counted, known))


class StrippingPage(JobPage):
    """A form, and the extras under it: Enter settles one."""

    page: ClassVar[PageName] = PageName.STRIP
    place: ClassVar[str] = "stripped"
    reminds_of: ClassVar[Stage | None] = Stage.STRIPPED
    DEFAULT_CSS = """
    StrippingPage Form { height: auto; max-height: 7; }
    StrippingPage #field-kg { width: 12; }
    StrippingPage LineList { height: 1fr; min-height: 1; margin-top: 1; }
    StrippingPage #no-extras { color: $quiet; height: 1; margin-top: 1; }
    StrippingPage.-low Form { max-height: 6; }
    StrippingPage.-low LineList, StrippingPage.-low #no-extras { margin-top: 0; }
    """

    def body(self) -> Iterable[Widget]:
        """Yield the form and the list of extras."""
        yield Form(FIELDS)
        yield Static(
            Content(f"No extras: {key_of('stripped', 'add_extra')} adds one."), id="no-extras"
        )
        yield LineList()

    def fill(self, situation: Situation) -> None:
        """Put what is recorded into the fields."""
        form = self.query_one(Form)
        form.fill(stripping_typed(situation.job, situation.today))
        self._note_waste()

    def follow(self, situation: Situation) -> None:
        """Show the extras."""
        extras = situation.job.extras
        self.query_one("#no-extras").display = not extras
        lines = self.query_one(LineList)
        lines.display = bool(extras)
        lines.show(len(extras), self._draw)

    def part(self, job: Job) -> object:
        """Return what this page keeps of the job: the stripping."""
        return job.stripping

    def on_form_changed(self) -> None:
        """Sacks and trips follow the weight; the screen hears of the change too."""
        if self._situation is not None:  # the choices tell of themselves before they are filled
            self._note_waste()

    def action_add_extra(self) -> None:
        """Record an extra."""
        self._ask(None)

    def action_delete_extra(self) -> None:
        """Take the extra under the cursor away."""
        lines, extras = self.query_one(LineList), self.situation.job.extras
        if lines.has_focus and lines.cursor < len(extras):
            self.job_screen.save_in_worker(self._delete(extras[lines.cursor]))

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Settle the extra."""
        event.stop()
        self._ask(self.situation.job.extras[event.row])

    def as_typed(self) -> Job:
        """The job with what stripping found as it is typed."""
        found = read_stripping(self.query_one(Form).values, self.open_book.today)
        return replace(self.job, stripping=found)

    async def save(self) -> None:
        """Record what stands in the fields."""
        job = self.job
        stripping = read_stripping(self.query_one(Form).values, self.open_book.today)
        await self.record(
            lambda book: book.record_stripping(job, stripping), "Saved: what stripping found."
        )

    def _note_waste(self) -> None:
        form, situation = self.query_one(Form), self.situation
        told = waste_note(form.values["kg"], situation.job, situation.trader.van)
        form.note("kg", told, Tone.QUIET)
        # Said at once: it is found in mid-work, before there is anything else to record.
        suspect = answer(form.values["suspect"])
        form.tell("suspect", _STOP_WORK if suspect else "", Tone.STOP)

    def _ask(self, extra: Extra | None) -> None:
        async def save(written: Extra) -> None:
            job = self.situation.job
            await self.act(lambda book: book.save_extra(job, written), "Saved: the extra.")

        job, trader = self.situation.job, self.situation.trader
        terms = terms_of(job, trader)
        self.app.push_screen(ExtraDialog(extra, trader, self.open_book.today, terms, save))

    async def _delete(self, extra: Extra) -> None:
        job, key = self.situation.job, extra.id
        if key is not None:
            await self.act(
                lambda book: book.delete_extra(job, key),
                "Extra deleted.",
                lasting=True,
            )

    def _draw(self, row: int, width: int) -> Text:
        extra, p = self.situation.job.extras[row], self.palette
        sign, colour = {
            ExtraState.OPEN: (Sign.CAUTION, p.caution),
            ExtraState.AGREED: (Sign.GOOD, p.moss),
            ExtraState.NOT_CHARGED: ("–", p.quiet),
        }[extra.state]
        line = Text("extra  ", style=p.quiet, end="")
        line.append(fitted(extra.words, max(10, width - 45)), style=f"bold {p.ink}")
        line.append(f"{show_amount(extra.quantity, extra.unit):>11}", style=p.quiet)
        line.append(f"{show_money(extra.price):>12}  ", style=p.ink)
        line.append(f"{sign} {extra.state}", style=colour)
        return line
