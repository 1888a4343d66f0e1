"""Write the story into a book, through the same actions a user has, on the days it tells."""

from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

from demo_data.evenings import Evenings
from demo_data.site_days import bill, finish
from demo_data.story import Story, on_a_working_day, working_day
from demo_data.year import tell_year
from domain.checks.check import Severity
from domain.checks.stages import missing
from domain.coverings.materials import Material
from domain.coverings.registry import COVERINGS
from domain.days.forecast_line import read_line
from domain.estimate.quoting import draft_quote
from domain.estimate.stock import Price, StockMove
from domain.job import (
    NONE_THERE,
    Acceptance,
    AccessPlan,
    Around,
    BookedDay,
    Booking,
    Closing,
    CoveringChoice,
    Customer,
    CustomerKind,
    Deck,
    DeckKind,
    DeckState,
    Edges,
    Ending,
    Enquiry,
    EnquiryRecord,
    Job,
    MadeAt,
    Means,
    OldCovering,
    OldKind,
    Sending,
    Site,
    Stage,
    StageMove,
    Survey,
    Suspicion,
)
from domain.look import COLOURS, Look
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import MEASURES_OF, RoofMeasures
from domain.starting_rates import CHARGES, WORK_RATES, with_confirmed
from domain.takeoff.roof_takeoff import TakeOff, take_off, worked_out
from domain.trader import Rates, Trader, Van
from domain.units import parse_length
from storage.book import Book

_Told = Mapping[str, Any]


def lay_out_book(path: Path, story: Story, now: datetime) -> None:
    """Make the book at ``path`` and tell it the story around the day of ``now``."""
    _count_ahead(story)
    evenings = Evenings(now)
    book = Book.open(path, evenings)
    try:
        _settings(book, story, now.date())
        tell_jobs(book, story, evenings, now.date())
        _order(book, now.date())
        tell_year(book, story, evenings, now.date())
    finally:
        book.close()


def _order(book: Book, today: date) -> None:
    """Order the first list but one that is to be ordered: the other is left for this evening."""
    given = book.orders(today).lists[1:2]
    trader = book.trader()
    book.mark_ordered(given, today, working_day(today, 1), trader.address)


def tell_jobs(book: Book, story: Story, evenings: Evenings, today: date) -> None:
    """Tell a book the jobs of the story, the oldest first; ``evenings`` is the clock it has."""
    for told in sorted(story.jobs, key=lambda told: -_laid_ago(told, today)):
        _Teller(book, evenings, told, today).tell()


def _laid_ago(told: _Told, today: date) -> int:
    """Days since the job began, about: for the order of the references."""
    if "w" in told:
        return 30 - (working_day(today, told["w"]) - today).days
    for key, before in (("ago", 30), ("sent_ago", 5), ("visit_ago", 2), ("received_ago", 0)):
        if key in told:
            return int(told[key]) + before
    return 1


def _settings(book: Book, story: Story, today: date) -> None:
    details = dict(story.trader)
    waste, liability = details.pop("waste_expires_in"), details.pop("liability_expires_in")
    payload = Decimal(details.pop("payload_kg"))
    book.save_trader(
        Trader(
            **details,
            waste_expires=today + timedelta(days=waste),
            liability_expires=today + timedelta(days=liability),
            rates=with_confirmed(Rates(), (*CHARGES, *WORK_RATES)),
            van=Van(payload_kg=payload),
            look=Look(colour=COLOURS["teal"]),
        )
    )
    for told in story.prices:
        book.set_price(
            Price(
                material=Material(told["material"]),
                merchant=told["merchant"],
                per_pack=Decimal(told["per_pack"]),
                net=told["net"],
                vat_rate=Decimal(20),
                since=today - timedelta(days=told["since_ago"]),
                kg=Decimal(told["kg"]) if "kg" in told else None,
            )
        )
    for told in story.stock:
        book.move_stock(
            StockMove(
                material=Material(told["material"]),
                colour=told.get("colour", ""),
                quantity=Decimal(told["quantity"]),
                on=today - timedelta(days=60),
                words=told["words"],
            )
        )
    for told in story.forecasts:
        book.save_forecasts(read_line("forecast", told["typed"], working_day(today, told["w"])))


