"""All that can be done, by name, and what comes next in a life that goes well."""

from collections.abc import Callable, Mapping
from typing import TypeAlias

from storage.book import Book
from tests.storage.lives import listed, offered, turned, worked
from tests.storage.lives.deed import Deed, Doing
from tests.storage.lives.reckoner import BOOKED, LAID, SIGNED_OFF, Life, Paper, Reckoner

DEEDS: Mapping[str, Callable[[Doing], Deed]] = {
    "asked": offered.asked,
    "corrected": offered.corrected,
    "deleted": offered.deleted,
    "surveyed": offered.surveyed,
    "drafted": offered.drafted,
    "sent": offered.sent,
    "accepted": offered.accepted,
    "booked": worked.booked,
    "moved": worked.moved,
    "stays": worked.stays,
    "went": turned.went,
    "found": worked.found,
    "extra": worked.extra,
    "settled": worked.settled,
    "laid": worked.laid,
    "used": worked.used,
    "snag": worked.snag,
    "noted": worked.noted,
    "unnoted": worked.unnoted,
    "signed": worked.signed,
    "on": turned.on,
    "back": turned.back,
    "ended": turned.ended,
    "reopened": turned.reopened,
    "invoiced": turned.invoiced,
    "chased": turned.chased,
    "deposit": turned.deposit,
    "paid": turned.paid,
}

Due: TypeAlias = Callable[[Life, list[Paper]], bool]

IN_TURN: tuple[tuple[str, Due], ...] = (
    ("reopened", lambda life, _: bool(life.ended)),
    ("surveyed", lambda life, _: life.photos is None),
    ("on", lambda life, _: life.stage < 1),
    ("drafted", lambda life, _: not life.offers),
    ("sent", lambda life, _: not any(offer.sent for offer in life.offers.values())),
    ("accepted", lambda life, _: life.agreed is None),
    ("booked", lambda life, _: not life.days),
    ("deposit", lambda life, bills: not bills and life.stage == BOOKED),
    ("paid", lambda life, bills: life.stage == BOOKED and turned.owes(bills)),
    ("on", lambda life, _: life.stage < BOOKED),
    ("found", lambda life, _: life.found is None),
    ("on", lambda life, _: life.stage == BOOKED),
    ("laid", lambda life, _: life.degrees is None),
    ("extra", lambda life, _: not life.extras),
    ("settled", lambda life, _: any(state == "to agree" for _, state in life.extras.values())),
    ("used", lambda life, _: not life.used),
    ("on", lambda life, _: life.stage < LAID),
    ("invoiced", lambda _, bills: not any(bill.kind == "invoice" for bill in bills)),
    ("chased", lambda life, bills: turned.owes(bills) and not life.chased),
    ("paid", lambda _, bills: turned.owes(bills)),
    ("signed", lambda life, _: life.signed is None),
    ("on", lambda life, _: life.stage < SIGNED_OFF),
)
"""What comes next in the life of a job that goes well, the first that is due."""


LISTED: Mapping[str, Callable[[Book, Reckoner, int], Deed]] = {
    "prices": listed.price,
    "stock": listed.stocked,
    "your details": listed.detailed,
    "forecasts": listed.forecast,
    "books": listed.bought,
}
