"""Whether who asks is a customer already, and what a new enquiry takes over from them."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from domain.job import EnquiryRecord, Site
from domain.known_customer import Asking, Known, KnownCustomer, known_by, telephones
from domain.signs import Sign
from tui.job.enquiry.enquiry_fields import new_enquiry

_WAYS = tuple(way.value for way in Known)


@dataclass
class Caller:
    """Who may be asking, and who it is once their details were taken over."""

    looked_for: Asking = field(default_factory=Asking)
    """What was typed when it was last looked who it may be."""
    may_be: tuple[KnownCustomer, ...] = ()
    """The likeliest first."""
    taken: KnownCustomer | None = None
    """Whose details were taken over; None while the enquiry is of a new customer."""
    before: Mapping[str, str] = field(default_factory=dict)
    """What stood in the fields until then."""

    def next(self, values: Mapping[str, str], chosen: bool) -> Mapping[str, str]:
        """Take over the details of the next who may be asking; after the last, of none.

        ``chosen`` tells whether what kind of customer it is was chosen by hand. Returns what the
        fields become.
        """
        if self.taken is None:
            self.before = dict(values)
        following = self.may_be.index(self.taken) + 1 if self.taken in self.may_be else 0
        self.taken = self.may_be[following] if following < len(self.may_be) else None
        return self.before if self.taken is None else filled_in(self.before, self.taken, chosen)

    def lets_go(self, values: Mapping[str, str]) -> bool:
        """Let go of a customer whose name and number were both typed over; tell whether it was."""
        if self.taken is None or _is_still(values, self.taken):
            return False
        self.taken, self.may_be = None, ()
        return True

    def record(self, values: Mapping[str, str], today: date) -> EnquiryRecord:
        """What is recorded of who asks and of the place: theirs, or nothing yet."""
        new = new_enquiry(today)
        if self.taken is None:
            return new
        place = values["place"]
        site = self.taken.site_at(place) if place.strip() else None
        return replace(new, customer=self.taken.customer, site=site or Site(place=""))

    def renames(self, values: Mapping[str, str]) -> bool:
        """Whether another name was typed for the customer who was taken over."""
        name = self.taken.customer.name if self.taken is not None else ""
        return bool(name and values["name"].strip()) and values["name"].strip() != name

    def told(self, values: Mapping[str, str], typed_in: str) -> tuple[str, str]:
        """The field under which it is said who may be asking, and the words; none for nobody."""
        known = self.taken or next(iter(self.may_be), None)
        if known is None:
            return "", ""
        by = {way.value for way in known_by(asking(values), known.customer, known.sites)}
        under = typed_in if typed_in in by else next((w for w in _WAYS if w in by), _WAYS[1])
        others = len(self.may_be) - 1
        more = f"; {others} more" if others > 0 and self.taken is None else ""
        if self.taken is not None and self.renames(values):
            words = f"{Sign.CAUTION} {known.customer.name} gets this name in all their jobs."
            return "name", words
        return under, f"{Sign.GOOD} " * bool(self.taken) + f"{known.in_words}{more}"


def asking(values: Mapping[str, str]) -> Asking:
    """Who asks, as typed."""
    return Asking(values["name"], values["phone"], values["place"])


def filled_in(typed: Mapping[str, str], known: KnownCustomer, chosen: bool) -> dict[str, str]:
    """What stands in the fields once the details of a customer are taken over.

    Another telephone number than theirs stays, as a new one of theirs, and so do another place and
    an e-mail address; ``chosen`` tells whether the kind of customer was chosen by hand: then that
    stays too.
    """
    customer, site = known.customer, known.site_at(typed["place"])
    is_new_number = bool(typed["phone"].strip()) and not (
        telephones(typed["phone"]) & telephones(customer.phone)
    )
    theirs = {
        "name": customer.name,
        "phone": typed["phone"] if is_new_number else customer.phone,
        "email": typed["email"] if typed["email"].strip() else customer.email,
        "kind": typed["kind"] if chosen or not customer.kind_asked else customer.kind.value,
        "place": typed["place"] if site is None else site.place,
    }
    return {**typed, **theirs}


def _is_still(values: Mapping[str, str], known: KnownCustomer) -> bool:
    by = known_by(asking(values), known.customer, known.sites)
    return Known.NAME in by or Known.NUMBER in by
