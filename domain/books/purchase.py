"""What was bought or paid for the business, as it stands on the till slip."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from domain.books.closed_year import closed_year
from domain.books.headings import Heading
from domain.books.money_back import MoneyBack
from domain.coverings.materials import Material
from domain.days.calendar import show_in_full
from domain.errors import Refused
from domain.money import Pence, show_money
from domain.tax import vat_in
from domain.typing_slips import Slip


class Cost(StrEnum):
    """What has rules of its own when it is bought."""

    ORDINARY = "anything else"
    RUNNING = "fuel or upkeep of the van"
    """Fuel, insurance, tax, MOT, repairs, tyres of the vehicle; not fuel for plant."""
    VAN = "a van"
    CAR = "a car"
    HELPER = "a helper's pay"

    @property
    def is_of_the_vehicle(self) -> bool:
        """Whether a rate a mile stands for it."""
        return self in (Cost.RUNNING, Cost.VAN)


_VEHICLE = r"van|vehicle|motor|car"
_UPKEEP = r"insurance|tax|service|servicing|repairs?"
_KIND = r"(?:(?!(?:for|of|to|in|on|hire)\b)\S+ ){0,3}"
"""What may stand before a vehicle that is bought: "a used", a make; not "rack for the"."""

_SIGNS_OF: tuple[tuple[Cost, str], ...] = (
    (Cost.ORDINARY, r"generator|mower|saw|plant|parking|car park|park"),
    (Cost.RUNNING, r"fuel|petrol|diesel|unleaded|mot|road tax|tyres?|clutch|breakdown cover"),
    (Cost.RUNNING, rf"(?:{_VEHICLE}) (?:{_UPKEEP})"),
    (Cost.RUNNING, rf"(?:{_UPKEEP}) (?:for|of|to|on) (?:the |my )?(?:{_VEHICLE})"),
    (Cost.HELPER, r"helper|labourer|labour|mate|subcontractor|subbie|roofer"),
    (Cost.CAR, rf"{_KIND}(?:car|hatchback)"),
    (Cost.VAN, rf"{_KIND}van"),
)
"""Words that speak for a cost, the first that is found. Common practice."""

_NO_CAR = (
    "A car is not an expense when it is paid. Leave it out, or mark it as not for tax, and ask an "
    "accountant about capital allowances."
)
_BY_THE_MILE = (
    "Your van goes by the mile, and the rate stands for its fuel, insurance, upkeep and price. "
    "Leave it out, or mark it as not for tax."
)
HELPER_WORDS = (
    "paying a subcontractor makes you a contractor: register, verify them, deduct, "
    "send the monthly return and give a statement"
)
"""Source: GOV.UK, what you must do as a CIS contractor: from memory, so it is a caution."""


@dataclass(frozen=True, slots=True)
class Purchase:
    """One slip. What it says can be put right; what stood there stays in the history."""

    on: date
    """The day it was paid."""
    merchant: str
    what: str
    pence: Pence
    """As on the slip, VAT included."""
    cost: Cost = Cost.ORDINARY
    heading: Heading = Heading.GOODS
    vat_rate: Decimal | None = None
    """Per cent; None: no VAT is reclaimed on it."""
    job_id: int | None = None
    for_stock: bool = False
    material: Material | None = None
    """Which material of the price list it is, if it is one."""
    packs: Decimal = Decimal(0)
    id: int | None = None
    version: int = 0
    back: tuple[MoneyBack, ...] = ()
    """What came back of it, in the order of recording."""

    @property
    def counts(self) -> bool:
        """Whether it is an expense."""
        return self.heading.counts

    @property
    def is_of_materials(self) -> bool:
        """Whether a contractor deducts no CIS from what it cost, where it is for their job.

        That are materials, consumables, hired plant and the fuel for it, never travel (GOV.UK, CIS:
        make deductions; HMRC CISR15090: read), nor a tool that is kept: it is under repairs.
        """
        return self.cost is Cost.ORDINARY and self.heading is Heading.GOODS

    @property
    def vat(self) -> Pence:
        """The VAT that it holds; nothing where none is known."""
        return self._vat_in(self.pence)

    @property
    def left(self) -> Pence:
        """What it cost in the end, VAT included: the sum less what came back of it."""
        return self.pence - sum(each.pence for each in self.back)

    @property
    def vat_left(self) -> Pence:
        """The VAT that is left of it."""
        return self._vat_in(self.left)

    def came_back(self) -> Iterator["CameBack"]:
        """What came back, each with the VAT by which that of the purchase falls.

        Once all of it came back, so did all the VAT that it held, to the penny.
        """
        left = self.pence
        for each in self.back:
            fallen = self._vat_in(left) - self._vat_in(left - each.pence)
            left -= each.pence
            if each.pence:
                yield CameBack(self, each, fallen)

    def _vat_in(self, pence: Pence) -> Pence:
        return 0 if self.vat_rate is None else vat_in(pence, self.vat_rate)


@dataclass(frozen=True, slots=True)
class CameBack:
    """Money that came back, with the purchase whose heading and job it shares."""

    bought: Purchase
    back: MoneyBack
    vat: Pence
    """What of it is VAT; nothing where none is known."""


def likely_cost(what: str) -> Cost:
    """What the words of a purchase speak for."""
    words = " ".join(what.lower().split())
    for cost, signs in _SIGNS_OF:
        found = re.fullmatch if cost in (Cost.CAR, Cost.VAN) else re.search
        if found(rf"\b(?:{signs})\b", words):
            return cost
    return Cost.ORDINARY


def heading_of(merchant: str, known: Iterable[Purchase], cost: Cost = Cost.ORDINARY) -> Heading:
    """The heading to propose: the merchant's last, else what the cost speaks for, else materials.

    ``known`` is in the order of recording.
    """
    if cost is Cost.HELPER:
        return Heading.SUBCONTRACTORS
    if cost.is_of_the_vehicle:
        return Heading.TRAVEL
    name = merchant.strip().casefold()
    of_merchant = [each for each in known if each.merchant.strip().casefold() == name]
    return of_merchant[-1].heading if of_merchant else Heading.GOODS


def demand_allowed(purchase: Purchase, today: date, *, by_the_mile: bool) -> None:
    """Raise :class:`Refused` for what cannot be an expense, or cannot have been paid yet.

    A car: HMRC BIM70035, read. Mileage and the costs of the vehicle exclude each other: GOV.UK,
    simplified expenses, read. What is marked as not for tax is no expense.
    """
    if purchase.on > today:
        raise Refused("on", show_in_full(purchase.on), "Give the day it was paid, today at latest.")
    _demand_before_what_came_back(purchase)
    if not purchase.counts:
        return
    if purchase.cost is Cost.CAR:
        raise Refused("cost", purchase.cost, _NO_CAR)
    if purchase.cost.is_of_the_vehicle and by_the_mile:
        raise Refused("cost", purchase.cost, _BY_THE_MILE)


def demand_can_come_back(back: MoneyBack, bought: Purchase, today: date) -> None:
    """Raise :class:`Refused` for money that cannot have come back of a purchase.

    That is on a day to come or before the purchase, or more than is left of it.
    """
    if back.on > today:
        raise Refused("on", show_in_full(back.on), "Give the day it came, today at latest.")
    if back.on < bought.on:
        paid = show_in_full(bought.on)
        raise Refused("on", show_in_full(back.on), f"It was paid on {paid}: give a day from then.")
    others = sum(each.pence for each in bought.back if each.id != back.id or back.id is None)
    if back.pence > bought.pence - others:
        most = show_money(bought.pence - others)
        raise Refused(
            "pence", show_money(back.pence), f"Give {most} at most: no more is left of it."
        )


def _demand_before_what_came_back(purchase: Purchase) -> None:
    """Raise :class:`Refused` if a purchase that is put right leaves what came back without it."""
    if not purchase.back:
        return
    came, first = purchase.pence - purchase.left, min(each.on for each in purchase.back)
    if purchase.left < 0:
        least = f"{show_money(came)} came back of it: give that at the least."
        raise Refused("pence", show_money(purchase.pence), least)
    if purchase.on > first:
        latest = f"Money came back of it on {show_in_full(first)}: give a day until then."
        raise Refused("on", show_in_full(purchase.on), latest)


def slips_of(purchase: Purchase, today: date) -> tuple[Slip, ...]:
    """What is asked about before it is saved: a helper, and a tax year that is over and told."""
    found = []
    if purchase.cost is Cost.HELPER and purchase.counts:
        found.append(Slip("cost", HELPER_WORDS))
    closed = closed_year("on", purchase.on, today)
    return (*found, *((closed,) if closed else ()))
