"""What is saved that is of no job."""

from dataclasses import replace
from decimal import Decimal

from domain.books.money_back import MoneyBack
from domain.books.purchase import Purchase
from domain.coverings.materials import Material
from domain.estimate.ordered import Merchant
from domain.trader import VatStanding
from storage.book import Book
from tests import builders, priced
from tests.storage.lives.deed import (
    COLOURS,
    COVERINGS,
    TODAY,
    Deed,
    kind_of,
    sets,
    stock_move,
)
from tests.storage.lives.reckoner import (
    Life,
    Reckoner,
)


def price(book: Book, _: Reckoner, n: int) -> Deed:
    """The price of a box of nails, at a merchant that no quote is priced by."""
    new = priced.price(Material.SHINGLE_NAILS, n + 1, "9", merchant="Quayside", since=TODAY)

    def change(life: Life) -> None:
        life.prices.append(n + 1)

    return Deed(lambda: book.set_price(new), change)


def stocked(book: Book, reckoner: Reckoner, n: int) -> Deed:
    """In or out, of one thing or another, no more out than there is; or a merchant's telephone."""
    if n % 7 == 3:
        known = Merchant("Quayside", f"01632 {reckoner.actions:06}")
        return Deed(lambda: book.save_merchant(known), sets(merchant_phone=known.phone))
    material = ("mastic", *COVERINGS)[n % 3]
    move = stock_move(material, n % 40 - 9, COLOURS[n % 2] if material in COVERINGS else "")
    held = reckoner.stock()[0].get(kind_of(move), Decimal(0))
    moves = [(kind_of(move), move.quantity)]
    return Deed(
        lambda: book.move_stock(move), lambda _: None, held + move.quantity >= 0, moves=moves
    )


def detailed(book: Book, _: Reckoner, n: int) -> Deed:
    """Another telephone number; now and then registered for VAT, or no more."""
    registered = n % 5 == 0
    standing = VatStanding.STANDARD if registered else VatStanding.NOT_REGISTERED
    number = "980780684" if registered else ""
    trader = replace(book.trader(), phone=f"0{n}", vat_standing=standing, vat_number=number)
    return Deed(lambda: book.save_trader(trader), sets(phone=f"0{n}", registered=registered))


def forecast(book: Book, _: Reckoner, n: int) -> Deed:
    last = next(iter(book.forecasts(TODAY, TODAY)), builders.forecast(TODAY))
    told = replace(last, low_c=Decimal(n))
    return Deed(lambda: book.save_forecasts([told]), sets(low=n))


def bought(book: Book, reckoner: Reckoner, n: int) -> Deed:
    """A purchase for stock, one put right, or what came back of one."""
    known = book.years_books(TODAY).books.purchases
    if known and n % 3 == 1:
        return _came_back(book, known[n % len(known)], n)
    old = known[n % len(known)] if known and n % 3 == 0 else None
    slip = old or Purchase(TODAY, "Quayside", "mastic", 1, for_stock=True)
    pence = reckoner.actions * 1000 + n + 1

    def change(life: Life) -> None:
        if old is not None:
            life.bought.remove(old.pence)
        life.bought.append(pence)

    return Deed(lambda: book.save_purchase(replace(slip, pence=pence), "", TODAY), change)


def _came_back(book: Book, bought: Purchase, n: int) -> Deed:
    """A few pence of a purchase, or another sum for what came back of it last."""
    old = bought.back[-1] if bought.back and n % 2 else None
    pence = n % 7 + 1 if old is None else old.pence + 1
    back = replace(old, pence=pence) if old else MoneyBack(TODAY, pence, "returned", bought.id or 0)

    def change(life: Life) -> None:
        if old is not None:
            life.came_back.remove(old.pence)
        life.came_back.append(pence)

    return Deed(lambda: book.save_money_back(back, TODAY), change)
