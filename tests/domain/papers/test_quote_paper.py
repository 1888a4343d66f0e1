from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.accounts.as_sent import as_it_stands
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
from domain.look import Look
from domain.money import read_money, show_money
from domain.papers.blocks import FillIn, Offers, Paper, Ticks, Words
from domain.papers.quote_paper import quote_paper
from domain.papers.since_sent import since_sent
from domain.snapshot import to_json
from domain.tone import Tone
from domain.trader import Rates, Trader
from tests import builders
from tests.domain.papers.reading import offers, steps, words_of
from tests.priced import accepted, in_felt, quote, registered, three_options

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
    assert "Lay square butt shingles, slate grey." in words


def test_a_draft_says_so_and_a_revision_has_its_number() -> None:
    assert "Draft, Wed 3 Jun 2026" in words_of(paper())
    assert paper(made=replace(quote(), number=2)).title == "Quote 0421, version 2"


def test_it_says_which_roof_and_what_is_done_in_five_lines() -> None:
    assert "Shed, apex roof, 2.4 × 1.8 m" in words_of(paper())
    assert steps(paper()) == (
        "Strip off the old felt and take it away.",
        "Check the boards. Any found rotten: £14.00 per metre, fitted; we ask first.",
        "Lay new underlay.",
        "Lay square butt shingles, slate grey.",
        "Finish the ridge and edges, clear up and leave it tidy.",
    )


def test_boards_seen_rotten_are_in_the_price_and_felt_needs_no_underlay() -> None:
    deck = replace(builders.survey().deck, replace_m=Decimal("4.2"))
    old = OldCovering(OldKind.SHINGLES, 2, Suspicion.AFTER)
    survey = builders.survey(deck=deck, old=old)
    job = builders.ready_for(Stage.QUOTED, quotes=(), survey=survey)
    strip, boards, lay, *_ = steps(paper(made=quote(job=job, takeoffs=(in_felt(),)), job=job))
    assert strip == "Strip off both layers of the old shingles and take them away."
    assert boards == (
        "Replace 4.2 m of rotten boards, in this price. Any more: £14.00 per metre; we ask first."
    )
    assert lay == "Lay felt, slate grey."


def test_no_vat_is_spoken_of_by_a_trader_who_is_not_registered() -> None:
    words = words_of(paper(builders.trader(vat_number="980780684")))
    assert "VAT" not in words


def test_a_householder_sees_prices_with_vat_that_add_up() -> None:
    trader = registered()
    made = quote(trader)
    shown = paper(trader, made)
    gross = option_total(made.options[0]).gross
    (offer,) = offers(shown)
    assert (offer.label, offer.price) == ("Total, including VAT", show_money(gross))
    assert [label for label, _ in offer.rows] == ["Before VAT", "VAT at 20 %"]
    assert sum(read_money("Price", amount) for _, amount in offer.rows) == gross
    # 14.00 a metre and 20 % (derived).
    assert "£16.80 per metre including VAT" in words_of(shown)


def test_a_business_sees_net_prices_first() -> None:
    trader = registered()
    made = quote(trader)
    shown = paper(trader, made, builders.ready_for(Stage.QUOTED, customer=BUSINESS))
    whole = option_total(made.options[0])
    (offer,) = offers(shown)
    assert (offer.label, offer.price) == ("Total before VAT", show_money(whole.net))
    assert [amount for _, amount in offer.rows] == [
        show_money(whole.vat_whole),
        show_money(whole.gross),
    ]
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


def test_every_option_has_its_price_beside_the_others_and_a_box_to_tick() -> None:
    made = three_options()
    (block,) = (block for block in paper(made=made).blocks if isinstance(block, Offers))
    assert block.to_tick
    assert [offer.words for offer in block.rows] == IN_EACH
    assert [offer.price for offer in block.rows] == [
        show_money(option_total(option).gross) for option in made.options
    ]


def test_one_of_several_is_to_be_chosen_and_all_else_is_said_once() -> None:
    words = words_of(paper(made=three_options()))
    assert "Please choose one of these three" in words
    for once in (
        "Asbestos testing",
        "until 14 days after we agree",
        "start before my right to cancel ends",
        "per metre",
        "covering ticked",
    ):
        assert words.count(once) == 1
    alone = words_of(paper())
    assert "choose" not in alone
    assert "I accept this quote at the price shown:" in alone


def test_what_came_after_it_was_sent_is_for_the_trader_alone() -> None:
    yes = builders.acceptance(option_id=3, early_request_on=builders.AGREED)
    made = replace(accepted(three_options()), acceptance=yes)
    job = builders.ready_for(Stage.QUOTED)
    as_sent = replace(made, sent_as=to_json(as_it_stands(job, builders.trader())))
    moved = replace(job, customer=builders.customer(address="2 The Green\nOsmerton"))
    since = since_sent(moved, as_sent)
    assert since
    assert since.rows == (
        ("Sent", "Thu 4 Jun 2026"),
        ("Accepted", "Mon 8 Jun 2026, Mrs Adeyemi, signed"),
        ("Chosen", "Felt, slate grey"),
        ("Told of right to cancel", "Mon 8 Jun 2026"),
        ("Asked to start early", "Mon 8 Jun 2026, signed"),
        ("Last materials came", "Mon 8 Jun 2026"),
        ("Can cancel until", "Mon 22 Jun 2026"),
        ("Address now", "2 The Green, Osmerton"),
    )
    shown = words_of(paper(made=as_sent, job=moved))
    assert [words for label, words in since.rows[1:7] if words in shown] == ["Felt, slate grey"]
    assert "The Green" not in shown
    assert since_sent(job, replace(as_sent, acceptance=None)) is None


