"""What a purchase says of the price of a material, to be proposed as its new price."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from decimal import Decimal

from domain.books.purchase import Purchase
from domain.estimate.stock import Price
from domain.money import Pence, whole_pence
from domain.tax import VatBand, rate_on, vat_in


def paid_price(bought: Purchase, known: Iterable[Price], today: date) -> Price | None:
    """The price of a pack as it was paid, from its day on; None if nothing new follows from it.

    Pack size, colour and rate of VAT are those of the merchant's last price, else of anyone's. The
    price is the slip's sum by the pack, VAT included.
    """
    if bought.material is None or not bought.packs:
        return None
    of_it = [each for each in known if each.material == bought.material and each.since <= today]
    name = bought.merchant.strip().casefold()
    own = [each for each in of_it if each.merchant.strip().casefold() == name]
    last = max(own or of_it, key=lambda each: (each.since, each.id or 0), default=None)
    rate = last.vat_rate if last else rate_on(VatBand.STANDARD, bought.on)
    pack = whole_pence(bought.pence / bought.packs)
    net = pack - vat_in(pack, rate)
    if own and last is not None and _is_asked(last, pack, net):
        return None
    if last is None:
        return Price(
            bought.material, bought.merchant, Decimal(1), net, rate, bought.on, with_vat=pack
        )
    return replace(
        last,
        merchant=bought.merchant,
        net=net,
        since=bought.on,
        id=None,
        starting=False,
        with_vat=pack,
    )


def _is_asked(last: Price, pack: Pence, net: Pence) -> bool:
    """Whether a pack was paid at the last price, by what was typed of it."""
    return last.net == net if last.with_vat is None else last.with_vat == pack
