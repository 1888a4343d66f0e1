"""The week on paper: the days, what needs doing tonight, the figures, what is owed by age."""

from collections.abc import Iterator

from domain.days.calendar import show_date, show_hours, show_weekday
from domain.money import show_money
from domain.papers.blocks import Column, Details, Paper, Table, Words
from domain.papers.shared_parts import sentence
from domain.tone import Tone
from domain.week import DayView, Entry, Figures, Week

NOTHING_TONIGHT = "Nothing to do tonight."


def week_paper(week: Week) -> Paper:
    """The seven days, then tonight's list, then the money."""
    return Paper(
        title="Week",
        head=(f"{show_date(week.first)} to {show_date(week.last)}",),
        blocks=(
            Table(
                (Column("Day"), Column("Work"), Column("Weather"), Column("Hours", True)),
                tuple(_day(day) for day in week.days),
            ),
            _tonight(week),
            _figures(week.figures),
            *_by_age(week.figures),
        ),
    )


def _day(view: DayView) -> tuple[str, ...]:
    day = f"{show_weekday(view.day)}{', today' if view.is_today else ''}"
    work = "; ".join(_entry(entry) for entry in view.entries)
    return day, work, view.weather_words, view.hours_words


def _entry(entry: Entry) -> str:
    hours = f" {show_hours(entry.hours)} h" if entry.hours else ""
    return f"{entry.ref} {entry.place}: {entry.task}{hours} ({entry.stage})"


def _tonight(week: Week) -> Table | Words:
    """The list in its order; words of comfort if it is empty."""
    if not week.tonight:
        return Words(NOTHING_TONIGHT, "Tonight", Tone.GOOD)
    return Table(
        (Column("What to do"), Column("Who and where"), Column("Amount", True)),
        tuple(
            (sentence(task.words), task.who, "" if task.amount is None else show_money(task.amount))
            for task in week.tonight
        ),
        "Tonight",
    )


def _by_age(figures: Figures) -> Iterator[Table]:
    """What is owed, by how long it has been overdue; nothing if nothing is."""
    rows = tuple(
        (sentence(owed.words), str(owed.bills), show_money(owed.pence))
        for owed in figures.by_age
        if owed.pence
    )
    if rows:
        columns = (Column("Age"), Column("Invoices", True), Column("Owed", True))
        yield Table(columns, rows, "Owed, by age")


def _figures(figures: Figures) -> Details:
    """What is booked of a week that lies ahead, what was done in any other; then what is owed."""
    done = (
        ("Quoted", show_money(figures.quoted)),
        ("Accepted", show_money(figures.accepted)),
        ("Invoiced", show_money(figures.invoiced)),
        ("Paid", show_money(figures.paid)),
        ("Hours", show_hours(figures.hours)),
    )
    to_come = (
        ("Booked", show_money(figures.booked)),
        ("Hours booked", show_hours(figures.hours_booked)),
        ("To come in", show_money(figures.to_come_in)),
    )
    return Details(
        (
            *(to_come if figures.lie_ahead else done),
            ("Owed in total", show_money(figures.owed)),
            ("Overdue", show_money(figures.late)),
        ),
        "The week's figures",
    )
