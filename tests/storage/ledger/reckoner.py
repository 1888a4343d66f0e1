"""Money reckoned again from the ledger alone, by the rules as they are written down.

It imports nothing of the program, knows none of its rounding, and reads only what ``headlap ledger
--csv --all`` prints. A person could do the same in a spreadsheet. Sums are whole pence. What each
row brings to tax is for ``tax_reckoner.py`` beside it.
"""

import csv
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, timedelta
from fractions import Fraction
from io import StringIO

INVOICES = ("deposit invoice", "invoice")
SERIES = {"deposit invoice": "invoice", "on account": "payment"}
"""Kinds that are numbered with others."""
NUMBERED = (*INVOICES, "credit note", "payment", "on account", "mistake", "refund")
IN_TIME = timedelta(days=14)
TO_PAY = timedelta(days=14)
"""Until an invoice is due, as the trader of the lives has it."""


class Wrong(Exception):
    """A cell that is not what the rules make it."""


@dataclass
class Asked:
    """An invoice as the rows so far have left it."""

    on: date
    left: dict[str, list[int]] = field(default_factory=dict)
    """By rate: net and VAT not credited."""
    cis: int = 0
    """What is to be deducted of it."""
    materials: int = 0
    cis_rate: Fraction = Fraction(0)
    deducted: int = 0
    given_up: list[int] = field(default_factory=list)
    due_or_supplied: date = date.min
    whole_net: int = 0
    """With that of its deposit invoices."""
    note: list[int] = field(default_factory=lambda: [0, 0, 0])
    """Of the credit note whose rows are read: net, materials, and by how much the CIS is less."""
    parts: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    """By receipt: what of it pays this now."""

    @property
    def unsettled(self) -> int:
        return sum(map(sum, self.left.values())) - sum(self.parts.values()) - sum(self.given_up)

    @property
    def owed(self) -> int:
        return max(0, self.unsettled - max(0, self.cis - self.deducted))


@dataclass
class Money:
    """A payment as the rows so far have left it."""

    on: date
    customer: str
    gross: int
    cis: int
    back: int = 0
    never_came: bool = False
    placed: int = 0
    """What of the deduction goes with invoices."""


@dataclass
class Book:
    """All that the rows so far come to."""

    rows: int = 0
    asked: dict[str, Asked] = field(default_factory=dict)
    money: dict[str, Money] = field(default_factory=dict)
    numbers: dict[str, str] = field(default_factory=dict)
    refunds: list[tuple[date, int]] = field(default_factory=list)

    def free_of(self, receipt: str) -> int:
        """What of a payment stands to the customer's credit."""
        money = self.money[receipt]
        if money.never_came:
            return 0
        used = sum(asked.parts.get(receipt, 0) for asked in self.asked.values())
        return money.gross + money.cis - money.back - used

    def credit_of(self, customer: str) -> int:
        mine = (receipt for receipt, money in self.money.items() if money.customer == customer)
        return sum(map(self.free_of, mine))

    def owed_on(self, invoice: str) -> int:
        return self.asked[invoice].owed


def reckon(text: str) -> int:
    """How many rows a whole ledger has. Raises :class:`Wrong`."""
    return reckoned_book(text).rows


def reckoned_book(text: str) -> Book:
    """Go through a whole ledger and return what it comes to. Raises :class:`Wrong`."""
    rows = list(csv.DictReader(StringIO(text, newline="")))
    book = Book(rows=len(rows))
    for at, row in enumerate(rows):
        try:
            demand(row["row"] == str(at + 1), "row")
            if row["kind"] == "quarter":
                _quarter(row, book)
                continue
            _number(row, book)
            _RULES[row["kind"]](row, book)
            demand(pence(row["credit_after"]) == book.credit_of(row["customer"]), "credit_after")
            if row["kind"] == "credit note" and not _goes_on(rows, at):
                _cis_anew(book.asked[row["refers"]])
            if row["kind"] in INVOICES and not _goes_on(rows, at):
                _cis(row, book.asked[row["number"]].whole_net)
                _credit_is_used(row, rows[at + 1 :], book)
        except Wrong as wrong:
            raise Wrong(f"row {at + 1} ({row['kind']}): {wrong}") from None
        except (KeyError, ValueError) as unread:
            raise Wrong(f"row {at + 1} ({row['kind']}): {unread!r}") from None
    return book


