"""What was done is told field by field, by the labels of the forms."""

from collections.abc import Iterable
from pathlib import Path

import pytest

from domain.changes import Change
from domain.scope import ListName
from storage.field_words import LABELS
from tests.storage.books import opened, query
from tui.job.enquiry.enquiry_fields import WHOLE
from tui.job.survey.survey_fields import FIELDS as SURVEY
from tui.widgets.field_row import Field
from tui.your_details.details_fields import FIELDS as DETAILS


def _all_told(path: Path) -> list[Change]:
    jobs = [job for (job,) in query(path, "SELECT DISTINCT job_id FROM action WHERE job_id > 0")]
    with opened(path) as book:
        entries = [entry for of in (*jobs, *ListName) for entry in book.history(of)]
    return [change for entry in entries for change in entry.changes]


def test_no_field_is_told_as_the_book_keeps_it(all_sorts: Path) -> None:
    told = _all_told(all_sorts)
    assert len(told) > 100
    for change in told:
        values = f"{change.before} {change.after}"
        assert change.label, change
        assert "_" not in change.label, change
        assert not any(sign in values for sign in ('{"', '["', '":')), change
        assert "None" not in values, change
        assert change.before != change.after


@pytest.mark.parametrize(
    ("tables", "fields"),
    [(("survey",), SURVEY), (("customer", "site", "job"), WHOLE), (("trader",), DETAILS)],
)
def test_fields_are_called_as_in_the_form(tables: tuple[str, ...], fields: Iterable[Field]) -> None:
    known = {field.label.casefold() for field in fields}
    of_no_field = {"state of the deck", "why", "ended as", "asked who they are"}
    of_no_field |= {"told on", "kept of the deposit", "kept for", "vat is", "agreed in writing on"}
    own = {label for path, label in LABELS.items() if path.partition(".")[0] in tables}
    assert {label.casefold() for label in own} - known <= of_no_field
