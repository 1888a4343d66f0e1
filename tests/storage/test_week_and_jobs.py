"""What the first screen and the lists read is what the book reads, with nothing heavy loaded."""

import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from domain.errors import HeadlapError, Refused
from domain.estimate.quoting import option_total
from domain.job import Ending, Job, Stage
from domain.money import Pence
from domain.trader import Trader
from domain.week import WeekLine
from storage import week_and_jobs
from storage.book import Book
from storage.week_and_jobs import JobLine, find_jobs, read_week
from tests import builders
from tests.architecture.sources import ROOT
from tests.storage.all_sorts import give_back_what_is_over
from tests.storage.books import enquired, opened, query, undo
from tests.storage.steps import TODAY, Step, steps, take

GROUPS: tuple[Stage | Ending, ...] = (*Stage, *Ending)
HEAVY = {"sqlmodel", "sqlalchemy", "pydantic", "alembic", "pint", "numpy"}
AT_A_GLANCE = """
import sys
from datetime import date
from pathlib import Path
from storage.week_and_jobs import find_jobs, read_week

path = Path(sys.argv[1])
print(len(read_week(path, date(2026, 6, 25)).lines))
print(len(find_jobs(path, "lane")))
print(sum(find_jobs(path, "").counts.values()))
print(*{name.split(".")[0] for name in sys.modules})
"""


@pytest.fixture(scope="module")
def jobs(all_sorts: Path) -> list[Job]:
    """Every job as the book reads it."""
    with opened(all_sorts) as book:
        return all_jobs(book, all_sorts)


def all_jobs(book: Book, path: Path) -> list[Job]:
    return [book.job(key) for (key,) in query(path, "SELECT id FROM job ORDER BY id")]


def gross(job: Job) -> Pence | None:
    """What the quote that counts asks for: its accepted or its first option."""
    if job.quote is None:
        return None
    return option_total(job.quote.accepted or job.quote.options[0]).gross


def days(job: Job) -> Iterator[date]:
    """The days on which something happened that the week tells of."""
    yield from (booked.day for booked in job.days)
    yield from (record.on for record in (job.stripping, job.laying) if record)
    yield from (quote.sent_on for quote in job.quotes if quote.sent_on)
    yield from (quote.acceptance.on for quote in job.quotes if quote.acceptance)
    yield from (document.issued_on for document in job.documents)
    yield from (payment.received_on for payment in job.payments)


def week_lines(jobs: list[Job], since: date) -> tuple[WeekLine, ...]:
    """The jobs of a week, worked out the long way."""
    return tuple(
        builders.week_line(job, quote_gross=gross(job))
        for job in jobs
        if (job.ended is None and (job.stage is not Stage.SIGNED_OFF or job.invoice is None))
        or job.owed
        or (job.ended is not None and job.credit > 0)
        or (job.ended is None and any(snag.done_on is None for snag in job.snags))
        or any(day >= since for day in days(job))
    )


def job_line(job: Job) -> JobLine:
    return JobLine(
        id=job.id or 0,
        ref=job.ref,
        place=job.site.place,
        customer=job.customer.name,
        stage=job.stage,
        ended=job.ended,
        days=tuple(sorted(booked.day for booked in job.days)),
        gross=gross(job),
        owed=job.owed,
    )


def test_the_book_is_varied_enough(jobs: list[Job]) -> None:
    assert {job.ended or job.stage for job in jobs} == set(GROUPS)
    assert any(job.owed for job in jobs)
    assert any(payment.unallocated for job in jobs for payment in job.payments)
    quotes = [job.quote for job in jobs if job.quote]
    assert any(len(quote.options) == 2 and quote.accepted == quote.options[1] for quote in quotes)


@pytest.mark.parametrize(
    ("today", "first"),
    [
        (TODAY, None),
        (TODAY, date(2026, 6, 1)),
        (TODAY, date(2026, 7, 6)),
        (date(2026, 7, 8), None),
        (date(2026, 8, 14), None),
        (date(2026, 8, 14), date(2026, 6, 22)),
    ],
)
def test_the_week_is_what_the_book_reads(
    all_sorts: Path, jobs: list[Job], today: date, first: date | None
) -> None:
    read = read_week(all_sorts, today, first)
    shown, monday = first or today, today - timedelta(days=today.weekday())
    since = min(shown, monday)
    assert read.lines == week_lines(jobs, since)
    with opened(all_sorts) as book:
        assert read.trader == book.trader()
        last = max(shown, today) + timedelta(days=21)
        assert read.forecasts == book.forecasts(since, last)


@settings(max_examples=6)
@given(
    taken=steps(most=12),
    undone=st.lists(st.integers(1, 14), max_size=3),
    ahead=st.integers(-21, 60),
)
def test_the_week_and_the_list_keep_to_the_book_whatever_was_done(
    all_sorts: Path, taken: list[Step], undone: list[int], ahead: int
) -> None:
    path = all_sorts.with_name("glanced at.headlap")
    shutil.copy(all_sorts, path)
    with opened(path) as book:
        for step in taken:
            with suppress(HeadlapError):
                take(book, step)
        for job_id in undone:
            with suppress(HeadlapError):
                undo(book, job_id)
        monday, jobs = date(2026, 6, 22), all_jobs(book, path)
        first = monday + timedelta(days=ahead)
        assert read_week(path, TODAY).lines == week_lines(jobs, monday)
        assert read_week(path, TODAY, first).lines == week_lines(jobs, min(first, monday))
        found = find_jobs(path, "")
        assert list(found) == [job_line(job) for job in reversed(jobs)]
        assert found.counts == Counter(job.ended or job.stage for job in jobs)
    path.unlink()