def _invoice(row: dict[str, str], book: Book) -> None:
    rate, on = Fraction(row["vat_rate"] or 0), date.fromisoformat(row["date"])
    before = [book.asked[each] for each in row["refers"].split()]
    lefts = [each.left.get(_rate(row), [0, 0]) for each in before]
    net_before, vat_before = (sum(each[at] for each in lefts) for at in (0, 1))
    net, vat, gross = (pence(row[name]) for name in ("net", "vat", "gross"))
    demand(net + vat == gross, "net and VAT are not the gross")
    plus, minus = terms_of(row["terms"] or "0.00")
    if not row["terms"]:  # a business agreed to a sum, and to VAT inside it afterwards
        inside = row["customer_kind"] != "householder" and (vat > 0 or not gross)
        demand(inside, "terms are missing")
        whole = half_up((gross + net_before + vat_before) * rate / (100 + rate))
        plus = net + net_before
    elif row["customer_kind"] == "householder":
        whole = half_up(plus * rate / (100 + rate))
        demand(gross == plus - minus, "gross is not what was agreed")
        demand(minus == vat_before + net_before, "the deposit taken off is not the one invoiced")
    elif row["kind"] == "invoice":
        whole = half_up(plus * rate / 100)
        demand(net == plus - minus, "net is not what was agreed")
        demand(minus == net_before, "the deposit taken off is not the one invoiced")
    else:  # a deposit is a sum with VAT in it, whoever pays it
        whole = half_up(gross * rate / (100 + rate))
        demand(net == plus - minus, "net is not what was agreed")
    demand(vat == whole - vat_before, "VAT is not that of the whole less that of the deposit")
    whole_net = (plus - whole) if row["customer_kind"] == "householder" else plus
    demand(row["tax_point"] == str(_tax_point(row, on)), "tax point")
    asked = book.asked.setdefault(row["number"], Asked(on))
    asked.left[_rate(row)] = [net, vat]
    asked.whole_net += whole_net
    asked.cis = pence(row["cis"])
    asked.cis_rate = Fraction(row["cis_rate"] or 0)
    asked.materials = pence(row["materials_net"]) + pence(row["materials_vat"])
    asked.due_or_supplied = date.fromisoformat(row["tax_point"])
    demand(pence(row["owed_after"]) == book.owed_on(row["number"]), "owed_after")


def _rate(row: dict[str, str]) -> str:
    """What was invoiced before registering for VAT bears none, whatever is said of it since."""
    return row["vat_rate"] or "0"


def _tax_point(row: dict[str, str], on: date) -> date:
    """Several payments: the day of the invoice. One: that of the work, unless invoiced in time."""
    if row["deposit_asked"] == "yes" or not row["done"]:
        return on
    done = date.fromisoformat(row["done"])
    return on if on <= done + IN_TIME else done


def _cis(row: dict[str, str], net: int) -> None:
    if row["cis_rate"]:
        base = net - pence(row["materials_net"]) - pence(row["materials_vat"])
        demand(row["customer_kind"] == "contractor", "CIS is of contractors")
        demand(pence(row["cis"]) == half_up(Fraction(row["cis_rate"]) * base / 100), "CIS")
    else:
        demand(pence(row["cis"]) == 0, "CIS without a rate")


def _credit_note(row: dict[str, str], book: Book) -> None:
    asked, gross = book.asked[row["refers"]], pence(row["gross"])
    demand(date.fromisoformat(row["date"]) >= asked.on, "credited before it was issued")
    rate, left = Fraction(row["vat_rate"] or 0), asked.left[_rate(row)]
    net, vat = pence(row["net"]), pence(row["vat"])
    demand(net + vat == gross > 0, "net and VAT are not the gross")
    demand(gross <= asked.unsettled, "more credited than is open: money has to be freed first")
    wanted = min(max(half_up(gross * rate / (100 + rate)), gross - left[0]), left[1])
    demand(vat == wanted, "VAT is not the fraction of the sum")
    demand(net <= left[0] and vat <= left[1], "more credited than is left")
    left[0], left[1] = left[0] - net, left[1] - vat
    materials = pence(row["materials_net"]) + pence(row["materials_vat"])
    asked.note = [
        a + b for a, b in zip(asked.note, (net, materials, pence(row["cis"])), strict=True)
    ]
    asked.cis -= pence(row["cis"])
    demand(pence(row["owed_after"]) == book.owed_on(row["refers"]), "owed_after")


