"""Asked for, surveyed, priced, sent and accepted."""

from dataclasses import replace
from typing import Any

from domain.job import (
    EnquiryRecord,
    Sending,
    Site,
)
from tests import builders, priced
from tests.storage.all_sorts import NOTES
from tests.storage.lives.deed import (
    COVERINGS,
    Deed,
    Doing,
    sets,
)
from tests.storage.lives.reckoner import (
    QUOTED,
    Life,
    Offer,
)


def asked(at: Doing) -> Deed:
    """A new customer, one known at another place, or at the same."""
    jobs = at.reckoner.standing
    known = at.book.job(jobs[at.n % len(jobs)]) if jobs and at.n % 3 else None
    who, where = builders.customer(name=f"Mrs {at.n}"), Site(f"{at.n} Mill Row")
    if known is not None:
        who, where = known.customer, known.site if at.n % 3 == 1 else where
        if at.n % 2:
            who = replace(who, phone=f"0{at.n}")
    record = EnquiryRecord(who, where, builders.enquiry(rough=at.n))
    return Deed(lambda: at.book.take_enquiry(record), sets(begun=True))


def corrected(at: Doing) -> Deed:
    customer = replace(at.job.customer, name=f"Mr {at.n}")
    told = EnquiryRecord(customer, at.job.site, builders.enquiry(rough=at.n))
    return Deed(lambda: at.book.change_enquiry(at.job, told), lambda _: None)


def deleted(at: Doing) -> Deed:
    """Nothing came of it: nothing sent, asked for or done."""
    life = at.life
    done = (life.found, life.degrees, life.signed)
    several = (life.extras, life.used, life.snags)
    allowed = life.stage <= 1 and all(each is None for each in done) and not any(several)
    allowed = allowed and not any(offer.sent for offer in life.offers.values())
    return Deed(lambda: at.book.delete_enquiry(at.job), sets(begun=False), allowed)


def surveyed(at: Doing) -> Deed:
    plain = builders.survey()
    survey = replace(plain, access=replace(plain.access, photos=f"{at.n} of them"))
    change = sets(photos=f"{at.n} of them", covering="square-butt")
    return Deed(lambda: at.book.save_survey(at.job, survey), change)


def drafted(at: Doing) -> Deed:
    """Priced with what stock holds, in one covering or two, the survey's first."""
    own = at.life.covering
    chosen = [own or COVERINGS[0], *(c for c in COVERINGS if c != own and at.n % 2)]
    takeoffs = tuple(map(priced.worked_example, chosen[:2]))
    deposit = at.n % 4 * 50_00
    sent = sum(offer.sent for offer in at.life.offers.values())

    def priced_now() -> Any:
        stock = at.book.free_stock(at.key)
        return priced.quote(at.book.trader(), stock, deposit, at.job, takeoffs)

    if own is None:
        return Deed(priced_now, lambda _: None, allowed=False)
    quote = priced_now()
    lines = tuple([(each.price, int(each.vat_rate)) for each in o.lines] for o in quote.options)
    offer = Offer(tuple(o.covering for o in quote.options), lines, deposit)

    def change(life: Life) -> None:
        life.offers[sent + 1] = offer

    return Deed(lambda: at.book.save_quote(at.job, replace(quote, number=sent + 1)), change)


def sent(at: Doing) -> Deed:
    life, offers = at.life, at.life.offers
    draft = bool(offers) and not life.newest.sent
    allowed = draft and not life.ended and life.stage >= 1
    allowed = allowed and life.newest.coverings[0] == life.covering

    def change(life: Life) -> None:
        life.offers[max(life.offers)] = replace(life.newest, sent=True)
        life.stage = max(life.stage, QUOTED)

    sending = Sending(builders.SENT, builders.VALID_UNTIL, NOTES)
    return Deed(lambda: at.book.send_quote(at.job, sending), change, allowed, final=True)


def accepted(at: Doing) -> Deed:
    """Any option of any version, of the newest mostly."""
    life, every = at.life, [(q, o) for q in at.job.quotes for o in range(len(q.options))]
    if not every:
        nobody = builders.acceptance(option_id=0)
        return Deed(lambda: at.book.accept_quote(at.job, nobody), lambda _: None, allowed=False)
    quote, place = every[-1 - at.n % len(every)]
    said = builders.acceptance(option_id=quote.options[place].id, who=f"Mrs {at.n}")
    same = life.agreed is not None and life.agreed[:2] == (quote.number, place)
    asked = life.agreed is not None and bool(at.reckoner.bills(at.key))
    allowed = life.offers[quote.number].sent and (same or not asked)

    def change(life: Life) -> None:
        life.agreed = (quote.number, place, f"Mrs {at.n}")
        if life.photos is not None and not same:
            life.covering = life.offers[quote.number].coverings[place]

    return Deed(lambda: at.book.accept_quote(at.job, said), change, allowed)