@pytest.mark.parametrize(
    "old",
    [
        OldCovering(OldKind.FELT, 1, Suspicion.BEFORE),
        OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.AFTER),
    ],
)
def test_cautions_are_on_it_and_louder_where_asbestos_is_suspected(old: OldCovering) -> None:
    words = words_of(paper())
    for wanted in ("away from the ladder", "Asbestos", "calm weather", "per metre"):
        assert wanted in words
    job = builders.ready_for(Stage.QUOTED, survey=builders.survey(old=old))
    tones = {b.tone for b in paper(job=job).blocks if isinstance(b, Words) and "Asbestos" in b.text}
    assert tones == {Tone.STOP}


def test_a_householder_is_told_of_the_right_to_cancel_before_agreeing() -> None:
    # Consumer Contracts Regulations 2013 reg. 30: services 14 days from the agreement (quoted),
    # goods with fitting from the last goods (Herefordshire Council trading standards, read).
    words = words_of(paper(made=replace(quote(), sent_on=date(2026, 11, 25))))
    assert "until 14 days after we agree, or after the last of the materials reach you, " in words
    assert "9 Dec" not in words  # no day that could prove too early
    # reg. 36 (quoted): the express request, and that the right ends when the work is complete.
    (asked,) = (b for b in paper().blocks if isinstance(b, Ticks))
    assert "Please start before my right to cancel ends." in asked.rows[0][1]
    assert "the right ends when the work is complete" in asked.rows[0][1]
    # Schedule 3 part B (read in a reproduction): a line for each field of the form.
    assert "To: Thorne Shed Roofs, 3 Tannery Row, Osmerton, 01632 960100" in words
    assert "cancel my/our * contract of sale of the following goods * / for the supply of" in words
    (form,) = (b.rows for b in paper().blocks if isinstance(b, FillIn))
    assert form == (
        *("Ordered on *", "Received on *", "Name", "Address", ""),
        *("Signature (only if this form is on paper)", "Date"),
    )


def test_what_the_law_wants_told_beforehand_stands_on_the_quote() -> None:
    """Consumer Contracts Regulations 2013, Schedule 2: (a) to (i) read, from (j) on quoted."""
    made = replace(quote(), deposit=100_00)
    words = words_of(paper(made=made))
    for told in (
        "£100.00 deposit before we start",  # how and when to pay
        "sort code 00-00-00, account 12345678, reference 0421",
        "The work takes about 1 day, on a day we agree with you.",
        "Please ring or write to us at the address above.",  # complaints
        "By law what we supply must be as agreed",
        "Any guarantee we give in writing is in addition to your legal rights.",
    ):
        assert told in words
    assert "sort code" not in words_of(paper())


def test_a_business_is_told_of_no_right_to_cancel() -> None:
    job = builders.ready_for(Stage.BOOKED, customer=BUSINESS)
    assert "cancel" not in words_of(paper(made=accepted(quote()), job=job))


@pytest.mark.parametrize("made_at", list(MadeAt))
@pytest.mark.parametrize("asked_on", [None, builders.AGREED])
def test_what_was_sent_prints_the_same_whatever_is_agreed_and_asked(
    made_at: MadeAt, asked_on: date | None
) -> None:
    agreed = accepted(quote())
    given = builders.acceptance(made_at=made_at, early_request_on=asked_on)
    sent = paper(made=replace(agreed, acceptance=None))
    assert paper(made=replace(agreed, acceptance=given)) == sent
    ticks = next(block for block in sent.blocks if isinstance(block, Ticks))
    assert not ticks.rows[0][0]


def test_what_was_sent_prints_as_it_did_whatever_becomes_of_the_details() -> None:
    trader = builders.trader(look=Look(colour="#14285a", logo="a", logo_name="a.png"))
    job = builders.ready_for(Stage.QUOTED)
    sent = replace(
        quote(trader),
        sent_on=builders.SENT,
        valid_until=builders.VALID_UNTIL,
        sent_as=to_json(as_it_stands(job, trader)),
    )
    old = OldCovering(OldKind.SHINGLES, 3, Suspicion.BEFORE)
    later = replace(
        job,
        customer=BUSINESS,
        site=builders.site(place="Elsewhere", address="1 Elsewhere"),
        survey=builders.survey(old=old, measures=builders.measures(length=builders.mm(9000))),
    )
    moved = registered(name="Robin Other", trading_as="", address="Far", days_to_pay=3)
    before = paper(trader, sent, job)
    assert paper(moved, sent, later) == before
    assert before.look == trader.look
    assert paper(trader, replace(sent, sent_as=""), job).look == Look()


def test_hostile_names_stand_on_the_paper_as_they_are() -> None:
    job = builders.ready_for(Stage.QUOTED, customer=builders.customer(name="Smith [/] & Sons"))
    assert "Smith [/] & Sons" in words_of(paper(job=job))


def test_what_makes_up_the_minimum_charge_is_in_the_sum_of_the_work() -> None:
    trader = builders.trader(rates=Rates(minimum_charge=900_00))
    made = quote(trader)
    assert made.options[0].lines[-1].kind is LineKind.MINIMUM_CHARGE
    shown = paper(trader, made)
    (offer,) = offers(shown)
    assert (offer.label, offer.price) == ("Total", "£900.00")
    assert "least" not in words_of(shown)
