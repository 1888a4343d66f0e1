"""What is typed of a quote and what is shown of it, without an app."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.coverings.materials import Material
from domain.errors import NotNow, Refused
from domain.estimate.quoting import (
    at_own_price,
    basis_of,
    cost_and_margin,
    kept_basis,
    option_total,
    price_job,
)
from domain.estimate.supplies import PricesAndStock
from domain.job import CustomerKind, MadeAt, Means, Option, Quote, Stage
from domain.money import read_money, show_money
from domain.papers.blocks import Details, Offers, Paper, Steps, Table, Words
from domain.papers.quote_paper import covering_words, quote_paper
from domain.papers.since_sent import since_sent
from domain.tone import Tone
from domain.trader import Rates
from tests import builders, priced
from tests.tui.books.an_enquiry import NASTY
from tui.job.quote.quote_fields import (
    acceptance_fields,
    acceptance_typed,
    pricing_typed,
    read_acceptance,
    read_pricing,
    read_sending,
)
from tui.job.quote.quote_shown import customer_part, own_part, quote_standing
from tui.papers.as_text import plain_text
from tui.widgets.field_values import date_typed

TODAY = date(2026, 6, 10)
SOURCES = PricesAndStock(priced.PRICES, (), builders.VISIT)
JOB = builders.ready_for(Stage.QUOTED, quotes=())
YES = {
    "who": "Mrs Adeyemi",
    "on": "8 Jun",
    "means": Means.TEXT.value,
    "made_at": MadeAt.AWAY.value,
    "notice_on": "8 Jun",
    "early_request_on": "",
    "knows_right_ends": "yes",
}


def nails_of(option: Option) -> Decimal:
    basis = kept_basis(option.basis)
    assert basis is not None
    return max(supply.needed for supply in basis.supplies)  # all else is counted in tens


def test_the_draft_is_that_of_the_worked_example() -> None:
    made = price_job(JOB, builders.trader(), SOURCES, Decimal(12))
    fewest = priced.quote()
    assert replace(made, options=()) == replace(fewest, options=())
    (option,), (by_fewest,) = made.options, fewest.options
    # The plan to work by takes three nails more than the fewest strips do, of the same box.
    assert option.lines == by_fewest.lines
    assert [nails_of(each) for each in (option, by_fewest)] == [432, 429]
    assert option.plans
    priced_job = replace(JOB, quotes=(made,))
    assert pricing_typed(priced_job) == {"miles": "12", "deposit": "", "own_price": ""}
    own = at_own_price(JOB, made, 400_00)
    typed = pricing_typed(replace(JOB, quotes=(own,)))
    assert typed["own_price"] == "400.00"
    assert read_pricing(typed).own_price == 400_00
    rows = dict(row for block in own_part(JOB, own).blocks if isinstance(block, Details)
                for row in block.rows)  # fmt: skip
    worked_out = option_total(made.options[0]).gross
    assert rows["Your own price"] == f"+{show_money(400_00 - worked_out)}"
    assert "own price" not in plain_text(quote_paper(JOB, own, builders.trader()))


def test_the_customers_part_holds_nothing_of_ones_own() -> None:
    quote = priced.quote(priced.registered())
    job = replace(JOB, quotes=(quote,))
    shown = plain_text(customer_part(job, quote, priced.registered()))
    assert "Total, including VAT" in shown
    for own in ("Cost", "argin", "arkup", "ontingency"):
        assert own not in shown


def test_a_starting_price_is_named_to_the_trader_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    unsure = tuple(replace(p, starting=p.material == Material.SHINGLE_NAILS) for p in priced.PRICES)
    monkeypatch.setattr(priced, "PRICES", unsure)
    quote, trader = priced.quote(), builders.trader()
    job = replace(JOB, quotes=(quote,))
    own = plain_text(own_part(job, quote))
    assert "▲ Starting figure – change to yours  shingle nails" in own
    for shown in (customer_part(job, quote, trader), quote_paper(job, quote, trader)):
        assert "tarting figure" not in plain_text(shown)


def test_what_is_put_on_the_cost_adds_up_to_the_price() -> None:
    rows = _own_rows(own_part(JOB, priced.quote(builders.trader(rates=Rates()))))
    assert [label for label, _ in rows] == [
        "Cost", "Contingency, 5 %", "Markup, 15 % on materials", _UNSURE, _OLD, "Price", "Margin",
    ]  # fmt: skip
    pence = [_pence(amount) for label, amount in rows if label not in (_UNSURE, _OLD)]
    assert sum(pence[:3]) == pence[3]
    assert pence[1] + pence[2] == pence[4]


def test_of_several_options_each_has_what_it_comes_to_and_what_it_leaves() -> None:
    quote = priced.three_options()
    job = replace(JOB, quotes=(quote,))
    least = option_total(quote.options[2]).gross
    assert quote_standing(job, quote)[0].startswith(f"Version 1, from {show_money(least)}. Draft,")
    choice = customer_part(job, quote, builders.trader()).blocks[0]
    assert choice == Details(
        tuple((words, show_money(option_total(o).gross)) for words, o in _named(quote))
    )
    own = own_part(JOB, quote).blocks
    figures = [block for block in own if isinstance(block, Details)]
    assert [each.heading for each in figures] == [words for words, _ in _named(quote)]
    for each, (_, option) in zip(figures, _named(quote), strict=True):
        margin = cost_and_margin(option).pence
        assert _pence(dict(each.rows)["Margin"]) == margin
    made_of = [block.heading for block in own if isinstance(block, Table)]
    assert made_of == [f"What makes up the cost: {words}" for words, _ in _named(quote)]


def test_once_one_is_taken_it_stands_alone() -> None:
    taken = replace(
        priced.accepted(priced.three_options()), acceptance=builders.acceptance(option_id=3)
    )
    alone = priced.quote(takeoffs=(priced.in_felt(),))
    job = replace(JOB, quotes=(taken,))
    shown = customer_part(job, taken, builders.trader())
    assert shown == customer_part(job, alone, builders.trader())
    assert shown.title == "Felt, slate grey"
    own = [each for each in own_part(job, taken).blocks if each != since_sent(job, taken)]
    assert own == [*own_part(JOB, alone).blocks]
    whole = show_money(option_total(alone.options[0]).gross)
    assert quote_standing(job, taken)[0].startswith(f"Version 1, {whole}. Accepted by Mrs Adeyemi")


def test_the_minimum_charge_is_told_apart_and_boards_carry_no_contingency() -> None:
    trader = builders.trader(rates=replace(builders.trader().rates, minimum_charge=500_00))
    deck = replace(builders.survey().deck, replace_m=Decimal(100))
    job = replace(JOB, survey=builders.survey(deck=deck))
    for made in (priced.quote(trader), priced.quote(job=job)):
        rows = dict(_own_rows(own_part(JOB, made)))
        put_on = sum(_pence(rows[label]) for label in rows if label not in _NOT_PUT_ON)
        assert put_on == _pence(rows["Margin"])
    assert "Made up to minimum charge" in dict(_own_rows(own_part(JOB, priced.quote(trader))))


def test_a_quote_whose_basis_cannot_be_read_still_shows_what_it_leaves() -> None:
    unread = builders.sent(options=(builders.option(basis="{}"),), deposit=5_00)
    assert basis_of(unread) is None
    assert [label for label, _ in _own_rows(own_part(JOB, unread))] == [
        "Cost", "Price", "Margin",
    ]  # fmt: skip
    typed = pricing_typed(replace(JOB, quotes=(unread,)))
    assert typed == {"miles": "", "deposit": "5.00", "own_price": ""}


def test_a_householder_reads_the_whole_with_vat_and_a_business_net() -> None:
    quote = priced.quote(priced.registered())
    net = sum(line.price for line in quote.options[0].lines)
    job = replace(JOB, quotes=(quote,))
    business = replace(job, customer=builders.customer(kind=CustomerKind.BUSINESS))
    assert quote_standing(business, quote)[0].startswith(f"Version 1, £{net / 100:.2f}.")
    assert not quote_standing(job, quote)[0].startswith(f"Version 1, £{net / 100:.2f}.")


def test_each_version_is_told_by_what_became_of_it() -> None:
    taken = builders.sent(acceptance=builders.acceptance(who=NASTY))
    draft = builders.draft(number=2, id=2)
    job = replace(JOB, quotes=(taken, draft))
    words, tone = quote_standing(job, draft)
    assert tone is Tone.CAUTION
    assert words.endswith("Version 1 is the accepted one.")
    older = customer_part(job, draft, builders.trader()).blocks[-1]
    assert isinstance(older, Words)
    assert NASTY in older.text
    assert quote_standing(job, builders.sent())[0].endswith("valid until Sat 4 Jul 2026.")


def test_the_part_begins_with_the_covering_and_has_the_work_and_one_price() -> None:
    quote = priced.quote()
    part = customer_part(replace(JOB, quotes=(quote,)), quote, builders.trader())
    assert part.title == "Square butt shingles, slate grey"
    assert [type(block) for block in part.blocks] == [Steps, Offers]


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ({"miles": ""}, "miles"),
        ({"miles": "-1"}, "miles"),
        ({"miles": "9" * 400}, "miles"),
        ({"miles": NASTY}, "miles"),
        ({"deposit": "some"}, "deposit"),
        ({"deposit": "-1"}, "deposit"),
    ],
)
def test_pricing_refuses_by_name(typed: dict[str, str], label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_pricing({"miles": "12", "deposit": ""} | typed)
    assert refused.value.field == label


@pytest.mark.parametrize(
    ("sent_on", "valid_days", "label"),
    [
        ("tomorrow", "30", "sent_on"),
        ("2 Jun", "30", "sent_on"),
        (NASTY, "30", "sent_on"),
        ("today", "0", "valid_days"),
        ("today", "a month", "valid_days"),
    ],
)
def test_sending_refuses_by_name(sent_on: str, valid_days: str, label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_sending({"sent_on": sent_on, "valid_days": valid_days}, {}, builders.VISIT, TODAY)
    assert refused.value.field == label


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ({"who": " "}, "who"),
        ({"on": ""}, "on"),
        ({"on": "tomorrow"}, "on"),
        ({"on": "3 Jun"}, "on"),
        ({"means": ""}, "means"),
        ({"made_at": ""}, "made_at"),
        ({"notice_on": NASTY}, "notice_on"),
        ({"notice_on": "tomorrow"}, "notice_on"),
        ({"early_request_on": "+2", "request_means": "text"}, "early_request_on"),
        ({"early_request_on": "8 Jun"}, "request_means"),  # only spoken: it does not count
        ({"means": "signed", "ticked": ""}, "ticked"),
        ({"materials_on": "tomorrow"}, "materials_on"),
    ],
)
def test_a_yes_refuses_by_name(typed: dict[str, str], label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_acceptance(YES | typed, builders.sent(), TODAY)
    assert refused.value.field == label


def test_a_yes_is_read_back_unchanged() -> None:
    acceptance = read_acceptance(YES, builders.sent(), TODAY)
    assert acceptance == builders.acceptance(
        means=Means.TEXT, knows_right_ends=True, request_means=None, materials_on=None
    )
    later = {"early_request_on": "9 Jun", "request_means": "e-mail", "materials_on": "10 Jun"}
    for more in ({}, later, {"urgent_why": "tree through the roof"}):
        acceptance = read_acceptance(YES | more, builders.sent(), TODAY)
        taken = builders.sent(acceptance=acceptance)
        assert read_acceptance(acceptance_typed(JOB, taken), taken, TODAY) == acceptance


@pytest.mark.parametrize("ticked", ["yes", "no"])
def test_a_box_ticked_beside_the_signature_is_the_request_in_writing(ticked: str) -> None:
    signed = YES | {"means": "signed", "ticked": ticked}
    yes = read_acceptance(signed, builders.sent(), TODAY)
    assert (yes.asked_in_writing_on, yes.request_means) == (
        (builders.AGREED, Means.SIGNED) if ticked == "yes" else (None, None)
    )
    taken = builders.sent(acceptance=yes)
    assert acceptance_typed(JOB, taken)["ticked"] == ticked
    at_ours = signed | {"ticked": "", "made_at": MadeAt.PREMISES.value}
    assert read_acceptance(at_ours, taken, TODAY).request_means is None


def test_the_notice_that_came_with_the_quote_is_offered_as_given_then() -> None:
    quote = builders.sent()
    assert acceptance_typed(JOB, quote)["notice_on"] == date_typed(builders.SENT)
    business = replace(JOB, customer=builders.customer(kind=CustomerKind.BUSINESS))
    assert acceptance_typed(business, quote)["notice_on"] == ""
    taken = builders.sent(acceptance=builders.acceptance(notice_on=None))
    assert acceptance_typed(JOB, taken)["notice_on"] == ""  # what is recorded stands


def test_which_covering_is_asked_only_where_there_is_a_choice() -> None:
    several = replace(priced.accepted(priced.three_options()), acceptance=None)
    (who, asked, *others) = acceptance_fields(JOB, several)
    assert asked.choices == ("square butt", "hexagonal", "felt")
    assert (who, *others) == acceptance_fields(JOB, builders.sent())
    assert "covering" not in acceptance_typed(JOB, several)
    with pytest.raises(Refused, match=r"Covering is empty\. Pick the one they chose\."):
        read_acceptance(YES | {"covering": ""}, several, TODAY)
    taken = read_acceptance(YES | {"covering": "felt"}, several, TODAY)
    assert taken.option_id == 3
    kept = replace(several, acceptance=taken)
    assert read_acceptance(acceptance_typed(JOB, kept), kept, TODAY) == taken


def test_a_business_is_not_asked_about_a_right_it_has_not() -> None:
    business = replace(JOB, customer=builders.customer(kind=CustomerKind.BUSINESS))
    asked = [field.id for field in acceptance_fields(business, builders.sent())]
    assert asked == ["who", "on", "means", "made_at"]
    yes = {key: YES[key] for key in asked}
    assert read_acceptance(yes, builders.sent(), TODAY).notice_on is None


def test_only_a_sent_quote_can_be_accepted() -> None:
    job = replace(JOB, quotes=(builders.sent(), builders.draft(number=2)))
    assert job.newest_sent == builders.sent()
    assert replace(JOB, quotes=(builders.draft(),)).newest_sent is None
    with pytest.raises(NotNow):
        read_acceptance(YES, builders.draft(), TODAY)


_UNSURE = "▲ Starting figure – change to yours"
_OLD = "▲ Price over 90 days old"
_NOT_PUT_ON = ("Cost", "Price", "Margin", _UNSURE, _OLD)


def _named(quote: Quote) -> list[tuple[str, Option]]:
    return [(covering_words(option), option) for option in quote.options]


def _own_rows(paper: Paper) -> tuple[tuple[str, str], ...]:
    details, made_of = paper.blocks
    assert isinstance(details, Details)
    assert isinstance(made_of, Table)
    # What the customer sees in few sums stands here line by line, and comes to the cost.
    assert sum(_pence(row[-1]) for row in made_of.rows) == _pence(dict(details.rows)["Cost"])
    return details.rows


def _pence(amount: str) -> int:
    """The pence in the sum that an amount begins with."""
    return read_money("Amount", amount.partition(", ")[0])


def test_all_that_a_yes_needs_is_asked_for_at_once() -> None:
    quote = priced.three_options()
    fields = acceptance_fields(JOB, quote)
    needed = [each.id for each in fields if each.needed]
    assert needed == ["who", "covering", "on", "means", "made_at"]
