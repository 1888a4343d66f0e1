"""Whether somebody who asks is a customer already: by name, telephone number or place.

Each is compared by a key that leaves out what people write now so, now so. The book finds who may
be meant by an index, and :func:`known_by` decides.
"""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import lru_cache
from itertools import product

from domain.contacts import postcode_in, telephone_digits
from domain.days.calendar import MONTHS
from domain.job.people import Customer, Site
from domain.job.stage import Ending, Stage

TITLES = ("mr", "mrs", "ms", "miss", "mx", "dr")
"""How people are addressed: left out of a name, as "Mrs Ludlam" rings as "Ludlam" too."""
_COUPLES = [
    first + both + second for first, second in product(TITLES, TITLES) for both in ("", "and")
]
ADDRESSED: tuple[str, ...] = ("", *TITLES, *_COUPLES)
"""All that may stand before a name and is left out of it, without the spaces."""

_NUMBERS = re.compile(r"[0-9+(][0-9+() .-]{7,}")
_SHORTEST = 9  # digits of a number with its code, and with the nought of it
_REMEMBERED = 4096
"""Keys kept: the same few names are compared at every letter typed."""


class Known(StrEnum):
    """By what somebody is known, the surest first."""

    NUMBER = "phone"
    NAME = "name"
    PLACE = "place"


@dataclass(frozen=True, slots=True)
class Asking:
    """Who asks, as it is typed so far."""

    name: str = ""
    phone: str = ""
    place: str = ""


@dataclass(frozen=True, slots=True)
class JobInBrief:
    """A job as it is told in a few words."""

    ref: str
    stage: Stage
    ended: Ending | None
    on: date
    """The day of its sign-off, else its last booked day, else the day of the enquiry."""
    site_id: int | None = None
    """Where its roof is."""


@dataclass(frozen=True, slots=True)
class KnownCustomer:
    """A customer of the book, with what a new enquiry can take over."""

    customer: Customer
    sites: tuple[Site, ...]
    """Where their roofs are, that of the newest job first; never empty."""
    jobs: tuple[JobInBrief, ...]
    """The newest first."""

    @property
    def in_words(self) -> str:
        """Who it is: ``Mrs Ludlam, Osmer: 2 jobs, last 0041 signed off May 2026``."""
        who = ", ".join(
            part for part in (self.customer.called, self.sites[0].place) if part.strip()
        )
        last = self.jobs[0]
        day = f"{MONTHS[last.on.month - 1]} {last.on.year}"
        told = f"{last.ref} {last.ended or last.stage} {day}"
        if len(self.jobs) == 1:
            return f"{who}: 1 job, {told}"
        return f"{who}: {len(self.jobs)} jobs, last {told}"

    def site_at(self, place: str) -> Site | None:
        """Their roof at a place as typed; the newest where none is typed, None if it is another."""
        if not place.strip():
            return self.sites[0]
        return next((site for site in self.sites if _is_at(place, site)), None)


@lru_cache(_REMEMBERED)
def name_key(text: str) -> str:
    """A name without case, accents, spaces, signs and what stands before it; "&" is "and"."""
    words = _words(text)
    for _ in range(2):
        if words and words[0] in TITLES:
            words = (
                words[2:]
                if words[1:2] == ["and"] and words[2:3] and words[2] in TITLES
                else words[1:]
            )
    return "".join(words)


@lru_cache(_REMEMBERED)
def place_key(text: str) -> str:
    """A place without case, accents, spaces and signs; "&" is "and"."""
    return "".join(_words(text))


@lru_cache(_REMEMBERED)
def telephones(text: str) -> frozenset[str]:
    """The numbers in a text, each as its digits with a nought in front, not +44."""
    found = (telephone_digits(number) for number in _NUMBERS.findall(text))
    return frozenset(number for number in found if len(number) >= _SHORTEST)


def known_by(asking: Asking, customer: Customer, sites: Iterable[Site]) -> frozenset[Known]:
    """By what a customer is known to be who asks; nothing if it is somebody else."""
    by = set()
    if telephones(asking.phone) & telephones(customer.phone):
        by.add(Known.NUMBER)
    if name_key(asking.name) and name_key(asking.name) == name_key(customer.name):
        by.add(Known.NAME)
    postcode = postcode_in(asking.place)
    at_home = bool(postcode) and postcode == postcode_in(customer.address)
    if at_home or any(_is_at(asking.place, site) for site in sites):
        by.add(Known.PLACE)
    return frozenset(by)


def likeliest(asking: Asking, customers: Iterable[KnownCustomer]) -> tuple[KnownCustomer, ...]:
    """Of these customers those that may be asking, the likeliest first.

    It is who is known by most; then a number is surer than a name, and a name than a place.
    """
    found = [(known_by(asking, known.customer, known.sites), known) for known in customers]

    def unlikely(each: tuple[frozenset[Known], KnownCustomer]) -> tuple[int, ...]:
        by, known = each
        return (-len(by), *(way not in by for way in Known), -int(known.jobs[0].ref))

    return tuple(known for _, known in sorted((e for e in found if e[0]), key=unlikely))


def _is_at(place: str, site: Site) -> bool:
    postcode = postcode_in(place)
    if postcode and postcode == postcode_in(site.address):
        return True
    return bool(place_key(place)) and place_key(place) == place_key(site.place)


def _words(text: str) -> list[str]:
    """The letters and digits of each word, without case and accents."""
    folded = "".join(
        part for part in unicodedata.normalize("NFKD", text) if not unicodedata.combining(part)
    ).casefold()
    parted = re.sub(r"[.,]", " ", folded.replace("&", " and "))
    words = ("".join(c for c in word if c.isalnum()) for word in parted.split())
    return [word for word in words if word]
