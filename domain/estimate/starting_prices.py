"""Prices to begin with, so that a quote can be priced from an empty book.

Every figure here is a round one of our own, invented and of no merchant: it only marks where the
trader's own belongs, and is said to be a starting figure until the trader confirms it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from types import MappingProxyType

from domain.coverings.felt import Felt
from domain.coverings.materials import Material
from domain.coverings.registry import ALL
from domain.estimate.stock import Price
from domain.estimate.supplies import usual_pack
from domain.money import Pence, share
from domain.tax import VatBand, rate_on, vat_in

STARTING_WORDS = "starting figure – change to yours"
_FIGURES: Mapping[Material, Pence] = MappingProxyType(
    {
        **{Material(each.key): 50_00 if isinstance(each, Felt) else 40_00 for each in ALL},
        Material.UNDERLAY: 30_00,
        Material.SHINGLE_NAILS: 10_00,
        Material.FELT_NAILS: 8_00,
        Material.MASTIC: 5_00,
        Material.ADHESIVE: 20_00,
        Material.DRIP_TRIM: 10_00,
        Material.FASCIA: 10_00,
        Material.BARGE_BOARDS: 10_00,
        Material.GUTTER: 15_00,
    }
)
"""Before VAT, for a pack as it is usually sold."""


def starting_price(material: Material, today: date, *, with_vat: bool) -> Pence:
    """Return what stands for a usual pack until the trader gives a price."""
    net = _FIGURES[material]
    return net + share(net, rate_on(VatBand.STANDARD, today)) if with_vat else net


def filled(
    merchant: str, asked: Mapping[Material, Pence], today: date, *, with_vat: bool
) -> tuple[Price, ...]:
    """Return a price of each of these materials at one merchant; one not changed is a starting one.

    What is ``asked`` is for a usual pack, from today, ``with_vat`` or before it.
    """
    rate = rate_on(VatBand.STANDARD, today)
    return tuple(
        Price(
            each, merchant, usual_pack(each),
            net=pence - vat_in(pence, rate) if with_vat else pence,
            vat_rate=rate,
            since=today,
            starting=pence == starting_price(each, today, with_vat=with_vat),
            with_vat=pence if with_vat else None,
        )
        for each, pence in asked.items()
    )  # fmt: skip


def confirmed(known: Iterable[Price], today: date) -> tuple[Price, ...]:
    """Return the starting figures that are in force as the trader's own, from today."""
    newest = {
        (price.material, price.merchant.casefold(), price.colour.casefold()): price
        for price in sorted(known, key=lambda p: (p.since, p.id or 0))
    }
    return tuple(
        replace(price, starting=False, since=max(today, price.since), id=None)
        for price in newest.values()
        if price.starting
    )
