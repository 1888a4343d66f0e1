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
    net is the slip's sum by the pack, less the VAT that it holds at that rate.
    """
    if bought.material is None or not bought.packs:
        return None
    of_it = [each for each in known if each.material == bought.material and each.since <= today]
    name = bought.merchant.strip().casefold()
    own = [each for each in of_it if each.merchant.strip().casefold() == name]
    last = max(own or of_it, key=lambda each: (each.since, each.id or 0), default=None)
    rate = last.vat_rate if last else rate_on(VatBand.STANDARD, bought.on)
    net = net_of_pack(bought, rate)
    if own and last is not None and last.net == net:
        return None
    if last is None:
        return Price(bought.material, bought.merchant, Decimal(1), net, rate, bought.on)
    return replace(
        last, merchant=bought.merchant, net=net, since=bought.on, id=None, starting=False
    )


def net_of_pack(bought: Purchase, rate: Decimal) -> Pence:
    """What a pack of a purchase cost without the VAT inside it."""
    pack = whole_pence(bought.pence / bought.packs)
    return pack - vat_in(pack, rate)
