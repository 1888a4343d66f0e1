"""A line of an order: never wider than the window, and neither the sum nor the name cut for it."""

from datetime import date

import pytest

from domain.coverings.materials import Material
from domain.estimate.ordering import JobToSupply, MerchantList, OrderLine
from tests import priced
from tui.frame.theme import EVENING
from tui.lists.order_pages import drawn

JOBS = tuple(
    JobToSupply(number, f"{number:04}", place, "", date(2026, 6, 12), ())
    for number, place in enumerate(("The Green", "Mill Row allotments", "Orchard End"), 1)
)


@pytest.mark.parametrize("width", [56, 65, 66, 76, 116])
@pytest.mark.parametrize("jobs", [JOBS, JOBS[:1]])
def test_the_sum_and_what_is_ordered_stand_whole_at_every_width(
    width: int, jobs: tuple[JobToSupply, ...]
) -> None:
    price = priced.price(Material.MASTIC, 5_58, "1")
    line = OrderLine(Material.MASTIC, "", 13, price, jobs)
    shown = drawn(MerchantList("Pellow", (line,)), 0, width, EVENING, registered=True)
    assert shown.cell_len == width
    assert "13 cartridges" in shown.plain
    assert "bitumen mastic" in shown.plain
    assert shown.plain.endswith("£72.54")
