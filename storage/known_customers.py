"""Customers read from the book: who may be asking, and all that is recorded of one."""

import json
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from itertools import groupby
from typing import Any, Final

from sqlalchemy import text
from sqlmodel import Session, col, desc, func, select

from domain.contacts import postcode_in
from domain.customer_record import CustomerRecord
from domain.errors import Refused
from domain.job import Customer, Ending, Site, Stage
from domain.known_customer import (
    ADDRESSED,
    Asking,
    JobInBrief,
    KnownCustomer,
    known_by,
    likeliest,
    name_key,
    place_key,
    telephones,
)
from storage.mapping.codec import value_of
from storage.migrations.search_keys import (
    NUMBER_CELLS,
    NUMBER_END,
    ODD_CUSTOMER,
    ODD_SITE,
    POSTCODE_CELLS,
    POSTCODE_END,
    squeezed,
)
from storage.queries import read_job
from storage.rows import BookingRow, CustomerRow, JobRow, SignoffRow, SiteRow
from storage.tables import Tables

MOST: Final = 9
"""So many that may be meant are told apart; more are no help."""
_ENOUGH, _ODD_ONES = 300, 3000
"""Rows that one index gives at most, the newest: a place may be that of a whole town."""

_NAMES = "IN (SELECT value FROM json_each(:names))"
_NUMBERS = "IN (SELECT value FROM json_each(:numbers))"
_WAYS = (
    ("id", "customer", f"{squeezed('name')} {_NAMES}", _ENOUGH),
    ("id", "customer", f"{NUMBER_END} {_NUMBERS}", _ENOUGH),
    ("id", "customer", f"{POSTCODE_END} = :postcode", _ENOUGH),
    ("id", "customer", ODD_CUSTOMER, _ODD_ONES),
    ("customer_id", "site", f"{squeezed('place')} = :place", _ENOUGH),
    ("customer_id", "site", f"{POSTCODE_END} = :postcode", _ENOUGH),
    ("customer_id", "site", ODD_SITE, _ODD_ONES),
)
_EACH = " UNION ".join(
    f"SELECT * FROM (SELECT {key} FROM {table} WHERE {so} ORDER BY 1 DESC LIMIT {most})"  # noqa: S608 -- ours
    for key, table, so, most in _WAYS
)
_MAY_BE = text(
    f"""SELECT customer.id, name, phone, customer.address, place, site.address
    FROM customer JOIN site ON customer_id = customer.id
    WHERE customer.id IN ({_EACH}) ORDER BY customer.id"""  # noqa: S608 -- ours
)


def find_customers(session: Session, asking: Asking) -> tuple[KnownCustomer, ...]:
    """Return the customers that may be asking, the likeliest first, :data:`MOST` of them."""
    name, place = name_key(asking.name), place_key(asking.place)
    postcode = postcode_in(asking.place).replace(" ", "")
    rows = session.execute(
        _MAY_BE,
        {
            "names": json.dumps([before + name for before in ADDRESSED] if name else []),
            "numbers": json.dumps([n[-NUMBER_CELLS:] for n in telephones(asking.phone)]),
            "postcode": postcode[-POSTCODE_CELLS:] or None,
            "place": place or None,
        },
    )
    known = {
        key: by
        for key, several in groupby(rows, key=lambda row: row[0])
        if (by := known_by(asking, *_in_part(list(several))))
    }
    keys = sorted(known, key=lambda key: (len(known[key]), key), reverse=True)[:MOST]
    return likeliest(asking, known_customers(session, keys))


def known_customers(session: Session, keys: Sequence[int]) -> tuple[KnownCustomer, ...]:
    """Return customers by their numbers; one that is gone is left out."""
    wanted = select(CustomerRow).where(col(CustomerRow.id).in_(keys)).order_by(col(CustomerRow.id))
    jobs = _in_brief(session, keys)
    return tuple(
        KnownCustomer(
            customer=value_of(Customer, row.model_dump()),
            sites=tuple({site.id: site for site, _ in jobs[row.id]}.values()),
            jobs=tuple(job for _, job in jobs[row.id]),
        )
        for row in session.exec(wanted)
        if row.id in jobs
    )


def read_record(session: Session, customer_id: int) -> CustomerRecord:
    """Return a customer with every job. Raises :class:`Refused` for one that is gone."""
    row = session.get(CustomerRow, customer_id)
    if row is None:
        raise Refused("customer", customer_id, "They are no longer in the book.")
    wanted = (
        select(JobRow.id)
        .join(SiteRow, col(SiteRow.id) == JobRow.site_id)
        .where(SiteRow.customer_id == customer_id)
        .order_by(desc(JobRow.id))
    )
    tables = Tables(session)
    jobs = tuple(read_job(tables, key) for key in session.exec(wanted))
    return CustomerRecord(value_of(Customer, row.model_dump()), jobs)


def _in_part(rows: Sequence[Any]) -> tuple[Customer, tuple[Site, ...]]:
    """As much of a customer as tells who it is."""
    _, name, phone, address, _, _ = rows[0]
    sites = tuple(Site(place, at) for *_, place, at in rows)
    return Customer(name=name, phone=phone, address=address), sites


def _in_brief(
    session: Session, customers: Iterable[int]
) -> Mapping[int | None, list[tuple[Site, JobInBrief]]]:
    """The jobs of customers, the newest first, each with its site."""
    last_day = (
        select(func.max(BookingRow.day)).where(BookingRow.job_id == JobRow.id).scalar_subquery()
    )
    signed_off = select(SignoffRow.on).where(SignoffRow.job_id == JobRow.id).scalar_subquery()
    wanted = (
        select(SiteRow, JobRow, func.coalesce(signed_off, last_day, JobRow.received_on))
        .join(JobRow, col(JobRow.site_id) == SiteRow.id)
        .where(col(SiteRow.customer_id).in_(customers))
        .order_by(desc(JobRow.id))
    )
    found: dict[int | None, list[tuple[Site, JobInBrief]]] = {}
    for site, job, on in session.exec(wanted):
        ended = None if job.ended is None else Ending(job.ended)
        brief = JobInBrief(job.ref, Stage(job.stage), ended, date.fromisoformat(on), site.id)
        each = (value_of(Site, site.model_dump()), brief)
        found.setdefault(site.customer_id, []).append(each)
    return found
