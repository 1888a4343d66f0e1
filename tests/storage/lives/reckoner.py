"""A reckoner apart from the book: what jobs and lists come to, in plain Python and whole pence.

It knows nothing of how the book keeps anything. What is done to a job or a list is a change of a
plain value; undo takes the last change away, and what stands is reckoned from the first one on.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, TypeAlias

STAGES = ("enquiry", "survey", "quoted", "booked", "stripped", "laid", "signed off")
QUOTED, BOOKED, LAID, SIGNED_OFF = 2, 3, 5, 6

Lines: TypeAlias = list[tuple[int, int]]
"""Net pence, and VAT in per cent."""
Kind: TypeAlias = tuple[str, str]
"""A material, and its colour in small letters where that matters."""
Change: TypeAlias = Callable[["Life"], None]


@dataclass(frozen=True)
class Offer:
    """A quote: its options in their order."""

    coverings: tuple[str, ...]
    lines: tuple[Lines, ...]
    deposit: int
    sent: bool = False


@dataclass
class Life:
    """What a job, or a list, holds once its changes are gone through."""

    begun: bool = False
    stage: int = 0
    ended: str = ""
    photos: str | None = None
    covering: str | None = None
    offers: dict[int, Offer] = field(default_factory=dict)
    agreed: tuple[int, int, str] | None = None
    days: list[int] = field(default_factory=list)
    staying: int = 0
    chased: list[int] = field(default_factory=list)
    went: set[int] = field(default_factory=set)
    found: str | None = None
    degrees: int | None = None
    extras: dict[str, tuple[int, str]] = field(default_factory=dict)
    used: list[Any] = field(default_factory=list)
    snags: dict[str, bool] = field(default_factory=dict)
    noted: list[str] = field(default_factory=list)
    signed: str | None = None
    prices: list[int] = field(default_factory=list)
    bought: list[int] = field(default_factory=list)
    came_back: list[int] = field(default_factory=list)
    low: int | None = None
    phone: str = ""
    merchant_phone: str = ""
    registered: bool = False

    def lacks(self, to: int) -> bool:
        """Whether something recorded is missing that a stage asks for; cautions are passed."""
        quoted = self.photos is not None and any(o.sent for o in self.offers.values())
        priced = self.agreed is not None or (quoted and self.newest.coverings[0] == self.covering)
        settled = all(state != "to agree" for _, state in self.extras.values())
        asked = (
            True,
            quoted and priced,
            self.agreed is not None and bool(self.days),
            self.found is not None,
            self.degrees is not None and settled and bool(self.used),
            self.signed is not None,
        )
        return not all(asked[:to])

    @property
    def newest(self) -> Offer:
        """The quote of the highest number."""
        return self.offers[max(self.offers)]

    @property
    def taken(self) -> Lines | None:
        """The lines of the option agreed."""
        return None if self.agreed is None else self.offers[self.agreed[0]].lines[self.agreed[1]]


@dataclass
class Event:
    """One thing that was done."""

    at: int
    of: Any
    window: str
    change: Change
    final: bool
    """Whether others hold a paper of it."""
    moves: list[tuple[Kind, Decimal]] | None
    """All that it has a job move in stock, in place of before; of the list one more."""
    before: Any = None
    """The rows of its job or list as they were, and as they were after it."""
    after: Any = None
    people: dict[Any, Any] = field(default_factory=dict)
    """The rows of customers and places that it wrote, before and after."""


@dataclass
class Paper:
    """A numbered paper: an invoice or a receipt."""

    series: str
    number: int
    job: int
    kind: str
    gross: int
    paid: int = 0


class Reckoner:
    """What all jobs and lists ought to hold."""

    def __init__(self, actions: int) -> None:
        self.actions = actions
        self.done: dict[Any, list[Event]] = {}
        self.undone: dict[Any, list[Event]] = {}
        self.papers: list[Paper] = []
        self.payments: list[tuple[int, int]] = []
        self.left: list[int] = []
        """What of each payment is put to no bill."""
        self.refs: dict[int, int] = {}
        self.homes: dict[int, tuple[tuple[str, int], tuple[str, int]]] = {}
        """The customer and the place of every job that ever was, by table and key."""

    def save(
        self,
        of: Any,
        window: str,
        change: Change,
        *,
        final: bool = False,
        moves: list[tuple[Kind, Decimal]] | None = None,
    ) -> Event:
        """Something is saved of a job or a list: nothing can be redone there any more."""
        self.actions += 1
        event = Event(self.actions, of, window, change, final, moves)
        self.done.setdefault(of, []).append(event)
        self.undone[of] = []
        return event

    def begin(self) -> int:
        """Give the next new job its number and its reference."""
        job = len(self.refs) + 1
        standing = self.standing
        self.refs[job] = (self.refs[standing[-1]] if standing else 0) + 1
        return job

    @property
    def standing(self) -> list[int]:
        """The jobs that are in the book, in their order."""
        return [job for job in self.refs if self.life(job).begun]

    def life(self, of: Any) -> Life:
        """What a job or a list holds now."""
        life = Life()
        for event in self.done.get(of, []):
            event.change(life)
        return life

    def last(self, of: Any, *, undone: bool = False) -> Event | None:
        """What would be undone, or done again."""
        events = (self.undone if undone else self.done).get(of)
        return events[-1] if events else None

    def turn(self, of: Any, *, again: bool) -> None:
        """Undo the last of a job or a list, or do it again."""
        source, target = (self.undone, self.done) if again else (self.done, self.undone)
        target.setdefault(of, []).append(source[of].pop())

    def may_turn(self, event: Event, people: dict[Any, Any], *, again: bool) -> bool:
        """Whether customers and places let an undo or a redo through: none taken, left or missed.

        ``people`` are the rows of customers and places as they are now.
        """
        if any(people.get(key) != images[not again] for key, images in event.people.items()):
            return False  # changed since on another job
        others = [job for job in self.standing if job != event.of]
        theirs = {key for job in others for key in self.homes[job]}
        if any(images[again] is None and key in theirs for key, images in event.people.items()):
            return False
        is_there, will_be = (event.after, event.before)[again], (event.before, event.after)[again]
        if event.of not in self.homes or None not in (is_there, will_be):
            return True
        told = {key: images[again] for key, images in event.people.items()}
        if will_be is None:
            return all(told.get(key, key) is None or key in theirs for key in self.homes[event.of])
        known = self.refs[event.of] in [self.refs[job] for job in others]
        return not known and all(key in {*people, *told} for key in self.homes[event.of])

    # -- money

    def issue(self, series: str, job: int, kind: str, gross: int) -> Paper:
        """Number a paper: one more than there are of its series."""
        number = sum(paper.series == series for paper in self.papers) + 1
        paper = Paper(series, number, job, kind, gross)
        if series == "invoice":
            self._use_credit(paper)
        self.papers.append(paper)
        return paper

    def _use_credit(self, bill: Paper) -> None:
        """Put what the customer paid over to a new bill, whichever of their jobs it came for.

        The oldest goes first; what came for a job that has ended goes back to them.
        """
        for at, (job, _) in enumerate(self.payments):
            theirs = self.homes[job][0] == self.homes[bill.job][0] and not self.life(job).ended
            if job == bill.job or theirs:
                part = min(self.left[at], bill.gross - bill.paid)
                self.left[at] -= part
                bill.paid += part

    def bills(self, job: int) -> list[Paper]:
        """The invoices of a job."""
        return [each for each in self.papers if (each.job, each.series) == (job, "invoice")]

    def billed(self, job: int, *kinds: str) -> bool:
        """Whether an invoice of one of the kinds was issued for a job."""
        return any(bill.kind in kinds for bill in self.bills(job))

    def pay(self, job: int, bill: Paper, pence: int) -> None:
        """Put money to a bill, then to the others of its job, the oldest first."""
        self.payments.append((job, pence))
        self.issue("receipt", job, "receipt", pence)
        for each in [bill, *(other for other in self.bills(job) if other is not bill)]:
            part = min(pence, each.gross - each.paid)
            each.paid += part
            pence -= part
        self.left.append(pence)

    def over(self, job: int) -> int:
        """What was paid for a job and is put to no bill."""
        return sum(
            left for (of, _), left in zip(self.payments, self.left, strict=True) if of == job
        )

    def owed(self, job: int) -> int:
        """What a job still owes."""
        return sum(bill.gross - bill.paid for bill in self.bills(job))

    def is_rightly_taxed(self, lines: Lines) -> bool:
        """Whether lines show VAT if and only if the trader is registered now."""
        return any(rate for _, rate in lines) == self.life("your details").registered

    def whole(self, job: int) -> int:
        """What the invoice of a job asks for: the work and the extras, less the deposit's.

        Every customer is a householder: each extra has its own VAT inside.
        """
        life = self.life(job)
        rate = 20 if self.life("your details").registered else 0
        extras = [price for price, state in life.extras.values() if state == "agreed"]
        asked = gross_of(life.taken or []) + sum(gross_of([(price, rate)]) for price in extras)
        return asked - sum(bill.gross for bill in self.bills(job))

    def is_under_way(self, job: int) -> bool:
        """Whether something is still to be done, or owed on either side."""
        life = self.life(job)
        at_an_end = life.stage == SIGNED_OFF and self.billed(job, "invoice")
        open_snag = not all(life.snags.values())
        to_do = not life.ended and (not at_an_end or open_snag)
        return to_do or self.owed(job) != 0 or self.over(job) > 0

    # -- stock

    def stock(self) -> tuple[dict[Kind, Decimal], dict[Kind, Decimal]]:
        """What is in stock of each material, and by how much it was ever short."""
        held: dict[Kind, Decimal] = {}
        short: dict[Kind, Decimal] = {}
        slots = [*self._by_hand(), *(slot for job in self.standing for slot in self._of_job(job))]
        for _, kind, n in sorted(slots):
            left = held.get(kind, Decimal(0)) + n
            held[kind] = max(left, Decimal(0))
            short[kind] = short.get(kind, Decimal(0)) + max(-left, Decimal(0))
        return {kind: n for kind, n in held.items() if n}, short

    def _by_hand(self) -> Iterator[tuple[tuple[int, int], Kind, Decimal]]:
        for event in self.done.get("stock", []):
            yield from (((event.at, 0), kind, n) for kind, n in event.moves or [])

    def _of_job(self, job: int) -> Iterable[tuple[tuple[int, int], Kind, Decimal]]:
        """The moves of a job, each where it was first recorded; one out and put right is gone."""
        slots: dict[tuple[Kind, bool], tuple[tuple[int, int], Decimal]] = {}
        for event in self.done[job]:
            if event.moves is None:
                continue
            last = slots
            slots = {key: (at, Decimal(0)) for key, (at, _) in last.items() if not key[1]}
            for place, (kind, n) in enumerate(event.moves):
                key = (kind, n < 0)
                at = last[key][0] if key in last else (event.at, place)
                slots[key] = (at, n)
        return [(at, kind, n) for (kind, _), (at, n) in slots.items()]


def gross_of(lines: Lines) -> int:
    """Lines with VAT, reckoned once for each rate, half a penny up."""
    nets: dict[int, int] = {}
    for net, rate in lines:
        nets[rate] = nets.get(rate, 0) + net
    return sum(net + (2 * net * rate + 100) // 200 for rate, net in nets.items())
