"""What was agreed, on paper: the work and its price, the last day to cancel, the text of a yes."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from domain.errors import NotNow
from domain.job import Job, Means, Stage
from domain.papers.blocks import Paper
from domain.papers.confirmation_paper import confirmation_paper
from tests import builders
from tests.domain.papers.reading import words_of
from tests.priced import accepted, quote

ON = date(2026, 6, 1)


def _agreed(**yes: Any) -> Job:
    made = accepted(quote(builders.trader(), deposit=100_00))
    agreed = replace(made, acceptance=builders.acceptance(on=ON, notice_on=ON, **yes))
    return builders.job_at(Stage.LAID, quotes=(agreed,))


def _paper(**yes: Any) -> Paper:
    return confirmation_paper(_agreed(**yes), builders.trader())


def _short(paper: Paper) -> str:
    assert paper.letter is not None
    return paper.letter.short


def test_it_tells_the_day_after_the_last_materials_came() -> None:
    # Agreed 1 Jun 2026, materials 24 Jun: 8 Jul 2026; Consumer Contracts Regulations 2013 reg. 30:
    # derived in the published checks.
    told = words_of(_paper(materials_on=date(2026, 6, 24)))
    assert "You can cancel until the end of Wed 8 Jul 2026." in told


def test_until_they_came_it_names_no_day() -> None:
    told = words_of(_paper(materials_on=None))
    assert "14 days after we agree, or after the last of the materials reach you" in told
    assert "15 Jun" not in told
    assert "8 Jul" not in told


def test_it_holds_what_was_agreed_and_where_to_turn() -> None:
    job = _agreed()
    assert job.quote is not None
    assert job.quote.accepted is not None
    told = words_of(confirmation_paper(job, builders.trader()))
    for words in (
        "Strip off the old felt and take it away.",
        "£100.00 deposit before we start",
        "Booked for Wed 24 Jun 2026.",
        "If something is not right",
        "By law what we supply must be as agreed",
        "in addition to your legal rights",
    ):
        assert words in told, words


@pytest.mark.parametrize(
    ("yes", "asks"),
    [
        ({"means": Means.SPOKEN, "request_means": None}, True),
        ({"means": Means.SIGNED, "early_request_on": ON}, False),
    ],
)
def test_for_a_spoken_yes_the_message_holds_the_words_to_reply(
    yes: dict[str, Any], asks: bool
) -> None:
    words = _short(_paper(**yes))
    assert ("please reply: “Please start before my right to cancel ends." in words) is asks


def test_before_a_yes_there_is_nothing_to_confirm() -> None:
    with pytest.raises(NotNow, match="no accepted quote yet"):
        confirmation_paper(builders.job_at(Stage.SURVEY), builders.trader())
