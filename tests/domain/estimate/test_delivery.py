"""Where a merchant's list goes: asked once for several jobs, and kept while it can be."""

from dataclasses import replace

import pytest

from domain.coverings.materials import Material
from domain.estimate.delivery import is_to_be_asked, place_of, places_of
from domain.estimate.ordered import COLLECTED, Merchant
from domain.estimate.ordering import MerchantList
from domain.papers.order_paper import order_paper, order_text
from domain.trader import Trader
from tests.domain.estimate.test_ordering import job, listed, supply

OWN = "9 Sarn Lane"
NAILS = supply(Material.SHINGLE_NAILS, 900)
(ONE,) = listed([job(1, 1, NAILS)])
(TWO,) = listed([job(1, 1, NAILS), job(2, 2, NAILS)])


def said(place: str) -> Merchant:
    return Merchant(ONE.merchant, deliver_to=place)


def test_it_goes_to_the_trader_to_one_of_the_jobs_or_is_collected() -> None:
    assert list(places_of([TWO], OWN).values()) == [OWN, "1 Mill Row", "2 Mill Row", COLLECTED]
    assert list(places_of([TWO], "").values()) == ["1 Mill Row", "2 Mill Row", COLLECTED]
    (line,) = TWO.lines
    unnamed = replace(TWO, lines=(replace(line, jobs=(replace(line.jobs[0], address=" "),)),))
    assert list(places_of([unnamed], "").values()) == ["1 Mill Row", COLLECTED]


@pytest.mark.parametrize(
    ("given", "merchant", "place", "asked"),
    [
        (ONE, Merchant("Osmerton Roofing"), OWN, False),
        (TWO, Merchant("Osmerton Roofing"), OWN, True),
        (TWO, said(""), OWN, True),
        (TWO, said(OWN), OWN, False),
        (TWO, said("2 Mill Row"), "2 Mill Row", False),
        (TWO, said(COLLECTED), COLLECTED, False),
        (ONE, said(COLLECTED), COLLECTED, False),
        (TWO, said("7 Mill Row"), OWN, True),  # a job of an earlier list
        (ONE, said("2 Mill Row"), OWN, False),
    ],
)
def test_what_was_said_holds_while_it_can_and_only_several_jobs_are_asked_for(
    given: MerchantList, merchant: Merchant, place: str, asked: bool
) -> None:
    assert place_of(given, OWN, merchant) == place
    assert is_to_be_asked(given, OWN, merchant) is asked


def test_the_paper_and_the_text_say_where_it_goes_or_that_it_is_collected() -> None:
    trader = Trader()
    for place, words in ((OWN, "Deliver to: 9 Sarn Lane"), (COLLECTED, "Delivery: I collect it")):
        assert words in order_text(TWO, trader, place)
        paper = str(order_paper(TWO, trader, place, priced=False))
        assert all(word in paper for word in words.split(": "))