class _Teller:
    """Takes one job as far as the story does."""

    def __init__(self, book: Book, evenings: Evenings, told: _Told, today: date) -> None:
        self.book, self.told, self.today = book, told, today
        self._evenings = evenings
        self.stage = Stage(told["stage"])
        self.trader = book.trader()

    def tell(self) -> None:
        """Write the job into the book, step by step from its enquiry to where it stands."""
        job = self._enquired()
        if "form" in self.told:
            job = self.on(self._visit()).save_survey(job, _survey(self.told, self._visit()))
        if self.told.get("unwritten") or self.stage is not Stage.ENQUIRY:
            job = self._to(job, Stage.SURVEY, self._visit())
        if "form" in self.told:
            if _is_quoted(self.told):
                job = self._quoted(job)
            if self.stage.rank >= Stage.BOOKED.rank:
                job = self._booked(job)
            if self.stage.rank >= Stage.STRIPPED.rank:
                job = finish(self.on, self.told, job, self.stage, self._day(), self._to)
                bill(self.on, self.told, job, self.today)
        if "ended" in self.told:
            ended_on = self.today - timedelta(days=self.told["ended_ago"])
            closing = Closing(Ending(self.told["ended"]), self.told["why"], ended_on)
            self.on(ended_on).end_job(job, closing)

    def on(self, day: date) -> Book:
        """The book, opened on the evening of a day."""
        self._evenings.turn_to(day)
        return self.book

    def _enquired(self) -> Job:
        told = self.told
        customer = Customer(
            name=told["customer"],
            kind=CustomerKind(told.get("kind", "householder")),
            address=told.get("address", ""),
            phone=told["phone"],
        )
        visit = self._visit() if self.stage is not Stage.ENQUIRY else None
        enquiry = Enquiry(
            received_on=(visit or self.today) - timedelta(days=3 if visit else 0),
            said=told["said"],
            building=told["building"],
            nominal=told.get("nominal", ""),
            visit_on=visit,
            visit_at=time(17, 30) if visit else None,
        )
        site = Site(told["place"], told.get("address", ""), told.get("access", ""))
        return self.on(enquiry.received_on).take_enquiry(EnquiryRecord(customer, site, enquiry))

    def _quoted(self, job: Job) -> Job:
        trader, prices, stock = self.trader, self.book.prices(), self.book.free_stock(job.id)
        counted = [_counted(_measures(self.told), each) for each in _coverings(self.told)]
        deposit = self.told.get("deposit", 0)
        quote = draft_quote(job, counted, trader, prices, stock, Decimal(14), self._sent(), deposit)
        job = self.on(self._sent()).save_quote(job, quote)
        if self.told.get("draft"):
            return job
        holds = self._sent() + timedelta(days=trader.quote_days)
        notes = self._notes(job, Stage.QUOTED, self._sent())
        return self.on(self._sent()).send_quote(job, Sending(self._sent(), holds, notes))

    def _booked(self, job: Job) -> Job:
        agreed = self._sent() + timedelta(days=2)
        quote = job.quotes[-1]
        job = self.on(agreed).accept_quote(
            job,
            Acceptance(
                option_id=quote.options[0].id or 0,
                who=job.customer.name,
                on=agreed,
                means=Means.EMAIL,
                made_at=MadeAt.AWAY,
                notice_on=agreed,
                early_request_on=agreed,
                knows_right_ends=True,
                request_means=Means.EMAIL,
            ),
        )
        hours = Decimal(self.told.get("hours", "7"))
        day = self._day()
        days = [BookedDay(day, hours)]
        if "lay_hours" in self.told:
            lay_hours = Decimal(self.told["lay_hours"])
            days = [BookedDay(day, hours, "strip"), BookedDay(self._lay_day(), lay_hours, "lay")]
        booking = Booking(tuple(days), self.told.get("in_hand", True))
        job = self.on(agreed).book_days(job, booking)
        return self._to(job, Stage.BOOKED, agreed)

    def _to(self, job: Job, stage: Stage, on: date) -> Job:
        return self.on(on).move_stage(job, StageMove(stage, on, self._notes(job, stage, on)))

    def _notes(self, job: Job, stage: Stage, on: date) -> dict[str, str]:
        situation = self.on(on).situation(job.id or 0, on)
        cautions = (c for c in missing(situation, stage) if c.severity is Severity.CAUTION)
        return {check.id: "looked at, settled with the customer" for check in cautions}

    def _day(self) -> date:
        if "w" in self.told:
            return working_day(self.today, self.told["w"])
        return on_a_working_day(self.today - timedelta(days=self.told["ago"]))

    def _lay_day(self) -> date:
        if "w_lay" in self.told:
            return working_day(self.today, self.told["w_lay"])
        return working_day(self._day(), 1)

    def _sent(self) -> date:
        if "sent_ago" in self.told:
            return self.today - timedelta(days=self.told["sent_ago"])
        if "draft" in self.told:
            return self.today
        return min(self._day() - timedelta(days=18), self.today - timedelta(days=8))

    def _visit(self) -> date:
        if "visit_w" in self.told:
            return working_day(self.today, self.told["visit_w"])
        if "visit_ago" in self.told:
            return self.today - timedelta(days=self.told["visit_ago"])
        return self._sent() - timedelta(days=3)


