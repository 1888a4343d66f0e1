"""Ordered on … for …; and what of it is here."""

from collections.abc import Awaitable, Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from domain.contacts import read_telephone
from domain.days.calendar import show_date, working_day
from domain.days.dates import read_date
from domain.errors import Refused
from domain.estimate.delivery import place_of, places_of
from domain.estimate.ordered import Merchant, Ordered
from domain.estimate.ordering import MerchantList
from domain.quantity import read_count
from domain.trader import Trader
from tui.frame.safe_text import one_line
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_EXPECTED = Field("expected", "Comes on", example="mon, or 3 Dec", takes=Takes.COMING)
_PLACE = "place"
_PHONE = Field("phone", "Telephone", example="01632 960117")


@dataclass(frozen=True, slots=True)
class Placed:
    """How lists were ordered."""

    expected_on: date
    deliver_to: str


def ordered_dialog(
    lists: Sequence[MerchantList],
    trader: Trader,
    merchant: Merchant,
    today: date,
    save: Callable[[Placed], Awaitable[Any]],
) -> FormDialog[Placed]:
    """Ask for the day, and where it goes: to the trader, to one of the jobs, or collected.

    ``merchant`` is what is known of the first of them; where the last list went stands chosen.
    """
    jobs = {job.job_id: job for each in lists for job in each.jobs}
    first = min(jobs.values(), key=lambda job: job.day)
    where, places, chosen = _where(lists, trader, merchant)

    def read(values: dict[str, str]) -> Placed:
        expected = read_date(_EXPECTED.id, values[_EXPECTED.id], today)
        if expected < today:
            raise Refused(_EXPECTED.id, expected, "Give the day it comes: today or later.")
        return Placed(expected, _chosen(values, places))

    others = ", ".join(one_line(job.place) for job in jobs.values() if job is not first)
    also = f" Also for {others}." if others else ""
    before = working_day(first.day, -1, trader.working_days, trader.nation)
    names = " and ".join(one_line(each.merchant) or "the merchant" for each in lists)
    return FormDialog(
        f"Ordered at {names}",
        (_EXPECTED, where),
        read,
        save,
        words=f"First needed at {one_line(first.place)} on {show_date(first.day)}.{also}",
        values={_EXPECTED.id: show_date(max(before, today)), where.id: chosen},
    )


def place_dialog(
    given: MerchantList,
    trader: Trader,
    merchant: Merchant,
    save: Callable[[str], Awaitable[Any]],
) -> FormDialog[str]:
    """Ask where a list goes, before it is ordered: its paper and its words say it."""
    where, places, chosen = _where([given], trader, merchant)
    number = len(given.jobs)
    whose = {1: "its job", 2: "both jobs"}.get(number, f"all {number} jobs")
    return FormDialog(
        f"{one_line(given.merchant) or 'The merchant'}: where does it go?",
        (where,),
        lambda values: _chosen(values, places),
        save,
        words=f"One place, for {whose}.",
        values={where.id: chosen},
    )


def _where(
    lists: Sequence[MerchantList], trader: Trader, merchant: Merchant
) -> tuple[Field, dict[str, str], str]:
    """The field, what each of its words stands for, and which of them is chosen at first."""
    own = trader.address.strip()
    places = {one_line(words): place for words, place in places_of(lists, own).items()}
    usual = place_of(lists[0], own, merchant)
    chosen = next(words for words, place in places.items() if place == usual)
    return Field(_PLACE, "Where to", choices=tuple(places)), places, chosen


def _chosen(values: Mapping[str, str], places: Mapping[str, str]) -> str:
    if values[_PLACE] not in places:
        raise Refused(_PLACE, values[_PLACE], "Choose one with the arrow keys.")
    return places[values[_PLACE]]


def other_day_dialog(
    lines: Sequence[Ordered], today: date, save: Callable[[date], Awaitable[Any]]
) -> FormDialog[date]:
    """Ask for another day of delivery."""

    def read(values: dict[str, str]) -> date:
        expected = read_date(_EXPECTED.id, values[_EXPECTED.id], today)
        if expected < today:
            raise Refused(_EXPECTED.id, expected, "Give the day it comes: today or later.")
        return expected

    return FormDialog(
        f"{one_line(lines[0].merchant) or 'The merchant'}: another day",
        (_EXPECTED,),
        read,
        save,
        values={_EXPECTED.id: show_date(lines[0].expected_on)},
    )


def telephone_dialog(
    merchant: Merchant, save: Callable[[Merchant], Awaitable[Any]]
) -> FormDialog[Merchant]:
    """Ask for the telephone number of a merchant."""

    def read(values: dict[str, str]) -> Merchant:
        return replace(merchant, phone=read_telephone(_PHONE.id, values[_PHONE.id]))

    return FormDialog(
        f"Telephone of {one_line(merchant.name)}",
        (_PHONE,),
        read,
        save,
        values={_PHONE.id: merchant.phone},
    )


def part_dialog(
    lines: Sequence[Ordered], save: Callable[[Mapping[int, int]], Awaitable[Any]]
) -> FormDialog[Mapping[int, int]]:
    """Ask how many packs of each item are here."""

    def unit(line: Ordered) -> str:
        colour = f", {one_line(line.colour)}" if line.colour else ""
        return f"of {line.to_come}{colour}"

    fields = tuple(
        Field(
            f"came-{line.id}",
            line.material.words,
            unit(line),
            takes=Takes.COUNT,
        )
        for line in lines
    )

    def read(values: dict[str, str]) -> Mapping[int, int]:
        came = {
            line.id or 0: read_count(
                field.id, values[field.id] or "0", "how many are here, such as 2", most=line.to_come
            )
            for line, field in zip(lines, fields, strict=True)
        }
        if not any(came.values()):
            raise Refused(fields[0].id, "0", "Give how many are here, or press Escape.")
        return {number: packs for number, packs in came.items() if packs}

    return FormDialog(
        "What is here?",
        fields,
        read,
        save,
        words="What is here goes into stock; what is left empty is still to come.",
    )