@pytest.mark.parametrize("typed", ["quay_side", "Quay\x00_side", "\x1bquay_\u202eside"])
def test_a_search_reads_what_is_typed_as_it_would_be_saved(all_sorts: Path, typed: str) -> None:
    assert [line.place for line in find_jobs(all_sorts, typed)] == ["100 % Quay_side"]
    assert len(find_jobs(all_sorts, f"{typed}\x00 nowhere")) == 0


def test_what_is_over_and_paid_leaves_the_week(all_sorts: Path) -> None:
    soon = {line.place for line in read_week(all_sorts, TODAY).lines}
    later = {line.place for line in read_week(all_sorts, date(2026, 8, 14)).lines}
    assert soon - later == {"Nowhere Else", "Station Road"}
    assert "Nowhere" not in soon


def test_a_job_that_is_paid_stays_until_its_snags_are_put_right(all_sorts: Path) -> None:
    path = all_sorts.with_name("snag.headlap")
    shutil.copy(all_sorts, path)
    places = {line.place for line in read_week(path, date(2026, 8, 14)).lines}
    assert "Long Done" in places
    with opened(path) as book:
        (job,) = (job for job in all_jobs(book, path) if job.site.place == "Long Done")
        book.save_snag(
            give_back_what_is_over(book, job), replace(job.snags[0], done_on=builders.DUE)
        )
    assert "Long Done" not in {line.place for line in read_week(path, date(2026, 8, 14)).lines}


def test_a_book_of_no_jobs_has_a_week(path: Path) -> None:
    with opened(path):
        read = read_week(path, TODAY)
    assert (read.lines, read.forecasts, read.trader) == ((), (), Trader())


@pytest.mark.parametrize("group", [None, *GROUPS])
def test_the_list_is_what_the_book_reads(
    all_sorts: Path, jobs: list[Job], group: Stage | Ending | None
) -> None:
    wanted = [job_line(job) for job in jobs if group in (None, job.ended or job.stage)]
    assert list(find_jobs(all_sorts, "", group)) == wanted[::-1]


def test_the_counts_are_those_of_the_list(all_sorts: Path, jobs: list[Job]) -> None:
    assert find_jobs(all_sorts, "").counts == Counter(job.ended or job.stage for job in jobs)
    for group in GROUPS:
        found = find_jobs(all_sorts, "adeyemi", group)
        assert found.counts.get(group, 0) == len(found)


@pytest.mark.parametrize(
    ("words", "places"),
    [
        ("green", ["Green Lane", "The Green"]),
        ("GREEN the", ["The Green"]),
        ("  green\tlane ", ["Green Lane"]),
        ("green quay", []),
        ("adeyemi nook", ["O'Brien's “Nook” \\ 42"]),
        ("0008", ["Old Quay"]),
        ("8", ["Old Quay"]),
        ("42", ["O'Brien's “Nook” \\ 42"]),
        ("zoe", ["Zoë's"]),
        ("ZOË", ["Zoë's"]),
        ("zoe\u0308", ["Zoë's"]),
        ("ÆGIR olafsson", [""]),
        ("%", ["100 % Quay_side"]),
        ("_", ["100 % Quay_side"]),
        ("quay_", ["100 % Quay_side"]),
        ("o%n", []),
        ("\\", ["O'Brien's “Nook” \\ 42"]),
        ("'", ["O'Brien's “Nook” \\ 42", "Zoë's"]),
        ("“nook”", ["O'Brien's “Nook” \\ 42"]),
        ('"', []),
        ("[/]", []),
        ("q?ay", []),
        ("[q]uay", []),
        ("gre*n", []),
        ("*", []),
        ("gre\0en", ["Green Lane", "The Green"]),
        ("x" * 60_000, []),
        (" ".join(["green", "the"] * 20), ["The Green"]),
        ("😀", []),
        ("\ud800", []),
        ("' OR 1=1 --", []),
    ],
)
def test_jobs_are_found_by_every_word_whatever_case_and_accents(
    all_sorts: Path, words: str, places: list[str]
) -> None:
    found = find_jobs(all_sorts, words)
    assert [line.place for line in reversed(found)] == places
    assert sum(found.counts.values()) == len(places)


@pytest.mark.parametrize("place", ["Row [2] * 3", "Why Not?", "[[", "]*["])
def test_a_place_is_found_by_signs_that_other_searches_give_a_meaning(
    book: Book, path: Path, place: str
) -> None:
    enquired(book, "Row 2 3 Why Not")
    enquired(book, place)
    assert [line.place for line in find_jobs(path, place)] == [place]


def test_a_line_that_jobs_came_or_went_before_is_not_taken_for_another(
    book: Book, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(week_and_jobs, "_PAGE", 1)
    enquired(book, "Mill Row")
    enquired(book, "Green Lane")
    found = find_jobs(path, "")
    enquired(book, "Quarry Row")
    assert found[0].place == "Green Lane"  # read with those that were found
    with pytest.raises(Refused, match="no longer in the book"):
        found[1]
    assert [line.place for line in find_jobs(path, "")] == ["Quarry Row", "Green Lane", "Mill Row"]


def test_an_accent_may_be_kept_as_a_sign_of_its_own(book: Book, path: Path) -> None:
    enquired(book, "Cafe\u0301 Noir")
    assert [line.place for line in find_jobs(path, "café NOIR")] == ["Cafe\u0301 Noir"]


def test_nothing_heavy_is_loaded_to_read_at_a_glance(all_sorts: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-c", AT_A_GLANCE, all_sorts],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    shown, found, counted, loaded = run.stdout.splitlines()
    assert (shown, found, counted) == ("13", "2", "14")
    assert set(loaded.split()) & HEAVY == set()
