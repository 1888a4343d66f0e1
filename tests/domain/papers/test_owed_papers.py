"""The statement of account and the second reminder: what came, what is deducted, what is owed."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from domain.accounts.invoice import invoice_for
from domain.accounts.transfer import OpenInvoice
from domain.job import Document
from domain.papers.reminder_paper import second_reminder
from domain.papers.statement_paper import statement_of, statement_paper
from tests import builders
from tests.priced import accepted, laid_job, quote
from tui.papers.as_text import plain_text


def _bill(**changed: Any) -> Document:
    job = laid_job(accepted(quote(builders.trader())))
    issued = invoice_for(job, builders.trader(), 42, builders.SIGNED).document()
    return replace(issued, id=1, gross=884_20, **changed)


def _statement(document: Document) -> str:
    owing = [OpenInvoice(1, "0001", "Mill Row", document)]
    told = statement_of(builders.customer(), owing, 0, builders.trader(), builders.DUE)
    return plain_text(statement_paper(told, ""))


@pytest.mark.parametrize(
    ("changed", "sums"),
    [
        ({}, ["£884.20", "£0.00", "£884.20"]),
        ({"paid": 100_00}, ["£884.20", "£100.00", "£784.20"]),
        # published check: 884.20 less 125.88 deducted is 758.32 to pay; nothing has come
        ({"cis": 125_88}, ["£884.20", "£0.00", "£125.88", "£758.32"]),
        (
            {"cis": 125_88, "paid": 100_00, "deducted": 20_00},
            ["£884.20", "£80.00", "£125.88", "£678.32"],
        ),
    ],
)
def test_what_a_contractor_deducts_is_not_said_to_have_been_paid(
    changed: dict[str, int], sums: list[str]
) -> None:
    document = _bill(**changed)
    (row,) = (
        line for line in _statement(document).splitlines() if "INV-42" in line and "£" in line
    )
    assert [word for word in row.split() if word.startswith("£")] == sums
    reminder = plain_text(second_reminder(document, builders.DUE + timedelta(days=21)))
    assert ("CIS deduction" in reminder) == ("cis" in changed)
    assert f"To pay {sums[-1]}" in " ".join(reminder.split())
