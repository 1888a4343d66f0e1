"""What each row brings to tax and takes off it, reckoned again from the ledger alone.

Beside :mod:`tests.storage.ledger.reckoner`, and as that one: it imports nothing of the program and
reads only what ``headlap ledger --csv --all`` prints. Sums are whole pence.
"""

import csv
from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction
from io import StringIO

from tests.storage.ledger.reckoner import INVOICES, Wrong, demand, half_up, pence

Row = dict[str, str]
Told = tuple[int, int, str]
"""Net, VAT and tax point."""
NOTHING: Told = (0, 0, "")


@dataclass
class Bears:
    """An invoice, which bears the tax of all that it asks for."""

    job: str
    on: str
    left: int = 0
    """What no credit note took off."""
    took: dict[str, list[int]] = field(default_factory=dict)
    """By receipt: money taxed as it came, the VAT in it."""
    took_on: dict[str, str] = field(default_factory=dict)
    registered: bool = False
    whole: int = 0
    untaxed: int = 0
    """What of it bears no VAT."""
    paid: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    """By receipt."""


@dataclass
class Lies:
    """What of a payment lies there: what was not taxed as it came goes first."""

    on: str
    whole: int
    untaxed: int
    ahead: list[int]
    """What was taxed as it came, and the VAT in it."""
    job: str = ""
    before: int = 0
    """What came for the work while the trader was not registered."""


@dataclass
class Note:
    """A credit note, and what of it has fallen back."""

    gross: int
    vat: int
    fallen: int

    def falls(self, part: int) -> int:
        """Let so much fall back; return the VAT in that."""
        before = half_up(Fraction(self.vat * self.fallen, self.gross))
        self.fallen += part
        return half_up(Fraction(self.vat * self.fallen, self.gross)) - before


@dataclass
class Taxed:
    """What the rows so far come to."""

    invoices: dict[str, Bears] = field(default_factory=dict)
    of_work: dict[str, Bears] = field(default_factory=dict)
    """By job: the last invoice that is not for the deposit."""
    money: dict[str, Lies] = field(default_factory=dict)
    notes: dict[str, Note] = field(default_factory=dict)
    freed: list[tuple[str, int]] = field(default_factory=list)
    """By receipt, since the last note."""
    held: list[tuple[str, str, list[int]]] = field(default_factory=list)
    """Note, receipt, and what is held of what the note freed of it."""


def reckon_tax(text: str) -> Taxed:
    """Go through a whole ledger and return what it comes to. Raises :class:`Wrong`."""
    rows, book = list(csv.DictReader(StringIO(text, newline=""))), Taxed()
    for at, row in enumerate(rows):
        try:
            _reckon(row, rows[at + 1 :], book)
        except Wrong as wrong:
            raise Wrong(f"row {at + 1} ({row['kind']}): {wrong}") from None
        except (KeyError, StopIteration) as unread:
            raise Wrong(f"row {at + 1} ({row['kind']}): {unread!r}") from None
    return book


def _reckon(row: Row, later: list[Row], book: Taxed) -> None:
    kind, told = row["kind"], (pence(row["net"]), pence(row["vat"]), row["tax_point"])
    if kind in INVOICES:
        invoice = book.invoices.setdefault(row["number"], Bears(row["job"], row["tax_point"]))
        _invoice(row, later, invoice, book)
        if kind == "invoice":
            book.of_work[row["job"]] = invoice
    elif kind in ("payment", "on account"):
        demand(told == _came(row, later, book), "what came has its own tax point, or has none")
    elif kind == "free" and row["refers"]:
        book.freed.append((row["refers"], pence(row["gross"])))
        demand(told == _freed(row, later, book), "what an invoice bears itself again")
    elif kind == "credit note":
        demand(not row["tax_point"], "VAT does not fall back with the note")
        _note(row, later, book)
    elif kind in ("use", "refund", "mistake"):
        demand(told == _goes(row, book), "what falls back, or is not taxed twice")


def _invoice(row: Row, later: list[Row], invoice: Bears, book: Taxed) -> None:
    """What was invoiced or paid before the trader registered bears no VAT, and nothing else."""
    gross = pence(row["gross"])
    invoice.left, invoice.whole = invoice.left + gross, invoice.whole + gross
    invoice.registered = invoice.registered or bool(row["vat_rate"])
    invoice.untaxed += gross if Fraction(row["vat_rate"] or 0) == 0 else 0
    if invoice.registered and (not later or later[0]["number"] != row["number"]):
        paid_before = book.invoices.get(row["refers"])
        lies = [each for each in book.money.items() if each[1].job == row["job"]]
        came = sum(_came_before(receipt, each, paid_before) for receipt, each in lies)
        asked = paid_before.untaxed if paid_before else 0
        issued_before = asked if paid_before and not paid_before.registered else 0
        untaxed = max(asked, issued_before + came) - asked
        demand(invoice.untaxed == min(untaxed, invoice.whole), "what came before bears no VAT")


