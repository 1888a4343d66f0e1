from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.days.calendar import show_date
from domain.days.cancellation import ASSUMPTION
from domain.estimate.quoting import option_total
from domain.job import (
    CustomerKind,
    Job,
    LineKind,
    MadeAt,
    OldCovering,
    OldKind,
    Quote,
    Stage,
    Suspicion,
)
from domain.money import read_money, show_money
from domain.papers.blocks import Paper, Ticks, Words
from domain.papers.quote_paper import quote_paper
from domain.tone import Tone
from domain.trader import Rates, Trader
from tests import builders
from tests.domain.papers.reading import tables, totals, words_of
from tests.priced import accepted, quote, registered, three_options

IN_EACH = ["Square butt shingles, slate grey", "Hexagonal shingles, slate grey", "Felt, slate grey"]
BUSINESS = builders.customer(kind=CustomerKind.BUSINESS)


def paper(trader: Trader | None = None, made: Quote | None = None, job: Job | None = None) -> Paper:
    trader = trader or builders.trader()
    job = job or builders.ready_for(Stage.QUOTED)
    return quote_paper(job, made or quote(trader), trader)


def test_who_what_where_and_how_long() -> None:
    sent = replace(quote(), sent_on=builders.SENT, valid_until=builders.VALID_UNTIL)
    words = words_of(paper(made=sent))
    for wanted in ("Quote 0421", "Thorne Shed Roofs", "Robin Thorne", "Mrs Adeyemi", "Birch Lane"):
        assert wanted in words
    assert "Thu 4 Jun 2026" in words
    assert "Sat 4 Jul 2026" in words
    assert "Square butt shingles, slate grey" in words


def test_a_draft_says_so_and_a_revision_has_its_number() -> None:
    assert "Draft, Wed 3 Jun 2026" in words_of(paper())
    assert paper(made=replace(quote(), number=2)).title == "Quote 0421, version 2"


def test_there_is_a_column_of_quantities_only_where_something_is_measured() -> None:
    (table,) = tables(paper())
    assert [column.title for column in table.columns] == ["Description", "Price"]
    survey = builders.survey(deck=replace(builders.survey().deck, replace_m=Decimal("4.2")))
    job = builders.ready_for(Stage.QUOTED, quotes=(), survey=survey)
    (table,) = tables(paper(made=quote(job=job), job=job))
    assert [column.title for column in table.columns] == ["Description", "Quantity", "Price"]
    assert [row[1] for row in table.rows] == ["1 job", "1 job", "4.2 m"]


def test_no_vat_is_spoken_of_by_a_trader_who_is_not_registered() -> None:
    words = words_of(paper(builders.trader(vat_number="980780684")))
    assert "VAT" not in words


def test_a_householder_sees_prices_with_vat_that_add_up() -> None:
    trader = registered()
    made = quote(trader)
    shown = paper(trader, made)
    gross = option_total(made.options[0]).gross
    assert totals(shown) == [("Total, including VAT", show_money(gross))]
    assert sum(read_money("Price", row[-1]) for row in tables(shown)[0].rows) == gross
    assert "Includes VAT at 20 %" in words_of(shown)
    # 14.00 a metre and 20 % (derived).
    assert "£16.80 per metre, including VAT" in words_of(shown)


def test_a_business_sees_net_prices_first() -> None:
    trader = registered()
    made = quote(trader)
    shown = paper(trader, made, builders.ready_for(Stage.QUOTED, customer=BUSINESS))
    whole = option_total(made.options[0])
    assert [amount for _, amount in totals(shown)] == [
        show_money(whole.net),
        show_money(whole.vat_whole),
        show_money(whole.gross),
    ]
    assert sum(read_money("Price", row[-1]) for row in tables(shown)[0].rows) == whole.net
    assert "£14.00 per metre plus VAT at 20 %" in words_of(shown)


@pytest.mark.parametrize("trader", [builders.trader, registered])
@pytest.mark.parametrize("customer", [builders.customer(), BUSINESS])
def test_cost_contingency_and_markup_are_on_no_paper_of_the_customer(
    trader: object, customer: object
) -> None:
    assert callable(trader)
    rates = Rates(contingency=Decimal("7.77"), markup=Decimal("13.13"))
    made = quote(trader(rates=rates))
    job = builders.ready_for(Stage.QUOTED, customer=customer)
    words = words_of(paper(trader(rates=rates), made, job)).casefold()
    costs = {show_money(line.cost) for line in made.options[0].lines if line.cost}
    prices = {show_money(line.price) for line in made.options[0].lines}
    assert costs.isdisjoint(prices)
    for secret in (*costs, "7.77", "13.13", "20.9", "cost", "contingency", "markup", "margin"):
        assert secret not in words


def test_the_deposit_is_named_if_there_is_one() -> None:
    assert "Deposit" not in words_of(paper())
    assert "£100.00 deposit before we start" in words_of(paper(made=quote(deposit=100_00)))


def test_every_option_has_its_lines_and_its_whole() -> None:
    made = three_options()
    shown = paper(made=made)
    assert [table.heading for table in tables(shown)] == IN_EACH
    assert [amount for _, amount in totals(shown)] == [
        show_money(option_total(option).gross) for option in made.options
    ]
    for table, option in zip(tables(shown), made.options, strict=True):
        prices = sum(read_money("Price", row[-1]) for row in table.rows)
        assert prices == option_total(option).gross


