"""The turns a job takes, what it is asked for and what comes in."""

from domain.job import (
    Chase,
    Closing,
    Ending,
    Outgoing,
    Received,
    Reopening,
    Stage,
    StageBack,
    StageMove,
)
from tests.storage.all_sorts import NOTES
from tests.storage.lives.deed import (
    TODAY,
    Deed,
    Doing,
    sets,
)
from tests.storage.lives.reckoner import (
    BOOKED,
    LAID,
    SIGNED_OFF,
    STAGES,
    Life,
    Paper,
)


def on(at: Doing) -> Deed:
    life = at.life
    to = min(life.stage + 1, SIGNED_OFF)
    allowed = not life.ended and life.stage < to and not life.lacks(to)
    step = StageMove(Stage(STAGES[to]), TODAY, NOTES)
    return Deed(lambda: at.book.move_stage(at.job, step), sets(stage=to), allowed)


def back(at: Doing) -> Deed:
    life, to = at.life, at.n % 7
    step = StageBack(Stage(STAGES[to]), "rain", TODAY)
    allowed = not life.ended and to < life.stage
    return Deed(lambda: at.book.go_back(at.job, step), sets(stage=to), allowed)


def ended(at: Doing) -> Deed:
    life, ending = at.life, list(Ending)[at.n % 2]
    allowed = not life.ended and life.stage < (BOOKED if ending is Ending.DECLINED else LAID)
    asked = sum(bill.gross for bill in at.reckoner.bills(at.key))  # kept: nothing is credited
    closing = Closing(ending, "moved away", TODAY, kept=asked, kept_why="felt cut to size")
    return Deed(lambda: at.book.end_job(at.job, closing), sets(ended=str(ending)), allowed)


def reopened(at: Doing) -> Deed:
    again = Reopening("asked again", TODAY)
    return Deed(lambda: at.book.reopen(at.job, again), sets(ended=""), bool(at.life.ended))


def invoiced(at: Doing) -> Deed:
    life, reckoner = at.life, at.reckoner
    settled = all(state != "to agree" for _, state in life.extras.values())
    allowed = life.stage >= LAID and life.degrees is not None and settled
    allowed = allowed and life.taken is not None and reckoner.is_rightly_taxed(life.taken)
    allowed = allowed and not reckoner.billed(at.key, "invoice")
    return Deed(
        lambda: at.book.issue_invoice(at.job, TODAY),
        lambda _: None,
        allowed,
        final=True,
        noted=lambda job: reckoner.issue("invoice", job, "invoice", reckoner.whole(job)),
    )


def chased(at: Doing) -> Deed:
    """The first invoice on which something is owed; a reminder, or a promise."""
    owed = [bill.id or 0 for bill in at.job.documents if bill.owed > 0] or [0]
    day = TODAY.replace(day=1 + at.n % 28)
    chase = Chase(owed[0], TODAY, day, promised=bool(at.n % 2))

    def change(life: Life) -> None:
        life.chased.append(day.day)

    return Deed(lambda: at.book.chase(at.job, chase), change, bool(owed[0]))


def deposit(at: Doing) -> Deed:
    life, reckoner = at.life, at.reckoner
    allowed = life.agreed is not None and life.taken is not None
    asked = life.offers[life.agreed[0]].deposit if life.agreed else 0
    allowed = allowed and bool(asked) and not reckoner.bills(at.key)
    allowed = allowed and life.taken is not None and reckoner.is_rightly_taxed(life.taken)
    return Deed(
        lambda: at.book.issue_deposit_invoice(at.job, TODAY),
        lambda _: None,
        allowed,
        final=True,
        noted=lambda job: reckoner.issue("invoice", job, "deposit invoice", asked),
    )


def went(at: Doing) -> Deed:
    """An invoice goes out, once."""
    bills = at.reckoner.bills(at.key)
    number = bills[at.n % len(bills)].number if bills else 0
    return Deed(
        lambda: at.book.mark_sent(at.job, Outgoing.INVOICE, number, TODAY),
        lambda life: life.went.add(number),
        bool(bills) and number not in at.life.went,
    )


def paid(at: Doing) -> Deed:
    """A part, the whole, or more than is owed."""
    bills = at.reckoner.bills(at.key)
    bill = bills[at.n % len(bills)] if bills else None
    owed = bill.gross - bill.paid if bill else 0
    pence = (owed // 3 + 1, owed, owed + at.n)[at.n % 3] or 1
    asked = [d for d in at.job.documents if bill and d.kind != "receipt"]
    key = next((d.id or 0 for d in asked if bill and d.number == bill.number), 0)
    received = Received(key, pence, TODAY, "cash")
    return Deed(
        lambda: at.book.record_payment(at.job, received),
        lambda _: None,
        owed > 0,
        final=True,
        noted=lambda job: at.reckoner.pay(job, bill, pence) if bill else None,
    )


def owes(bills: list[Paper]) -> bool:
    return any(bill.gross > bill.paid for bill in bills)