def _cis_anew(asked: Asked) -> None:
    """Once a credit note is read: what it takes off of the deduction."""
    (net, materials, less), asked.note = asked.note, [0, 0, 0]
    demand(materials in (0, net), "a credit is of labour, or all of it of materials")
    demand(materials <= asked.materials, "more materials credited than are left")
    asked.materials -= materials
    left = sum(net for net, _ in asked.left.values())
    anew = half_up(asked.cis_rate * max(0, left - asked.materials) / 100)
    demand(less == max(0, asked.cis + less - anew), "the deduction is not worked out anew")


def _payment(row: dict[str, str], book: Book) -> None:
    on, gross, cis = date.fromisoformat(row["date"]), pence(row["gross"]), pence(row["cis"])
    demand(gross + cis > 0, "no money")
    book.money[row["number"]] = Money(on, row["customer"], gross, cis)


def _use(row: dict[str, str], book: Book) -> None:
    part, asked = pence(row["gross"]), book.asked[row["allocated_to"]]
    demand(0 < part <= book.free_of(row["refers"]), "more used than is left of the money")
    demand(part <= asked.unsettled, "more used than the invoice asks for")
    money, cis = book.money[row["refers"]], pence(row["cis"])
    wanted = min(part, money.cis - money.placed, max(0, asked.cis - asked.deducted))
    demand(cis == wanted, "a deduction goes once with the invoices, as far as each bears it")
    asked.parts[row["refers"]] += part
    money.placed, asked.deducted = money.placed + cis, asked.deducted + cis
    demand(pence(row["owed_after"]) == book.owed_on(row["allocated_to"]), "owed_after")


def _free(row: dict[str, str], book: Book) -> None:
    part, asked = pence(row["gross"]), book.asked[row["allocated_to"]]
    if not row["refers"]:  # a write-off is taken back
        demand(part in asked.given_up, "a write-off is taken back whole")
        asked.given_up.remove(part)
    else:
        demand(0 < part <= asked.parts[row["refers"]], "more freed than was used")
        money, cis = book.money[row["refers"]], pence(row["cis"])
        demand(cis <= min(part, money.placed, asked.deducted), "more freed than was deducted")
        asked.parts[row["refers"]] -= part
        money.placed, asked.deducted = money.placed - cis, asked.deducted - cis
    demand(pence(row["owed_after"]) == book.owed_on(row["allocated_to"]), "owed_after")


def _write_off(row: dict[str, str], book: Book) -> None:
    """All that is open; VAT comes back of a debt that is over six months old, and of no other."""
    asked, part = book.asked[row["allocated_to"]], pence(row["gross"])
    on = date.fromisoformat(row["date"])
    demand(on >= asked.on, "written off before it was issued")
    demand(0 < part == asked.unsettled, "not all that is open is written off")
    since, whole = max(asked.on + TO_PAY, asked.due_or_supplied), sum(map(sum, asked.left.values()))
    parts = apportioned([Fraction(part * sum(left), whole) for left in asked.left.values()])
    vat = 0
    for of, (rate, left) in zip(parts, asked.left.items(), strict=True):
        exact = half_up(of * Fraction(rate) / (100 + Fraction(rate)))
        vat += min(max(exact, of - left[0]), left[1])
    back = vat if on > six_months_after(since) else 0
    demand((pence(row["net"]), pence(row["vat"])) == (part - back, back), "VAT of a bad debt")
    asked.given_up.append(part)
    demand(pence(row["owed_after"]) == 0 == asked.owed, "owed_after")