def test_one_of_several_is_to_be_chosen_and_ticked_and_all_else_is_said_once() -> None:
    words = words_of(paper(made=three_options()))
    assert "Three coverings to choose from" in words
    assert "Please choose one of these three." in words
    ticks = next(block for block in paper(made=three_options()).blocks if isinstance(block, Ticks))
    assert ticks.rows == tuple((False, covering) for covering in IN_EACH)
    for once in (
        "may be asbestos",
        "within 14 days of the day we agree, and you",
        "per metre",
        "covering ticked",
    ):
        assert words.count(once) == 1
    alone = words_of(paper())
    assert "choose" not in alone
    assert "I accept this quote at the price shown:" in alone


def test_the_covering_that_was_taken_is_named_where_there_was_a_choice() -> None:
    yes = builders.acceptance(option_id=3)
    *as_sent, since = paper(made=replace(accepted(three_options()), acceptance=yes)).blocks
    assert isinstance(since, Words)
    assert "by Mrs Adeyemi: Felt, slate grey." in since.text
    sent = replace(accepted(three_options()), acceptance=None)
    assert tuple(as_sent) == paper(made=sent).blocks


@pytest.mark.parametrize(
    "old",
    [
        OldCovering(OldKind.FELT, 1, Suspicion.BEFORE),
        OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.AFTER),
    ],
)
def test_cautions_are_on_it_and_louder_where_asbestos_is_suspected(old: OldCovering) -> None:
    words = words_of(paper())
    for wanted in ("safety on the roof", "asbestos", "manufacturer's instructions", "per metre"):
        assert wanted in words
    job = builders.ready_for(Stage.QUOTED, survey=builders.survey(old=old))
    tones = {b.tone for b in paper(job=job).blocks if isinstance(b, Words) and "asbestos" in b.text}
    assert tones == {Tone.STOP}


def test_a_householder_is_told_of_the_right_to_cancel_before_agreeing() -> None:
    # Consumer Contracts Regulations 2013 reg. 30 (quoted): 25 Nov 2026 → 9 Dec 2026.
    words = words_of(paper(made=replace(quote(), sent_on=date(2026, 11, 25))))
    assert "within 14 days of the day we agree, and you do not have to say why" in words
    assert (
        "If we agree on Wed 25 Nov 2026, you can cancel until the end of Wed 9 Dec 2026." in words
    )
    # reg. 36 (quoted): the express request, and that the right ends when the work is complete.
    assert "Please start work before the 14 days are up" in words
    assert "my right to cancel ends when the work is complete" in words
    # Schedule 3 part B (quoted): the form.
    assert "I hereby give notice that I cancel my contract" in words
    # What kind of contract it is in law is the trader's question, not put to the customer.
    assert ASSUMPTION not in words


@pytest.mark.parametrize("made_at", [MadeAt.AWAY, MadeAt.DISTANCE])
def test_once_agreed_the_day_on_which_the_right_ends_is_named(made_at: MadeAt) -> None:
    made = accepted(quote())
    agreed = replace(made, acceptance=builders.acceptance(made_at=made_at))
    words = words_of(paper(made=agreed))
    assert "You can cancel until the end of Mon 22 Jun 2026." in words


def test_a_business_is_told_of_no_right_to_cancel() -> None:
    job = builders.ready_for(Stage.BOOKED, customer=BUSINESS)
    assert "cancel" not in words_of(paper(made=accepted(quote()), job=job))


@pytest.mark.parametrize("made_at", list(MadeAt))
@pytest.mark.parametrize("asked_on", [None, builders.AGREED])
def test_what_was_sent_prints_the_same_whatever_is_agreed_and_asked(
    made_at: MadeAt, asked_on: date | None
) -> None:
    agreed = accepted(quote())
    sent = paper(made=replace(agreed, acceptance=None))
    given = builders.acceptance(made_at=made_at, early_request_on=asked_on)
    *as_sent, since = paper(made=replace(agreed, acceptance=given)).blocks
    assert tuple(as_sent) == sent.blocks
    ticks = next(block for block in sent.blocks if isinstance(block, Ticks))
    assert not ticks.rows[0][0]
    assert isinstance(since, Words)
    asked = f"You asked us on {show_date(builders.AGREED)} to start early."
    assert (asked in since.text) is (asked_on is not None)
    assert ("You can cancel" in since.text) is (made_at is not MadeAt.PREMISES)


def test_hostile_names_stand_on_the_paper_as_they_are() -> None:
    job = builders.ready_for(Stage.QUOTED, customer=builders.customer(name="Smith [/] & Sons"))
    assert "Smith [/] & Sons" in words_of(paper(job=job))


def test_what_makes_up_the_minimum_charge_is_in_the_sum_of_the_work() -> None:
    trader = builders.trader(rates=Rates(minimum_charge=900_00))
    made = quote(trader)
    assert made.options[0].lines[-1].kind is LineKind.MINIMUM_CHARGE
    shown = paper(trader, made)
    assert totals(shown) == [("Total", "£900.00")]
    assert sum(read_money("Price", row[-1]) for row in tables(shown)[0].rows) == 900_00
    assert "least" not in words_of(shown)