def _count_ahead(story: Story) -> None:
    """Work out every roof that is quoted, side by side: most of what takes time."""
    quoted = (told for told in story.jobs if "form" in told and _is_quoted(told))
    roofs = {(_measures(told), covering) for told in quoted for covering in _coverings(told)}
    with ThreadPoolExecutor() as hands:
        list(hands.map(lambda roof: _counted(*roof), roofs))


def _is_quoted(told: _Told) -> bool:
    return bool(Stage(told["stage"]).rank >= Stage.QUOTED.rank or told.get("draft"))


def _coverings(told: _Told) -> list[str]:
    return [told["covering"], *told.get("beside", ())]


@cache
def _counted(measures: RoofMeasures, covering: str) -> TakeOff:
    """The take-off of a roof, worked out once for all jobs with its like."""
    return worked_out(take_off(build_roof(measures), COVERINGS[covering]))


def _measures(told: _Told) -> RoofMeasures:
    """What the story tells of the roof; overhangs are 50 mm where the form has them."""
    form = RoofForm(told["form"])
    typed = {f"{e}_overhang": "50 mm" for e in ("eaves", "verge", "top")} | dict(told)
    lengths = {
        key: parse_length(key, typed[key])
        for key in MEASURES_OF[form]
        if key in typed and key != "sides"
    }
    return RoofMeasures(form, sides=told.get("sides"), slopes=(), pitch=None, **lengths)


def _survey(told: _Told, visited: date) -> Survey:
    doubtful = told["old"] == OldKind.CEMENT_SHEET
    return Survey(
        measures=_measures(told),
        covering=CoveringChoice(told["covering"], told["colour"]),
        deck=Deck(
            kind=DeckKind.BOARDS,
            thickness=parse_length("Thickness", "14 mm"),
            profile="tongue and groove",
            cover_width=parse_length("Cover width", "112 mm"),
            seen_above=True,
            seen_below=True,
            nails_inside=False,
            state=DeckState.SOUND,
            works_off=True,
        ),
        old=OldCovering(
            kind=OldKind(told["old"]),
            layers=told["layers"],
            suspicion=Suspicion.BEFORE if doubtful else Suspicion.AFTER,
        ),
        edges=Edges("painted, kept", "sound", "none", "plastic", "none", lined=False),
        around=Around(NONE_THERE, NONE_THERE, NONE_THERE, NONE_THERE),
        access=AccessPlan("ladder and roof ladder", two_people=False, photos="four, on the phone"),
        visited_on=visited,
    )