def six_months_after(day: date) -> date:
    """The same day six months on, or the last of that month."""
    year, month = day.year + (day.month > 6), (day.month + 5) % 12 + 1
    last = (date(year + month // 12, month % 12 + 1, 1) - timedelta(1)).day
    return date(year, month, min(day.day, last))


def _mistake(row: dict[str, str], book: Book) -> None:
    money = book.money[row["refers"]]
    demand(date.fromisoformat(row["date"]) >= money.on, "taken back before it came")
    demand(pence(row["gross"]) == money.gross, "a mistake is all of the payment")
    demand(pence(row["cis"]) == money.cis, "and all that was deducted of it")
    demand(book.free_of(row["refers"]) == money.gross + money.cis, "it still pays an invoice")
    demand(money.placed == 0, "its deduction still goes with an invoice")
    money.never_came = True


def _refund(row: dict[str, str], book: Book) -> None:
    money, back = book.money[row["refers"]], pence(row["gross"])
    demand(date.fromisoformat(row["date"]) >= money.on, "paid back before it came")
    demand(0 < back <= book.free_of(row["refers"]), "more paid back than stands to the credit")
    money.back += back
    book.refunds.append((date.fromisoformat(row["date"]), back))


def _quarter(row: dict[str, str], book: Book) -> None:
    last = date.fromisoformat(row["date"])
    demand((last.month, last.day) in ((7, 5), (10, 5), (1, 5), (4, 5)), "no quarter ends then")
    first = date(last.year - (last < date(last.year, 4, 6)), 4, 6)
    came = (each for each in book.money.values() if first <= each.on <= last)
    in_it = [each for each in came if not each.never_came]
    back = sum(sum_ for on, sum_ in book.refunds if first <= on <= last)
    demand(pence(row["cis"]) == (cis := sum(each.cis for each in in_it)), "CIS deducted")
    income = pence(row["gross"].removeprefix("-")) * (-1 if row["gross"][0] == "-" else 1)
    demand(income == sum(each.gross for each in in_it) + cis - back, "income")


def _credit_is_used(row: dict[str, str], later: list[dict[str, str]], book: Book) -> None:
    """What stands to a customer's credit goes on the next invoice, the oldest money first."""
    asked = book.asked[row["number"]].unsettled
    used: list[tuple[str, int]] = []
    for each in later:
        if each["kind"] != "use":
            break
        before = used.pop()[1] if used and used[-1][0] == each["refers"] else 0
        used.append((each["refers"], before + pence(each["gross"])))
    oldest = sorted(
        (money.on, int(receipt.rsplit("-")[1]), receipt)
        for receipt, money in book.money.items()
        if money.customer == row["customer"]
    )
    wanted = []
    for *_, receipt in oldest:
        if part := min(asked, book.free_of(receipt)):
            wanted.append((receipt, part))
            asked -= part
    demand(used == wanted, f"the credit is not used as it should be: {used} for {wanted}")


def _goes_on(rows: list[dict[str, str]], at: int) -> bool:
    """Whether the paper of a row has another row: one for each rate."""
    return at + 1 < len(rows) and rows[at + 1]["number"] == rows[at]["number"] != ""


def _number(row: dict[str, str], book: Book) -> None:
    """Each series runs without gaps from 1; a paper's further rows have its number again."""
    if row["kind"] not in NUMBERED:
        demand(row["number"] == "", "only papers have a number")
        return
    series = SERIES.get(row["kind"], row["kind"])
    last = book.numbers.get(series, "")
    if row["number"] == last:
        return
    before = int(last.rsplit("-")[1]) if last else 0
    demand(int(row["number"].rsplit("-")[1]) == before + 1, "a gap in the numbers")
    book.numbers[series] = row["number"]


_RULES = {
    "deposit invoice": _invoice,
    "invoice": _invoice,
    "credit note": _credit_note,
    "payment": _payment,
    "on account": _payment,
    "use": _use,
    "free": _free,
    "write-off": _write_off,
    "mistake": _mistake,
    "refund": _refund,
}


def terms_of(words: str) -> tuple[int, int]:
    """What is agreed and what is taken off of it: a metre sum is rounded by itself, half up."""
    plus = minus = 0
    for term in words.replace("-", "+-").split("+"):
        sign, sums = (-1, term[1:]) if term.startswith("-") else (1, term)
        metres, _, rate = sums.rpartition("x")
        worth = half_up(Fraction(rate) * Fraction(metres or 1) * 100)
        plus, minus = (plus + worth, minus) if sign == 1 else (plus, minus + worth)
    return plus, minus


def pence(cell: str) -> int:
    """A sum of the ledger; one with more or fewer than two decimals is none."""
    demand(cell[-3:-2] == "." and cell.replace(".", "").isdigit(), f"{cell!r} is no sum")
    return int(cell.replace(".", ""))


def apportioned(exact: list[Fraction]) -> list[int]:
    """Whole pence that add up: those left over go where most was lost, the first of equals."""
    down = [int(each) for each in exact]
    by_loss = sorted(range(len(exact)), key=lambda at: down[at] - exact[at])
    for at in by_loss[: half_up(sum(exact, Fraction(0))) - sum(down)]:
        down[at] += 1
    return down


def half_up(exact: Fraction) -> int:
    """Whole pence, a half always up; nothing here is less than nothing."""
    return int(exact + Fraction(1, 2))


def demand(holds: bool, what: str) -> None:
    """Raise :class:`Wrong` where something does not hold."""
    if not holds:
        raise Wrong(what)
