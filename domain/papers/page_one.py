"""Page one of the paper that goes up the ladder: who and where, what can hurt, when not to lay."""

from collections.abc import Iterator
from decimal import Decimal
from math import ceil, floor

from domain.checks.reminders import reminders_on_the_roof
from domain.checks.safe_to_strip import asbestos_stop
from domain.job import AROUND_WORDS, DeckState, Job, OldCovering, OldKind, Survey
from domain.papers.blocks import Block, Words
from domain.papers.shared_parts import lines_of, on_one_line, sentence
from domain.quantity import show_amount, to_decimal
from domain.takeoff.roof_takeoff import TakeOff
from domain.tone import Tone
from domain.trader import WeatherLimits


def head_of(job: Job, takeoff: TakeOff) -> tuple[str, ...]:
    """Place, customer with telephone, address, access and the roof, line by line."""
    customer = job.customer
    who = ", ".join(filter(None, (customer.name.strip(), customer.phone.strip())))
    address = on_one_line(job.site.address or customer.address)
    access = job.site.access.strip()
    return lines_of(
        job.site.place,
        who,
        address if address != job.site.place else "",
        f"Access: {on_one_line(access)}" if access else "",
        _roof(job, takeoff),
    )


def page_one(job: Job, takeoff: TakeOff, limits: WeatherLimits) -> Iterator[Block]:
    """What is read before the first foot is on the ladder."""
    survey = job.survey
    stop = asbestos_stop(survey.old if survey else OldCovering())
    if stop:
        yield Words(stop, "STOP", Tone.STOP)
    found = tuple(found_here(survey))
    told = [f"Found here: {'; '.join(found)}."] if found else []
    here = " ".join((*told, *takeoff.cautions))
    yield Words("\n".join(reminders_on_the_roof(here)), "Safety", Tone.CAUTION)
    yield Words("\n".join(_weather(limits)), "Weather")


def found_here(survey: Survey | None) -> Iterator[str]:
    """What the survey found on this roof that can hurt, in a few words each."""
    if survey is None:
        return
    deck, old = survey.deck, survey.old
    if deck.state is DeckState.UNSAFE:
        yield "DECK UNSAFE TO LOAD"
    if deck.works_off is False:
        yield "deck not safe to stand on, work from the side or from boards"
    if old.kind is OldKind.CEMENT_SHEET:
        yield "cement sheet, always fragile"
    if survey.access.two_people:
        yield "two people needed"
    if deck.nails_inside:
        yield "nails show inside"
    for name, words in AROUND_WORDS.items():
        if there := survey.around.found(name):
            yield f"{words}: {there}"


def _weather(limits: WeatherLimits) -> Iterator[str]:
    """When to lay, when to come down, what cold is; common practice but for the greatest wind."""
    # Forecasts give whole miles an hour: of these, the first that is too strong.
    gusts = ceil(limits.lay_mph * limits.gust_factor)
    most_gusts = floor(limits.never_mph * limits.gust_factor) + 1
    least, lay, never = (
        f"{limit.normalize():f}" for limit in (limits.least_c, limits.lay_mph, limits.never_mph)
    )
    yield (
        f"Lay only in the dry, on a dry deck ({limits.drying_min} minutes after rain), with wind "
        f"under {lay} mph, gusts under {gusts}. Come down at over {never} mph, or gusts of "
        f"{most_gusts}."
    )
    yield (
        f"At {least} °C or below lay nothing. On a cold day above it: strips and rolls indoors "
        "overnight, every tab sealed by hand with mastic."
    )


def _roof(job: Job, takeoff: TakeOff) -> str:
    roof = takeoff.roof
    area = show_amount(to_decimal(roof.area / 10**6), "m²")
    pitch = f"{to_decimal(roof.pitch.degrees).quantize(Decimal('0.1'))}°" if roof.pitch else ""
    chosen = job.survey.covering if job.survey else None
    parts = (sentence(roof.form.words), area, pitch, takeoff.covering.words)
    return ", ".join(filter(None, (*parts, chosen.colour if chosen else "")))