def _came_before(receipt: str, lies: Lies, deposit: Bears | None) -> int:
    of_deposit = deposit.paid[receipt] if deposit and deposit.registered else 0
    return min(lies.before, lies.untaxed + lies.ahead[0] + of_deposit)


def _came(row: Row, later: list[Row], book: Taxed) -> Told:
    """What came for no invoice, or over one, brings its part until the work is invoiced."""
    on, whole = row["date"], pence(row["gross"]) + pence(row["cis"])
    over = whole
    for each in later:
        if (each["kind"], each["refers"]) != ("use", row["number"]):
            break
        over -= pence(each["gross"])
    invoice = book.of_work.get(row["job"])
    before = row["deposit_asked"] == "yes" or not row["done"] or on < row["done"]
    if not over or not before or (invoice is not None and invoice.left):
        book.money[row["number"]] = Lies(on, whole, whole, [0, 0])
        return NOTHING
    rate = Fraction(row["vat_rate"] or 0)
    vat = half_up(over * rate / (100 + rate))
    before_vat = 0 if row["vat_rate"] else over
    book.money[row["number"]] = Lies(on, whole, whole - over, [over, vat], row["job"], before_vat)
    return over - vat, vat, on


def _freed(row: Row, later: list[Row], book: Taxed) -> Told:
    """An invoice bears the tax of money that never came itself again."""
    receipt, part = row["refers"], pence(row["gross"])
    lies, invoice = book.money[receipt], book.invoices[row["allocated_to"]]
    invoice.paid[receipt] -= part
    then = next(each for each in later if each["kind"] != "free")
    again, vat = 0, 0
    if then["kind"] == "mistake" and receipt in invoice.took:
        again, vat = _taken(invoice.took[receipt], part)
    lies.untaxed += part - again
    lies.ahead = [lies.ahead[0] + again, lies.ahead[1] + vat]
    return (again - vat, vat, invoice.took_on[receipt]) if again else NOTHING


def _note(row: Row, later: list[Row], book: Taxed) -> None:
    """What it did not free is set off at once; the rest is held with the money that it freed."""
    invoice, rate = book.invoices[row["refers"]], Fraction(row["vat_rate"] or 0)
    invoice.left -= pence(row["gross"])
    invoice.untaxed -= pence(row["gross"]) if rate == 0 else 0
    number = row["number"]
    if number in book.notes:
        return
    rows = [row, *(each for each in later if each["number"] == number)]
    left, vat = (sum(pence(each[of]) for each in rows) for of in ("gross", "vat"))
    gross = left
    for receipt, part in book.freed:  # CIS deducted too little frees more than the note
        book.held.append((number, receipt, [min(part, left)]))
        left -= min(part, left)
    book.notes[number], book.freed = Note(gross, vat, left), []


def _goes(row: Row, book: Taxed) -> Told:
    """Money goes to an invoice or back, or never came: what is no longer to be taxed, and when."""
    kind, on, lies = row["kind"], row["date"], book.money[row["refers"]]
    part = pence(row["gross"]) + (pence(row["cis"]) if kind == "mistake" else 0)
    falls, back = _falls_back(row["refers"], part, book)
    untaxed = min(part, lies.untaxed)
    lies.untaxed -= untaxed
    ahead, vat = _taken(lies.ahead, part - untaxed)
    if kind == "mistake":
        book.freed = []
        on = on if back else lies.on  # it leaves the day on which it stood
    elif kind == "use":
        demand(not (falls and ahead), "what has two tax points has two rows")
        invoice = book.invoices[row["allocated_to"]]
        invoice.paid[row["refers"]] += part
        later = max(lies.on, invoice.on if invoice.job == row["job"] else on)
        if ahead:
            invoice.took[row["refers"]] = [ahead, vat]
            invoice.took_on[row["refers"]] = on = later
    whole = ahead + (falls if back else 0)
    return (whole - vat - back, vat + back, on) if whole else NOTHING


def _falls_back(receipt: str, part: int, book: Taxed) -> tuple[int, int]:
    """What notes freed of money that goes, and the VAT in it (reg. 24A to 24C)."""
    falls = back = 0
    for number, _, held in (each for each in book.held if each[1] == receipt):
        now = min(part - falls, held[0])
        held[0], falls = held[0] - now, falls + now
        back += book.notes[number].falls(now)
    return falls, back


def _taken(of: list[int], wanted: int) -> tuple[int, int]:
    """Take so much of a sum with VAT in it: what was taken, and the VAT in that."""
    part = min(wanted, of[0])
    vat = half_up(Fraction(of[1] * part, of[0])) if part else 0
    of[0], of[1] = of[0] - part, of[1] - vat
    return part, vat
