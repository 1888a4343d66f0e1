"""What the first screen says of a survey is what the checks say of it."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.job import Deck, DeckKind, DeckState, OldCovering, OldKind, Survey, Suspicion
from storage.book import Book
from storage.week_and_jobs import read_week
from tests import builders
from tests.examples import examples
from tests.storage.books import enquired, opened
from tests.storage.steps import TODAY

WHOLE = builders.survey()
yes_no = st.none() | st.booleans()
words = st.sampled_from(("", "  ", "ladder"))
thick = st.sampled_from((None, builders.mm(0), builders.mm(12)))

decks = st.builds(
    Deck,
    kind=st.none() | st.sampled_from(DeckKind),
    thickness=thick,
    profile=words,
    cover_width=thick,
    seen_above=yes_no,
    seen_below=yes_no,
    nails_inside=yes_no,
    state=st.none() | st.sampled_from(DeckState),
    replace_m=st.sampled_from((None, Decimal(0), Decimal("1.2"))),
)
olds = st.builds(
    OldCovering,
    kind=st.none() | st.sampled_from(OldKind),
    layers=st.sampled_from((None, 0, 2)),
    suspicion=st.none() | st.sampled_from(Suspicion),
)


@st.composite
def surveys(draw: st.DrawFn) -> Survey:
    """A survey that answers all but for a part or two, where what is left may do all the same."""
    deck, old = draw(decks), draw(olds)
    kept = draw(st.sets(st.sampled_from(sorted(Deck.__dataclass_fields__)), min_size=6))
    return replace(
        WHOLE,
        deck=replace(deck, **{name: getattr(WHOLE.deck, name) for name in kept}),
        old=draw(st.sampled_from((WHOLE.old, old))),
        access=replace(WHOLE.access, means=draw(st.sampled_from(("ladder", draw(words))))),
    )


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, Book]]:
    path = tmp_path_factory.mktemp("surveys") / "book.headlap"
    with opened(path) as book:
        enquired(book)
        yield path, book


def test_a_whole_survey_is_answered_and_none_is_not(book: tuple[Path, Book]) -> None:
    path, opened_book = book
    assert not read_week(path, TODAY).lines[0].survey_answered
    opened_book.save_survey(opened_book.job(1), WHOLE)
    assert read_week(path, TODAY).lines[0].survey_answered


@examples(60)
@given(survey=surveys())
def test_the_week_knows_whether_a_survey_answers_all_that_is_asked(
    book: tuple[Path, Book], survey: Survey
) -> None:
    path, opened_book = book
    job = opened_book.save_survey(opened_book.job(1), survey)
    expected = builders.week_line(job).survey_answered
    assert read_week(path, TODAY).lines[0].survey_answered == expected
